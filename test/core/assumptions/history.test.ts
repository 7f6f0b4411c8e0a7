import { describe, expect, it } from 'vitest';
import { Assumptions } from '../../../src/core/assumptions/assumptions.ts';
import {
  FIRST_VERSION,
  HISTORY,
  changesAfter,
  keptVersions,
  registryAsOf,
  versionAsOf,
  type Change,
} from '../../../src/core/assumptions/history.ts';
import { REGISTRY, findAssumption } from '../../../src/core/assumptions/registry.ts';
import { CALCULATION_VERSION } from '../../../src/core/version.ts';
import { INCH } from '../../../src/core/units/quantities.ts';

/** Two invented changes: the stub was 5 in until March and 4 in until June 2099, and the material was another word. */
const INVENTED: readonly Change[] = [
  {
    version: '2099.03.01',
    replaced: [
      { name: 'stub', value: 5, low: 4, high: 6 },
      { name: 'material', value: 'cast iron' },
    ],
    calculation: ['friction in hoses'],
  },
  { version: '2099.06.15', replaced: [{ name: 'stub', value: 4, low: 3, high: 5 }], calculation: [] },
];
const stubAsOf = (version: string): number =>
  Assumptions.fromRegistry(registryAsOf(version, INVENTED), version).value('stub') / INCH;

describe('the history of the defaults', () => {
  it('ends with the version that calculates today: a new version says what it changed', () => {
    expect(keptVersions().at(-1)).toBe(CALCULATION_VERSION);
  });

  it('names known assumptions, in the order of their versions', () => {
    for (const change of HISTORY)
      for (const each of change.replaced) expect(findAssumption(each.name)?.name).toBe(each.name);
    const versions = keptVersions();
    expect([...versions].sort()).toEqual(versions);
    expect(new Set(versions).size).toBe(versions.length);
  });

  it("gives today's registry for today", () => {
    expect(registryAsOf(CALCULATION_VERSION)).toEqual([...REGISTRY]);
    expect(registryAsOf('2099.06.15', INVENTED)).toEqual([...REGISTRY]);
  });

  it('takes later changes back, newest first', () => {
    const today = Assumptions.defaults().value('stub') / INCH;
    expect([FIRST_VERSION, '2099.03.01', '2099.06.15'].map(stubAsOf)).toEqual([5, 4, today]);
    expect(Assumptions.fromRegistry(registryAsOf(FIRST_VERSION, INVENTED), FIRST_VERSION).word('material')).toBe(
      'cast iron',
    );
  });

  it('leaves what did not change as it is', () => {
    const then = Assumptions.fromRegistry(registryAsOf(FIRST_VERSION, INVENTED), FIRST_VERSION);
    expect(then.inForce('slag temperature')).toEqual(Assumptions.defaults().inForce('slag temperature'));
    expect(then.version).toBe(FIRST_VERSION);
  });

  it('finds the version in force at a date, and none before the first', () => {
    expect(versionAsOf('2099-05-31', INVENTED)).toBe('2099.03.01');
    expect(versionAsOf('2099.06.15', INVENTED)).toBe('2099.06.15');
    expect(versionAsOf('2101-01-01', INVENTED)).toBe('2099.06.15');
    expect(versionAsOf('1999-01-01', INVENTED)).toBeUndefined();
    expect(versionAsOf('last year', INVENTED)).toBeUndefined();
  });

  it('tells what changed after a version', () => {
    expect(changesAfter(FIRST_VERSION, INVENTED)).toEqual(INVENTED);
    expect(changesAfter('2099.03.01', INVENTED)).toEqual([INVENTED[1]]);
  });
});
