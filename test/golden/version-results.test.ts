/**
 * Every kept result, calculated again. Where a change is meant: `npm run golden` renews the file, `npm run golden -- words`
 * only what is said around the results.
 */
import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../src/catalogue/catalogue.ts';
import { CALCULATION_VERSION } from '../../src/core/version.ts';
import { CALLS } from './calls.ts';
import { allDifferences, calculate, differences, readGolden } from './golden.ts';
import { changed, readKeptVersion, registers, versionFault } from './version-guard.ts';

const kept = readGolden();
const found = await calculate(CALLS);

/** Enough to see what kind of change it is. */
const shown = (all: readonly string[]): readonly string[] =>
  all.length > 30 ? [...all.slice(0, 30), `and ${all.length - 30} more`] : all;

describe('the results', () => {
  it('hold every call, and every function among them', () => {
    expect(Object.keys(found.results).filter((formula) => !(formula in kept.results))).toEqual([]);
    const called = [...Object.keys(kept.results), ...Object.keys(kept.words)].join('\n');
    expect(CATALOGUE.map((d) => d.name).filter((name) => !called.includes(`=${name}(`))).toEqual([]);
  });

  it('are as they were', () => {
    const version = readKeptVersion();
    const fault = versionFault(CALCULATION_VERSION, version, changed(version, registers, kept, found));
    expect(shown(allDifferences(kept.results, found.results)), fault).toEqual([]);
  });
});

describe('the words of workings and cautions', () => {
  it('stand with the same calls', () => {
    const said = Object.entries(found.words).filter(([, rows]) => rows.length > 0);
    expect(said.map(([formula]) => formula).filter((formula) => !(formula in kept.words))).toEqual([]);
  });

  it('are as they were', () => {
    expect(shown(allDifferences(kept.words, found.words))).toEqual([]);
  });
});

describe('a difference', () => {
  const formula = '=BURN.PIN.PLAN(4,10)';
  const [row] = kept.results[formula]!;

  it('names the call, the cell, what was expected and what was found', () => {
    expect(differences('=BURN.PIN.RODS(4,10)', [[5]], [[6]])).toEqual([
      '=BURN.PIN.RODS(4,10), row 1, column 1: 5 expected, 6 found',
    ]);
    expect(differences(formula, [row!], [])).toContain(`${formula}: 1 rows expected, 0 found`);
    expect(differences('=BURN.PIN.STEPS(4,10)', [['d', 0.1]], [['t', 3]])).toEqual([
      '=BURN.PIN.STEPS(4,10), step "d", column 1: "d" expected, nothing found',
      '=BURN.PIN.STEPS(4,10), step "d", column 2: 0.1 expected, nothing found',
    ]);
  });

  it('is no rounding of the arithmetic, and no other order of the steps', () => {
    expect(differences(formula, [[1]], [[1 + 4e-13]])).toEqual([]);
    expect(differences(formula, [[1]], [[1 + 4e-12]])).toHaveLength(1);
    expect(differences(formula, [[0]], [[1e-30]])).toHaveLength(1);
    expect(
      differences(
        '=BURN.PIN.STEPS(4,10)',
        [
          ['d', 1],
          ['t', 2],
        ],
        [
          ['t', 2],
          ['d', 1],
        ],
      ),
    ).toEqual([]);
  });
});
