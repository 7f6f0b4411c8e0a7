import { describe, expect, it } from 'vitest';
import { metadata } from '../../src/addin/metadata.ts';
import type { HostFunction } from '../../src/sheet/host-function.ts';
import { hostFunctions } from './fake-functions.ts';

const REFERENCE = 'https://example.test/reference';
const named = (name: string, more: Partial<HostFunction> = {}): HostFunction => ({
  name,
  summary: 's',
  parameters: [],
  call: () => [[1]],
  ...more,
});
const withParameter = (name: string, summary: string): HostFunction =>
  named('BURN.PIN.TIME', { parameters: [{ name, summary, optional: false, example: '1' }] });

describe('functions.json', () => {
  it('describes each function with its arguments, every one a range of anything', () => {
    expect(metadata(hostFunctions, REFERENCE).functions[0]).toEqual({
      id: 'ARGUMENTS',
      name: 'ARGUMENTS',
      description: 'What arrived, as text',
      helpUrl: 'https://example.test/reference/arguments.html',
      options: { cancelable: true },
      parameters: [
        { name: 'first', description: 'the first', type: 'any', dimensionality: 'matrix' },
        { name: 'second', description: 'the second', type: 'any', dimensionality: 'matrix', optional: true },
        { name: 'third', description: 'the third', type: 'any', dimensionality: 'matrix', optional: true },
      ],
      result: { type: 'any', dimensionality: 'matrix' },
    });
  });

  it('lets error values in, and leaves rich values out: both flags together crash one host version', () => {
    const json = metadata(hostFunctions, REFERENCE);
    expect(json.allowErrorForDataTypeAny).toBe(true);
    expect(json).not.toHaveProperty('allowCustomDataForDataTypeAny');
  });

  it('leaves the namespace to the manifest', () => {
    expect(metadata([named('BURN.PIN.TIME')], REFERENCE).functions[0]?.id).toBe('PIN.TIME');
    expect(() => metadata([named('PIN.TIME')], REFERENCE)).toThrow('outside the namespace BURN');
  });

  it.each(['BURN.pin.time', 'BURN.AB', 'BURN.1ST', 'BURN.PIN_TIME', 'BURN.PIN..TIME', `BURN.${'A'.repeat(129)}`])(
    'refuses the name %s',
    (name) => {
      expect(() => metadata([named(name)], REFERENCE)).toThrow('the host does not take this name');
    },
  );

  it('refuses texts that the host would cut', () => {
    expect(() => metadata([named('BURN.PIN.TIME', { summary: 'x'.repeat(255) })], REFERENCE)).toThrow(
      'has 255 characters; the host takes 254',
    );
    expect(() => metadata([withParameter('hole', 'x'.repeat(255))], REFERENCE)).toThrow(
      'the summary of hole in BURN.PIN.TIME has 255',
    );
    expect(() => metadata([withParameter('x'.repeat(65), 's')], REFERENCE)).toThrow(
      'a parameter name of BURN.PIN.TIME has 65',
    );
    expect(() => metadata([withParameter('hole', '')], REFERENCE)).toThrow(
      'the summary of hole in BURN.PIN.TIME is empty',
    );
  });

  it('refuses more parameter names than the function wizard shows', () => {
    const parameters = Array.from({ length: 5 }, () => ({
      name: 'x'.repeat(60),
      summary: 's',
      optional: false,
      example: '1',
    }));
    expect(() => metadata([named('BURN.PIN.TIME', { parameters })], REFERENCE)).toThrow(
      'the parameter names of BURN.PIN.TIME together',
    );
  });
});
