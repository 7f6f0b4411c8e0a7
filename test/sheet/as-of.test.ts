import { describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { Assumptions } from '../../src/core/assumptions/assumptions.ts';
import { registryAsOf, type Change } from '../../src/core/assumptions/history.ts';
import { hostFunctionsWith, hostFunctions } from '../../src/sheet/host-functions.ts';
import type { Argument, Cell } from '../../src/sheet/host-function.ts';

const INVENTED: readonly Change[] = [
  { version: '2099.01.01', replaced: [{ name: 'stub', value: 8, low: 7, high: 9 }], calculation: [] },
];
/** Coupled rods lose few stubs. */
const SINGLE = '3/8 x 36';
const then = hostFunctionsWith(Assumptions.fromRegistry(registryAsOf('2026.11.25', INVENTED), '2026.11.25'));
const value = (functions: typeof then, name: string, ...args: readonly Argument[]): Cell =>
  functions.find((f) => f.name === name)?.call(args)[0]?.[0] ?? null;

describe('functions with the defaults of an earlier version', () => {
  it('give what a row with the old default gives today', () => {
    const asThen = value(then, 'BURN.PIN.RODS', 6, 24, undefined, SINGLE);
    expect(asThen).toBe(value(hostFunctions, 'BURN.PIN.RODS', 6, 24, undefined, SINGLE, undefined, [['stub', 8]]));
    expect(asThen).not.toBe(value(hostFunctions, 'BURN.PIN.RODS', 6, 24, undefined, SINGLE));
  });

  it("take a row equal to the old default for no override, and a row for today's default for one", () => {
    const rods = (stub: number): Cell =>
      value(then, 'BURN.PIN.RODS', 6, 24, undefined, SINGLE, undefined, [['stub', stub]]);
    expect(rods(8)).toBe(value(then, 'BURN.PIN.RODS', 6, 24, undefined, SINGLE));
    expect(rods(3)).toBe(value(hostFunctions, 'BURN.PIN.RODS', 6, 24, undefined, SINGLE));
  });

  it('list the old defaults and name the old version', () => {
    expect(
      then
        .find((f) => f.name === 'BURN.ASSUMED')
        ?.call(['stub'])[1]
        ?.slice(0, 4),
    ).toEqual(['stub', 8, 7, 9]);
    expect(value(then, 'BURN.VERSION')).toBe('2026.11.25');
  });

  it("are the same functions as today's", () => {
    expect(then.map((f) => f.name)).toEqual(hostFunctions.map((f) => f.name));
    expect(findFunction('BURN.VERSION')).toBeDefined();
  });
});
