/**
 * Every operation swept over its sizes in steps of 0.01 in: what it takes rises with the size, or its words say why not.
 *
 * Rods, oxygen, burning, time at the work and crew time, with the cooling of a pin in it, may fall only where another rod or way is
 * taken, which then costs no more, as its reason says. The cost itself falls only where a thicker rod passes from there on, or where
 * slag holds up a narrow pierce, and both are said before it falls.
 */
import { describe, expect, it } from 'vitest';
import type { Override } from '../../../src/core/assumptions/assumptions.ts';
import { notesOf } from '../../../src/core/operations/notes.ts';
import { operationOf, type OperationId } from '../../../src/core/operations/all.ts';
import type { Sized } from '../../../src/core/operations/sized.ts';
import { IN, basisOf, set, sized, word } from './sized.ts';
import type { Basis } from '../../../src/core/basis.ts';

const STEP = 0.01;
const AS_MUCH = 1 - 1e-9;

interface Sweep {
  readonly id: OperationId;
  /** In inches, counts as they are. */
  readonly sizes: readonly number[];
  readonly from: number;
  readonly to: number;
  /** Place of the size that grows. */
  readonly of: number;
  readonly basis?: Basis;
}

const SWEEPS: readonly Sweep[] = [
  { id: 'PIN', sizes: [4, 10], of: 0, from: 0.7, to: 9 },
  { id: 'PIN', sizes: [4, 10], of: 1, from: 0.5, to: 20 },
  { id: 'PIN', sizes: [6, 24], of: 1, from: 2, to: 32 },
  { id: 'PIN', sizes: [1.2, 4], of: 0, from: 0.7, to: 3 },
  { id: 'PIN', sizes: [6, 10, 2.4], of: 2, from: 0.4, to: 5.5 },
  { id: 'PIN', sizes: [4, 10], of: 0, from: 0.7, to: 9, basis: basisOf(word('cooling method', 'water')) },
  { id: 'PIN', sizes: [4, 10], of: 1, from: 0.5, to: 20, basis: basisOf(set('boss over pin', 1.6)) },
  { id: 'HOLE', sizes: [1, 6], of: 0, from: 0.4, to: 4 },
  { id: 'HOLE', sizes: [1, 6], of: 1, from: 0.2, to: 30 },
  { id: 'HOLE', sizes: [0.5, 12], of: 1, from: 0.2, to: 30 },
  { id: 'HOLE', sizes: [0.8, 25], of: 0, from: 0.4, to: 2 },
  { id: 'GOUGE', sizes: [0.75, 0.5, 24], of: 0, from: 0.3, to: 3 },
  { id: 'GOUGE', sizes: [0.75, 0.5, 24], of: 1, from: 0.05, to: 2 },
  { id: 'GOUGE', sizes: [0.75, 0.5, 24], of: 2, from: 1, to: 40 },
  { id: 'CUT', sizes: [2, 24], of: 0, from: 0.1, to: 14 },
  { id: 'CUT', sizes: [5.3, 24], of: 1, from: 1, to: 40 },
  { id: 'CUT', sizes: [6, 11], of: 1, from: 1, to: 25 },
  { id: 'CUT', sizes: [0.5, 5], of: 1, from: 0.5, to: 20 },
  {
    id: 'CUT',
    sizes: [2, 24],
    of: 0,
    from: 0.1,
    to: 14,
    basis: basisOf(set('ends worked', 2), word('access', 'tight')),
  },
  { id: 'STUD', sizes: [1.5, 10], of: 0, from: 0.2, to: 6 },
  { id: 'STUD', sizes: [4, 3], of: 0, from: 0.2, to: 8 },
  { id: 'BREACH', sizes: [24, 2.5, 1], of: 0, from: 2, to: 60 },
  { id: 'BREACH', sizes: [8, 1.5, 4], of: 0, from: 1, to: 30 },
  { id: 'BREACH', sizes: [24, 2.5, 1], of: 1, from: 0.5, to: 6 },
];

interface At {
  readonly x: number;
  readonly item: Sized;
  readonly choice: string;
}

/** Neighbours of a sweep. */
function pairs({ id, sizes, of, from, to, basis = basisOf() }: Sweep): readonly (readonly [At, At])[] {
  const operation = operationOf(id);
  const at = Array.from({ length: Math.round((to - from) / STEP) + 1 }, (_, i): At => {
    const x = from + i * STEP;
    const all = sizes.map((size, k) => (k === of ? x : size));
    const item = sized(
      operation,
      all.map((size, k) => (operation.sizes[operation.order[k]!]!.whole ? size : size * IN)),
      { basis },
    );
    return { x, item, choice: `${item.name} ${item.method ?? ''}` };
  });
  return at.slice(1).map((after, i) => [at[i]!, after] as const);
}

const TAKEN = {
  rods: (s: Sized) => s.rods,
  oxygen: (s: Sized) => s.oxygen,
  burning: (s: Sized) => s.burnTime,
  'time at the work': (s: Sized) => s.timeAtWork,
  'crew time': (s: Sized) => s.crewTime,
  'tip pressure': (s: Sized) => s.pressure,
} as const;

describe.each(SWEEPS.map((s) => [`${s.id} ${s.sizes.join(' x ')}, ${operationOf(s.id).order[s.of]!}`, s] as const))(
  '%s',
  (_, sweep) => {
    const all = pairs(sweep);
    const operation = operationOf(sweep.id);
    const width = operation.order[sweep.of] === (operation.piercedAt ?? '');

    it('takes no less of anything but where the choice changes, which then costs no more', () => {
      for (const [before, after] of all) {
        const fell = Object.entries(TAKEN).filter(([, of]) => of(after.item) < of(before.item) * AS_MUCH);
        if (fell.length === 0) continue;
        const where = `${fell.map(([name]) => name).join(', ')} at ${after.x.toFixed(2)}`;
        // A wider pierce that lets slag out faster is the one thing that takes less by the same choice.
        if (before.choice === after.choice) expect(width && before.item.slagged, where).toBe(true);
        else expect(after.item.rod.reason, where).toContain('its work costs least of');
      }
    });

    it('costs more, but where a thicker rod passes or slag gets out, which is said before', () => {
      const dropped = all.filter(([before, after]) => after.item.cost < before.item.cost * AS_MUCH);
      for (const [before, after] of dropped) {
        const thicker = after.item.rod.rod.outsideDiameter > before.item.rod.rod.outsideDiameter;
        const where = `${before.item.cost} at ${before.x.toFixed(2)}, ${after.item.cost} at ${after.x.toFixed(2)}`;
        // The thicker one may have passed before and been held up by slag itself.
        if (thicker && width && after.item.slagged)
          expect(notesOf(after.item, basisOf()).join(), where).toContain('slag gets out of so narrow a');
        else if (thicker)
          expect(before.item.rod.reason, where).toContain(`; ${after.item.rod.rod.name} would make it `);
        else {
          expect(width, where).toBe(true);
          expect(notesOf(before.item, basisOf()).join(), where).toContain('slag gets out of so narrow a');
        }
      }
      if (!width && operation.opening(all[0]![0].item.planned) === undefined) expect(dropped).toEqual([]);
    });

    it('comes to few choices, and hardly back to one, so that a small difference of sizes is none of choices', () => {
      const choices = all.map(([, { choice }]) => choice).filter((choice, i, list) => choice !== list[i - 1]);
      expect(choices.length, choices.join(', ')).toBeLessThanOrEqual(7);
      for (const choice of choices)
        expect(choices.filter((c) => c === choice).length, choices.join(', ')).toBeLessThanOrEqual(2);
    });
  },
);

describe('the cost of the work', () => {
  it('goes up without a jump within a choice of way and rod, holes and rods counted before they are rounded', () => {
    for (const sweep of SWEEPS)
      for (const [before, after] of pairs(sweep))
        if (before.choice === after.choice)
          expect(after.item.cost / before.item.cost - 1, `${sweep.id} ${after.x.toFixed(2)}`).toBeLessThan(
            4 * (STEP / before.x) + 1e-9,
          );
  });

  it('is what crew, rods and oxygen come to at the prices', () => {
    const basis = basisOf(set('crew price', 1 / 60), set('rod price', 0), set('oxygen price', 0));
    const pin = sized(operationOf('PIN'), [4 * IN, 10 * IN], { rod: '3/8 x 36', basis });
    // Burning with its pauses, and the rods as they are used before they are rounded up, 0.75 min each.
    const { value: used } = pin.working('N_used');
    expect(pin.cost).toBeCloseTo((pin.burnTime / 0.7 + used * 45) / 60, 9);
    const gas = sized(operationOf('PIN'), [4 * IN, 10 * IN], {
      rod: '3/8 x 36',
      basis: basisOf(set('crew price', 0), set('rod price', 0), set('oxygen price', 1)),
    });
    // Idle share 0.08, five seconds to light a rod.
    expect(gas.cost).toBeCloseTo(gas.flow * (gas.burnTime * 1.08 + used * 5), 6);
    const steel = sized(operationOf('PIN'), [4 * IN, 10 * IN], {
      rod: '3/8 x 36',
      basis: basisOf(set('crew price', 0), set('rod price', 1), set('oxygen price', 0)),
    });
    expect(steel.cost).toBeCloseTo(0.4406 * 36 * IN * used, 2);
  });

  it('decides: dear rods are thin ones or few, dear oxygen is no kerf, a dear crew is quick', () => {
    const cut = (...more: readonly Override[]): Sized =>
      sized(operationOf('CUT'), [5 * IN, 24 * IN], { basis: basisOf(...more) });
    const asPriced = cut();
    const quick = cut(set('crew price', 1), set('rod price', 0), set('oxygen price', 0));
    const saving = cut(set('crew price', 0), set('oxygen price', 1000), set('rod price', 0));
    const few = cut(set('crew price', 0), set('oxygen price', 0), set('rod price', 1000));
    expect(quick.timeAtWork).toBeLessThanOrEqual(Math.min(asPriced.timeAtWork, saving.timeAtWork) * (1 + 0.02));
    expect(saving.oxygen).toBeLessThanOrEqual(Math.min(asPriced.oxygen, quick.oxygen) * (1 + 0.02));
    const weight = (s: Sized): number => s.rods * s.rod.length * s.rod.rod.outsideDiameter ** 2;
    expect(weight(few)).toBeLessThanOrEqual(Math.min(weight(asPriced), weight(quick)) * 1.2);
  });
});
