import { describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { fromSi } from '../../src/core/units/parse-quantity.ts';
import { PSI } from '../../src/core/units/quantities.ts';
import type { Cell } from '../../src/catalogue/cell.ts';
import { readSelectedCell, isKnown } from '../../src/pane/explain-cell.ts';
import { explainItem } from '../../src/pane/explain-item.ts';
import type { Explained } from '../../src/pane/explained.ts';
import { supplyDrawing } from '../../src/pane/supply-drawing.ts';
import { supplyPoints, type SupplyPoints } from '../../src/pane/supply-points.ts';
import { call } from '../../src/sheet/call.ts';

async function explained(formula: string): Promise<Explained> {
  const cell = { sheet: 'Job sheet', address: 'A1', formula, value: null };
  const read = await readSelectedCell(cell, { read: () => Promise.reject(new Error('no cells')) });
  const [first] = read.calls;
  if (!first || !isKnown(first)) throw new Error(`${formula} is not read`);
  return explainItem(first, 0, cell);
}
const pointsOf = async (formula: string): Promise<SupplyPoints | undefined> => supplyPoints(await explained(formula));
const number = (name: string, ...args: readonly Cell[]): number => call(findFunction(name)!, args)[0]?.[0] as number;
const psi = (x: number | undefined): number => (x ?? NaN) / PSI;

describe('the supply line of a cell', () => {
  it('has the pressures of a checked supply', async () => {
    const points = await pointsOf('=BURN.SUPPLY.CHECK("3/8 x 36",90,50,"3/8",1,,30)');
    const rows = Object.fromEntries(
      call(findFunction('BURN.SUPPLY.CHECK')!, ['3/8 x 36', 90, 50, '3/8', 1, undefined, 30]).map((r) => [
        r[0] as string,
        r[1],
      ]),
    );
    expect(psi(points?.cylinder)).toBeCloseTo(rows['cylinder'] as number, 9);
    expect(psi(points?.outlet)).toBeCloseTo(rows['regulator outlet'] as number, 9);
    expect(psi(points?.tip)).toBeCloseTo(rows['tip'] as number, 9);
    expect(psi(points?.behind)).toBeCloseTo(rows['behind the holder'] as number, 9);
    expect(psi(points?.work)).toBeCloseTo(30 * 0.445, 9);
  });

  it('falls from place to place for an operation, in a value, a plan and its steps alike', async () => {
    const oxygen = await pointsOf('=BURN.PIN.OXYGEN(4,10)');
    expect(psi(oxygen?.cylinder)).toBeCloseTo(2200, 6);
    expect(psi(oxygen?.tip)).toBeCloseTo(number('BURN.PIN.PRESSURE', 4, 10), 9);
    const line = [oxygen?.outlet, oxygen?.tip, oxygen?.behind, oxygen?.work].map((p) => p ?? NaN);
    expect(line).toEqual([...line].sort((a, b) => b - a));
    expect(new Set(line).size).toBe(4);
    for (const formula of ['=BURN.PIN.PLAN(4,10)', '=BURN.PIN.STEPS(4,10)']) {
      const other = await pointsOf(formula);
      for (const place of ['cylinder', 'outlet', 'tip', 'behind', 'work', 'flow'] as const)
        expect(other?.[place] ?? NaN, place).toBeCloseTo(oxygen?.[place] ?? NaN, 3);
    }
  });

  it('shows of a hose and of a rod what they know', async () => {
    const hose = await pointsOf('=BURN.HOSE.SETTING(90,15,50,"3/8",60)');
    expect(psi(hose?.outlet)).toBeCloseTo(number('BURN.HOSE.SETTING', 90, 15, 50, '3/8', 60), 9);
    expect(psi(hose?.tip)).toBeCloseTo(116.7, 9);
    expect(psi(hose?.work)).toBeCloseTo(26.7, 9);
    expect(hose?.cylinder).toBeUndefined();
    const rod = await pointsOf('=BURN.ROD.FLOW("3/8",80,20)');
    expect(psi(rod?.tip)).toBeCloseTo(80, 9);
    expect(psi(rod?.behind)).toBeLessThan(80);
    expect(fromSi(rod?.flow ?? 0, 'flow', 'US')).toBeCloseTo(number('BURN.ROD.FLOW', '3/8', 80, 20), 9);
    expect(rod?.outlet).toBeUndefined();
  });

  it('is not there for cells that say nothing of it', async () => {
    for (const formula of [
      '=BURN.PIN.HOLE(4)',
      '=BURN.CYLINDER.GAUGE(2200,0)',
      '=BURN.PIN.OXYGEN(0,10)',
      '=BURN.VERSION()',
    ])
      expect(await pointsOf(formula), formula).toBeUndefined();
  });
});

describe('its drawing', () => {
  const points: SupplyPoints = {
    cylinder: 2200 * PSI,
    outlet: 108.4 * PSI,
    tip: 105 * PSI,
    behind: 90 * PSI,
    work: 0,
    flow: (13.57 * 0.0375521146) / 60,
  };

  it('puts the places in the order of the line, each with its pressure', () => {
    const { places, width } = supplyDrawing(points, 'US');
    expect(places.map((p) => p.name)).toEqual(['cylinder', 'regulator outlet', 'tip', 'behind holder', 'work']);
    expect(places.map((p) => p.pressure)).toEqual(['2200 psi', '108 psi', '105 psi', '90 psi', '0 psi']);
    const xs = places.map((p) => p.x);
    expect(xs).toEqual([...xs].sort((a, b) => a - b));
    for (const x of xs) expect(x > 0 && x < width).toBe(true);
  });

  it('draws the pressures to scale, from the regulator down to the work on the floor', () => {
    const { places, floor, stairs } = supplyDrawing(points, 'US');
    const heights = places.filter((p) => p.y !== undefined).map((p) => floor - (p.y ?? 0));
    expect((heights[1] ?? 0) / (heights[0] ?? 1)).toBeCloseTo(105 / 108.4, 9);
    expect(heights.at(-1)).toBe(0);
    expect(stairs.match(/[ML]/g)).toEqual(['M', 'L', 'L', 'L']);
  });

  it('says the same in words, in the units in force', () => {
    const us = supplyDrawing(points, 'US');
    expect(us.description).toBe(
      'cylinder 2200 psi, regulator outlet 108 psi, tip 105 psi, behind holder 90 psi, work 0 psi. 13.6 scfm of oxygen; the hose takes 3.4 psi; the holder takes 15 psi; the rod takes 90 psi.',
    );
    expect(supplyDrawing(points, 'SI').description).toContain('cylinder 152 bar, regulator outlet 7.47 bar');
    expect(supplyDrawing({ ...points, work: 26.7 * PSI }, 'US').caption).toContain('the water over the work 26.7 psi');
    expect(supplyDrawing({ tip: 80 * PSI, work: 0 }, 'US').description).toBe(
      'tip 80 psi, work 0 psi. holder and rod take 80 psi.',
    );
  });
});
