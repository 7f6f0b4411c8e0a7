import { describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { fromSi } from '../../src/core/units/parse-quantity.ts';
import { INCH } from '../../src/core/units/quantities.ts';
import { isKnown, readSelectedCell } from '../../src/pane/explain-cell.ts';
import { explainItem } from '../../src/pane/explain-item.ts';
import type { Explained } from '../../src/pane/explained.ts';
import { CHART, pinChart } from '../../src/pane/pin-chart.ts';
import { pinDrawing } from '../../src/pane/pin-drawing.ts';
import { pinHistory, pinOfCell } from '../../src/pane/pin-points.ts';
import { call } from '../../src/sheet/call.ts';

async function explained(formula: string): Promise<Explained> {
  const cell = { sheet: 'Job sheet', address: 'A1', formula, value: null };
  const [first] = (await readSelectedCell(cell, { read: () => Promise.reject(new Error('no cells')) })).calls;
  if (!first || !isKnown(first)) throw new Error(`${formula} is not read`);
  return explainItem(first, 0, cell);
}
const PIN = { diameter: 4 * INCH, hole: 2.5 * INCH, boss: 10 * INCH, length: 10 * INCH };
const points = (path: string): readonly (readonly [number, number])[] =>
  [...path.matchAll(/[ML]([\d.-]+) ([\d.-]+)/g)].map((m) => [Number(m[1]), Number(m[2])] as const);

describe('the pin of a cell', () => {
  it.each([
    '=BURN.PIN.TIME(4,10,2.5)',
    '=BURN.PIN.PLAN(4,10,2.5)',
    '=BURN.PIN.STEPS(4,10,2.5)',
    '=BURN.COOL.TIME(4,2.5,10)',
    '=BURN.COOL.CURVE(4,2.5,10,10)',
    '=BURN.COOL.SHRINK(4,2.5)',
    '=BURN.GRIP.AFTER(4,10,10,2.5,60)',
    '=BURN.GRIP.FORCE(4,10,0.001,10,2.5)',
  ])('is found in %s', async (formula) => {
    const pin = pinOfCell(await explained(formula));
    for (const of of ['diameter', 'hole', 'boss', 'length'] as const) expect(pin?.[of], of).toBeCloseTo(PIN[of], 9);
  });

  it('is not there for cells about other things', async () => {
    for (const formula of [
      '=BURN.HOLE.TIME(2,4)',
      '=BURN.PIN.HOLE(4)',
      '=BURN.COOL.TIME(4,5,10)',
      '=BURN.PUSH.RAM(30)',
    ]) {
      const e = await explained(formula);
      if (formula.includes('PIN.HOLE')) expect(pinOfCell(e)?.diameter).toBeCloseTo(4 * INCH, 9);
      else expect(pinOfCell(e), formula).toBeUndefined();
    }
  });
});

describe('its section', () => {
  it('is to one scale both ways and stays in the frame, stubby or slim', () => {
    for (const length of [1, 4, 10, 60]) {
      const pin = { ...PIN, length: length * INCH };
      const { boss, pin: faces, bore, scale, width, height, labels } = pinDrawing(pin, 'US');
      expect(bore.height).toBeCloseTo(pin.hole * scale, 9);
      expect(bore.width).toBeCloseTo(pin.length * scale, 9);
      expect(faces[0]!.height).toBeCloseTo(((pin.diameter - pin.hole) / 2) * scale, 9);
      expect(boss[1]!.y + boss[1]!.height - boss[0]!.y).toBeCloseTo(pin.boss * scale, 9);
      expect(boss[0]!.y + boss[0]!.height).toBeCloseTo(faces[0]!.y, 9);
      expect(boss[1]!.y + boss[1]!.height).toBeLessThan(height);
      for (const { x, y } of labels) expect(x > 0 && x < width && y > 0 && y < height).toBe(true);
    }
  });

  it('says the same in words, in the units in force, also of a solid pin', () => {
    expect(pinDrawing(PIN, 'US').description).toBe(
      'Pin 4 in by 10 in, bored 2.5 in, wall 0.75 in, in a boss of 10 in outside.',
    );
    expect(pinDrawing(PIN, 'SI').description).toContain('Pin 101.6 mm by 254 mm');
    const solid = pinDrawing({ ...PIN, hole: 0 }, 'US');
    expect(solid.pin).toHaveLength(1);
    expect(solid.description).toContain('solid');
  });
});

describe('its heat and grip over time', () => {
  it('ends when BURN.COOL.TIME says, within the coarser rings it is followed with', async () => {
    const e = await explained('=BURN.COOL.TIME(4,2.5,10,"water")');
    const history = pinHistory(pinOfCell(e)!, e);
    expect(history?.method).toBe('water');
    const told = call(findFunction('BURN.COOL.TIME')!, [4, 2.5, 10, 'water'])[0]?.[0] as number;
    expect(fromSi(history?.pushed ?? NaN, 'time', 'US') / told).toBeCloseTo(1, 0);
    expect(history?.moments[0]?.time).toBeLessThan(0);
    expect(history!.moments.length).toBeLessThanOrEqual(122);
  });

  it('is drawn within its frames, hotter higher, later further right', async () => {
    const e = await explained('=BURN.PIN.TIME(4,10)');
    const chart = pinChart(pinHistory(pinOfCell(e)!, e)!, 'US');
    expect(chart.lines.map((l) => l.id).sort()).toEqual(['bore', 'boss', 'pressure', 'surface']);
    for (const { id, path } of chart.lines) {
      const at = points(path);
      const [top, bottom] = id === 'pressure' ? [CHART.under, CHART.bottom] : [CHART.top, CHART.middle];
      for (const [x, y] of at)
        expect(x >= CHART.left - 0.1 && x <= CHART.right + 0.1 && y >= top - 0.1 && y <= bottom + 0.1, id).toBe(true);
      at.slice(1).forEach(([x], i) => expect(x).toBeGreaterThanOrEqual(at[i]![0]));
    }
    const heights = chart.lines
      .filter((l) => l.id !== 'pressure')
      .map((l) => l.y)
      .sort((a, b) => a - b);
    heights.slice(1).forEach((y, i) => expect(y - heights[i]!).toBeGreaterThanOrEqual(11.9));
    expect(chart.burnt).toBeGreaterThan(CHART.left);
  });

  it('says the same in words', async () => {
    const e = await explained('=BURN.PIN.TIME(4,10)');
    expect(pinChart(pinHistory(pinOfCell(e)!, e)!, 'US').description).toMatch(
      /^When burning ends the bore is at \d+ F, the pin's surface at \d+ F, the boss outside at \d+ F\. After [\d.]+ min in air the pin can be pushed: .* Contact pressure rises to \d+ psi while hot and ends at \d+ psi: \w+/,
    );
  });
});
