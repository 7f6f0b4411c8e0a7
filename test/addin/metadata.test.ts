import { describe, expect, it } from 'vitest';
import { helpPage } from '../../src/addin/help-page.ts';
import { metadata } from '../../src/addin/metadata.ts';
import type { HostFunction } from '../../src/sheet/host-function.ts';
import { hostFunctions } from './fake-functions.ts';

const HELP = 'https://example.test/help.html';
const named = (name: string, more: Partial<HostFunction> = {}): HostFunction => ({ name, summary: 's', parameters: [], call: () => [[1]], ...more });
const withParameter = (name: string, summary: string): HostFunction =>
  named('BURN.PIN.TIME', { parameters: [{ name, summary, optional: false, example: '1' }] });

describe('functions.json', () => {
  it('describes each function with its arguments, every one a range of anything', () => {
    expect(metadata(hostFunctions, HELP).functions[0]).toEqual({
      id: 'ARGUMENTS',
      name: 'ARGUMENTS',
      description: 'What arrived, as text',
      helpUrl: 'https://example.test/help.html#ARGUMENTS',
      parameters: [
        { name: 'first', description: 'the first', type: 'any', dimensionality: 'matrix' },
        { name: 'second', description: 'the second', type: 'any', dimensionality: 'matrix', optional: true },
        { name: 'third', description: 'the third', type: 'any', dimensionality: 'matrix', optional: true },
      ],
      result: { type: 'any', dimensionality: 'matrix' },
    });
  });

  it('lets error values in, and leaves rich values out: both flags together crash one host version', () => {
    const json = metadata(hostFunctions, HELP);
    expect(json.allowErrorForDataTypeAny).toBe(true);
    expect(json).not.toHaveProperty('allowCustomDataForDataTypeAny');
  });

  it('leaves the namespace to the manifest', () => {
    expect(metadata([named('BURN.PIN.TIME')], HELP).functions[0]?.id).toBe('PIN.TIME');
    expect(() => metadata([named('PIN.TIME')], HELP)).toThrow('outside the namespace BURN');
  });

  it.each(['BURN.pin.time', 'BURN.AB', 'BURN.1ST', 'BURN.PIN_TIME', 'BURN.PIN..TIME', `BURN.${'A'.repeat(129)}`])('refuses the name %s', (name) => {
    expect(() => metadata([named(name)], HELP)).toThrow('the host does not take this name');
  });

  it('refuses texts that the host would cut', () => {
    expect(() => metadata([named('BURN.PIN.TIME', { summary: 'x'.repeat(255) })], HELP)).toThrow('has 255 characters; the host takes 254');
    expect(() => metadata([withParameter('hole', 'x'.repeat(255))], HELP)).toThrow('the summary of hole in BURN.PIN.TIME has 255');
    expect(() => metadata([withParameter('x'.repeat(65), 's')], HELP)).toThrow('a parameter name of BURN.PIN.TIME has 65');
    expect(() => metadata([withParameter('hole', '')], HELP)).toThrow('the summary of hole in BURN.PIN.TIME is empty');
  });

  it('refuses more parameter names than the function wizard shows', () => {
    const parameters = Array.from({ length: 5 }, () => ({ name: 'x'.repeat(60), summary: 's', optional: false, example: '1' }));
    expect(() => metadata([named('BURN.PIN.TIME', { parameters })], HELP)).toThrow('the parameter names of BURN.PIN.TIME together');
  });
});

describe('the help page', () => {
  it('has a section for every help address of functions.json', () => {
    const page = helpPage(hostFunctions);
    for (const { helpUrl } of metadata(hostFunctions, HELP).functions) expect(page).toContain(`id="${helpUrl.split('#')[1] ?? ''}"`);
  });

  it('marks arguments that may be left out and keeps texts as texts', () => {
    const page = helpPage([named('BURN.PIN.TIME', { summary: 'a < b & "c"', parameters: [{ name: 'hole', summary: '<b>', optional: true, example: '1' }] })]);
    expect(page).toContain('BURN.PIN.TIME([hole])');
    expect(page).toContain('a &#60; b &#38; &#34;c&#34;');
    expect(page).not.toContain('<b>');
  });
});
