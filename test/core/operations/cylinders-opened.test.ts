import { describe, expect, it } from 'vitest';
import { cylindersOpened, type SuppliedItem } from '../../../src/core/operations/cylinders-opened.ts';
import { countInForce } from '../../../src/core/oxygen/cylinder-count.ts';
import { drawableContent } from '../../../src/core/oxygen/drawable-content.ts';
import { PSI, SCF } from '../../../src/core/units/quantities.ts';
import { basisOf, set } from './sized.ts';

const item = (scf: number, scfm = 10, psi = 100): SuppliedItem => ({
  oxygen: scf * SCF,
  flow: (scfm * SCF) / 60,
  setting: psi * PSI,
});
const unfed: SuppliedItem = { ...item(900), setting: undefined };
const sum = (items: readonly SuppliedItem[]): number => cylindersOpened(items, basisOf()).at(-1)!.opened;
/** Cylinders for so much oxygen where the regulator delivers at a pressure and feeds a flow, by the count of a list's total. */
const counted = (scf: number, scfm: number, psi: number): number =>
  countInForce(
    scf * SCF,
    undefined,
    basisOf(
      set('delivery pressure', psi * PSI),
      set('cylinder draw flow', (10 * SCF) / 60),
      set('leftover pressure', leftover(scfm, psi)),
    ),
  ).value;
/** What has to be left for the valve and the droop at that flow; the cylinders are drawn at the assumed flow in both. */
const leftover = (scfm: number, psi: number): number => Math.max(250 * PSI, (psi + (6 * scfm) / 20) * PSI);

describe('cylinders opened along a list', () => {
  it('are opened as the list comes to need them: 212 scf each of 43 L at 2200 psig, drawn to 250 psig', () => {
    // 100, 200 | 300, 400 | 500: the third and the fifth open another.
    expect(
      cylindersOpened(
        [100, 100, 100, 100, 100].map((scf) => item(scf)),
        basisOf(),
      ).map(({ opened }) => opened),
    ).toEqual([1, 1, 2, 2, 3]);
    expect(cylindersOpened([item(1000), item(1), item(0)], basisOf()).map(({ opened }) => opened)).toEqual([5, 5, 5]);
    expect(cylindersOpened([], basisOf())).toEqual([]);
  });

  it('leave in the last what they hold less what was taken', () => {
    const content = drawableContent(basisOf(), { pressure: 100 * PSI, flow: (10 * SCF) / 60 });
    let taken = 0;
    for (const [i, { opened, left }] of cylindersOpened(
      [100, 100, 700, 0].map((scf) => item(scf)),
      basisOf(),
    ).entries()) {
      taken += [100, 100, 700, 0][i]! * SCF;
      expect(left).toBeCloseTo(opened * content - taken, 9);
      expect(left).toBeLessThan(content);
    }
  });

  it('are changed at what the most demanding item needs, wherever it stands', () => {
    const mild = [item(900), item(900), item(900)];
    expect(sum(mild)).toBe(counted(2700, 10, 100));
    const hard = item(900, 10, 900);
    expect(counted(2700, 10, 900)).toBeGreaterThan(counted(2700, 10, 100));
    for (const list of [
      [hard, item(900), item(900)],
      [item(900), hard, item(900)],
      [item(900), item(900), hard],
    ])
      expect(sum(list)).toBe(counted(2700, 10, 900));
    // An item that no setting feeds asks for none.
    expect(sum([unfed, hard, unfed])).toBe(counted(2700, 10, 900));
    expect(sum([hard, unfed, item(900)])).toBe(counted(2700, 10, 900));
  });

  it('leave more where an item draws faster: the valve and the droop ask for it', () => {
    const fast = item(900, 400, 250);
    // A droop of 6 psi for each 20 scfm: 370 psi left, or more for the open valve.
    expect(counted(2700, 400, 250)).toBeGreaterThan(counted(2700, 10, 250));
    for (const list of [
      [fast, item(900), item(900)],
      [item(900), item(900), fast],
    ])
      expect(sum(list)).toBeGreaterThanOrEqual(counted(2700, 400, 250));
  });
});
