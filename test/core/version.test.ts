/**
 * A changed default, formula or register entry is another version of the calculation: saved workbooks are told by it. The
 * formulas are tried in test/golden/version-results.test.ts.
 */
import { describe, expect, it } from 'vitest';
import { FIRST_VERSION, HISTORY } from '../../src/core/assumptions/history.ts';
import { REGISTRY } from '../../src/core/assumptions/registry.ts';
import { RODS } from '../../src/core/burn/rods.ts';
import { CAUTIONS } from '../../src/core/safety/cautions.ts';
import { CALCULATION_VERSION } from '../../src/core/version.ts';
import { readGolden, type Golden } from '../golden/golden.ts';
import {
  changed,
  digest,
  keptVersion,
  mayRenew,
  readKeptVersion,
  registers,
  versionFault,
  type Registers,
} from '../golden/version-guard.ts';

const before = readGolden();
const kept = readKeptVersion();

describe('the version of the calculation', () => {
  it('moved where a default or a register did', () => {
    expect(versionFault(CALCULATION_VERSION, kept, changed(kept, registers, before, before))).toBeUndefined();
  });

  it('is the first one until a change is kept in the history', () => {
    if (HISTORY.length === 0) expect(FIRST_VERSION).toBe(CALCULATION_VERSION);
    else expect(HISTORY.at(-1)?.version).toBe(CALCULATION_VERSION);
  });
});

describe('the guard of the version', () => {
  const own = keptVersion('2099.01.01', registers, before);
  const faultOf = (all: Registers, found: Golden = before): string =>
    versionFault('2099.01.01', own, changed(own, all, before, found)) ?? 'no fault';
  const advice = [
    'its version is still 2099.01.01',
    'move CALCULATION_VERSION in src/core/version.ts',
    'add an entry to HISTORY in src/core/assumptions/history.ts',
    'move FIRST_VERSION',
    'npm run golden',
  ];
  const expectFault = (text: string, what: string): void => {
    expect(text).toContain(what);
    for (const part of advice) expect(text).toContain(part);
  };

  it('has nothing to say where nothing changed', () => {
    expect(faultOf(registers)).toBe('no fault');
  });

  it('sees a changed default', () => {
    const assumptions = REGISTRY.map((a) => (a.name === 'stub' ? { ...a, value: 4 } : a));
    expectFault(faultOf({ ...registers, assumptions }), 'Changed: the register of assumptions.');
  });

  it('sees a changed entry of a register, one more and one less', () => {
    const wider = RODS.map((r) => (r.name === '3/8' ? { ...r, bore: r.bore * 1.0001 } : r));
    for (const rods of [wider, [...RODS, { ...RODS[0], name: '1/2' }], RODS.slice(1)])
      expectFault(faultOf({ ...registers, rods }), 'Changed: the register of rods.');
    const cautions = CAUTIONS.map((c, i) => (i === 0 ? { ...c, triggers: [] } : c));
    expectFault(faultOf({ ...registers, cautions }), 'Changed: the register of cautions.');
  });

  it('sees a changed formula by its results', () => {
    const found: Golden = { ...before, results: { ...before.results, '=BURN.PIN.RODS(4,10)': [[99]] } };
    expectFault(faultOf(registers, found), '1 results, the first =BURN.PIN.RODS(4,10), row 1, column 1:');
  });

  it('sees that the kept results were written anew by the way', () => {
    const renewed: Golden = { ...before, results: { ...before.results, '=BURN.PIN.RODS(4,10)': [[99]] } };
    const text = versionFault('2099.01.01', own, changed(own, registers, renewed, renewed)) ?? '';
    expectFault(text, 'Changed: the file of kept results.');
  });

  it('sees a version that moved without its digests', () => {
    expect(versionFault('2099.01.02', own, [])).toContain('run `npm run golden`');
  });

  it('asks for no version where only words, the order of parts or the last digits of a number changed', () => {
    const assumptions = REGISTRY.map((a) =>
      Object.fromEntries(Object.entries({ ...a, summary: 'Other words' }).reverse()),
    );
    expect(faultOf({ ...registers, assumptions })).toBe('no fault');
    expect(digest([0.1 + 0.2])).toBe(digest([0.3]));
    expect(digest([0.3])).not.toBe(digest([0.300001]));
  });

  it('lets the digests be renewed where the version moved, or is of the same day', () => {
    const changes = ['the register of rods'];
    expect(mayRenew('2099.01.01', own, changes, '2099.01.05')).toBe(false);
    expect(mayRenew('2099.01.05', own, changes, '2099.01.05')).toBe(true);
    expect(mayRenew('2099.01.01', own, changes, '2099.01.01')).toBe(true);
    expect(mayRenew('2099.01.01', own, [], '2099.01.05')).toBe(true);
  });
});
