/** What an operation needs besides its declaration: one that lacks something fails here, and is told in which file it goes. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { backgroundOf } from '../../src/catalogue/background.ts';
import { movesOf } from '../../src/catalogue/moves.ts';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { OPERATION_IDS, operationOf, type OperationId } from '../../src/core/operations/all.ts';
import { CAUTIONS } from '../../src/core/safety/cautions.ts';
import { toSi } from '../../src/core/units/parse-quantity.ts';
import { explain } from '../../src/sheet/explain.ts';
import { readGolden } from '../golden/golden.ts';

/** Operations for which the cautions of all work are enough, as was decided for each. */
const NO_CAUTIONS_OF_ITS_OWN: readonly OperationId[] = ['GOUGE'];
/** Results that no size of the operation raises. */
const NOT_BY_SIZE = ['BURN.BREACH.PRESSURE'];

const KEPT = Object.keys(readGolden().results);
const README = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
const RESULTS = ['RODS', 'OXYGEN', 'BURN', 'TIME', 'PRESSURE'] as const;
const functionsOf = (id: string): readonly string[] => [...RESULTS, 'PLAN', 'STEPS'].map((r) => `BURN.${id}.${r}`);

const said = (make: () => unknown): boolean => {
  try {
    return make() !== undefined;
  } catch {
    return false;
  }
};

/** Whether the working of an operation begins with each of its sizes as given. */
function showsItsSizes(id: OperationId): boolean {
  const { order, sizes } = operationOf(id);
  const given = order.map((name) => Number(sizes[name]?.example));
  const { steps } = explain(findFunction(`BURN.${id}.STEPS`)!, given);
  const shown = steps.filter((s) => s.kind === 'input').map((s) => s.value);
  return order.every((name, i) => shown.includes(toSi(given[i]!, sizes[name]!.quantity, 'US')));
}

const NEEDS: readonly (readonly [what: string, file: string, has: (id: OperationId) => boolean])[] = [
  [
    'words for its pages of the reference',
    'OPERATION_WORDS in src/catalogue/background.ts',
    (id) => functionsOf(id).every((name) => said(() => backgroundOf(name))),
  ],
  [
    'the direction in which its results move with its sizes',
    'SIZES in src/catalogue/moves.ts',
    (id) =>
      RESULTS.map((r) => `BURN.${id}.${r}`).every(
        (name) =>
          NOT_BY_SIZE.includes(name) ||
          [movesOf({ name })].every((moves) => moves.length > 0 && moves.every((m) => (m.rises ?? []).length > 0)),
      ),
  ],
  [
    'cautions of its own',
    'the triggers in src/core/safety/cautions-*.ts, or NO_CAUTIONS_OF_ITS_OWN in test/catalogue/every-operation.test.ts',
    (id) =>
      NO_CAUTIONS_OF_ITS_OWN.includes(id) ||
      // A trigger that names every operation is for all work.
      CAUTIONS.some((c) =>
        c.triggers.some((t) => t.operations?.includes(id) === true && t.operations.length < OPERATION_IDS.length),
      ),
  ],
  ['its sizes in the working, each with a symbol', 'its file in src/core/operations/', showsItsSizes],
  [
    'kept results',
    'SIZES and what follows in test/golden/calls.ts, then run `npm run golden`',
    (id) => functionsOf(id).every((name) => KEPT.some((formula) => formula.startsWith(`=${name}(`))),
  ],
  ['a line of the README', 'README.md, written by `npm run readme`', (id) => README.includes(`| \`${id}\` |`)],
];

describe.each(OPERATION_IDS)('the operation %s', (id) => {
  it.each(NEEDS)('has %s', (what, file, has) => {
    expect(has(id), `${id} lacks ${what}: see ${file}`).toBe(true);
  });
});
