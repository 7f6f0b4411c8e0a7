import { describe, expect, it } from 'vitest';
import { Assumptions } from '../../../src/core/assumptions/assumptions.ts';
import type { NumberName } from '../../../src/core/assumptions/registry.ts';
import { Basis } from '../../../src/core/basis.ts';
import { itemPercentile } from '../../../src/core/operations/item-percentile.ts';
import { jobStock, type JobStock } from '../../../src/core/job/job-stock.ts';
import { seeded } from '../../../src/core/spread/seeded.ts';
import { drawnFactors } from '../../../src/core/operations/draw-item.ts';
import { batteryStrikes } from '../../../src/core/safety/battery-strikes.ts';
import type { Sized } from '../../../src/core/operations/sized.ts';
import { drawableContent } from '../../../src/core/oxygen/drawable-content.ts';
import { jobWith } from './listed.ts';
import { PIN, STEEL, basisWith, drawWorld, scattered, sizePin } from './simulated-log.ts';

const basisOf = (): Basis => new Basis(Assumptions.defaults());
const PINS = [
  [4, 10],
  [4, 10],
  [3, 8],
  [6, 16],
  [5, 12],
  [3.5, 10],
  [4.5, 14],
  [2, 6],
] as const;
const sized = (basis: Basis): readonly Sized[] => PINS.map(([d, l]) => sizePin(d, l, undefined, basis));
const lineOf = (stock: JobStock, name: string) => stock.lines.find((l) => l.name === name)!;

describe('what to load for a job', () => {
  it('suffices in 90 percent of jobs simulated from the ranges by sizing each pin anew', () => {
    // One tip pressure for all, since each pressure of each job costs a solution of its flow.
    const basis = basisWith({ 'tip pressure': 7e5 });
    const sizings = sized(basis);
    const stock = jobStock(jobWith(sizings, basis), 0.9);
    const random = seeded(99);
    const names: readonly NumberName[] = [
      ...drawnFactors(PIN, sizings[0]!.rod.rod, STEEL, basis.a),
      'cylinder pressure',
      'leftover pressure',
      'strike current',
      'strike time',
      'plates per pin',
    ];
    const cooling = sizings.reduce((sum, s) => sum + s.cooling, 0);
    const jobs = 1500;
    const suffices = { load: 0, plain: 0 };
    for (let j = 0; j < jobs; j++) {
      const world = basisWith({ ...drawWorld(names, random, basis), 'tip pressure': 7e5 });
      const rods = new Map<string, number>();
      const total = { oxygen: 0, crew: 0, rods: 0 };
      let solved = true;
      for (const [i, [d, l]] of PINS.entries()) {
        try {
          const took = scattered(
            sizePin(d, l, sizings[i]!.name, world),
            drawWorld(['item scatter'], random, basis)['item scatter']!,
            world,
            sizings[i]!.cooling,
          );
          // Coupled or not, they come out of one crate.
          const crate = sizings[i]!.name.replace(' coupled', '');
          rods.set(crate, (rods.get(crate) ?? 0) + took.rods);
          total.oxygen += took.oxygen;
          total.crew += took.crew;
          total.rods += took.rods;
        } catch {
          solved = false;
        }
      }
      const { a } = world;
      const lit = batteryStrikes(
        a.value('battery capacity'),
        a.value('strike current'),
        a.value('strike time'),
        a.value('battery usable share'),
        a.value('peukert exponent'),
      ).strikes;
      const cylinders = Math.ceil(total.oxygen / drawableContent(world) - 1e-9);
      const needs: readonly (readonly [string, number])[] = [
        ...[...rods].map(([name, n]) => [`rods ${name}`, n] as const),
        ['cylinders', cylinders],
        ['batteries', Math.ceil(total.rods / lit - 1e-9)],
        ['plates', Math.ceil(a.value('plates per pin') * PINS.length - 1e-9)],
        ['crew work', total.crew - cooling + Math.max(0, cylinders - 1) * a.value('cylinder change time')],
      ];
      if (solved && needs.every(([name, need]) => need <= lineOf(stock, name).load)) suffices.load++;
      if (solved && needs.every(([name, need]) => need <= lineOf(stock, name).plain)) suffices.plain++;
    }
    // Standard error of the share: 0.8 %.
    expect(Math.abs(suffices.load / jobs - 0.9)).toBeLessThan(0.02);
    expect(Math.abs(suffices.plain / jobs - (1 - stock.plainShort))).toBeLessThan(0.03);
    expect(stock.short).toBeLessThanOrEqual(0.1);
  });

  it('loads each line for more than the confidence, since lines run short in different worlds', () => {
    const basis = basisOf();
    const stock = jobStock(jobWith(sized(basis), basis), 0.8);
    expect(stock.level).toBeGreaterThan(0.8);
    for (const line of stock.lines) expect(line.short).toBeLessThanOrEqual(0.2);
    expect(stock.short).toBeLessThanOrEqual(0.2);
    expect(stock.short).toBeGreaterThan(0.18);
  });

  it('rises with the confidence, and with every pin more', () => {
    const basis = basisOf();
    const sizings = sized(basis);
    let before = jobStock(jobWith(sizings, basis), 0.3);
    // In about one draw of a hundred the heat does not suffice for some pin, so that no load is enough with 0.99.
    for (const confidence of [0.5, 0.7, 0.9, 0.95, 0.97]) {
      const now = jobStock(jobWith(sizings, basis), confidence);
      now.lines.forEach((line, i) => expect(line.load).toBeGreaterThanOrEqual(before.lines[i]?.load ?? NaN));
      expect(lineOf(now, 'crew work').load).toBeGreaterThan(lineOf(before, 'crew work').load);
      before = now;
    }
    const one = jobStock(jobWith(sizings.slice(0, 3), basis), 0.9);
    const more = jobStock(jobWith(sizings.slice(0, 5), basis), 0.9);
    for (const name of ['oxygen', 'cylinders', 'crew work', 'plates'])
      expect(lineOf(more, name).load).toBeGreaterThan(lineOf(one, name).load - 1e-9);
  });

  it('needs less than the percentiles of all pins together, and more than their plans', () => {
    const basis = basisOf();
    const sizings = sized(basis);
    const stock = jobStock(jobWith(sizings, basis), 0.9);
    const oxygen = lineOf(stock, 'oxygen');
    // At the level of the load, pins that scatter each by itself do not all run high at once.
    const sum = sizings.reduce((all, s) => all + itemPercentile(s, 'oxygen', stock.level, basis).value, 0);
    expect(oxygen.load).toBeLessThan(sum);
    expect(oxygen.load).toBeGreaterThan(oxygen.plain);
  });

  it('takes for one pin what its own percentiles say', () => {
    const basis = basisOf();
    const [sizing] = sized(basis) as [Sized];
    const stock = jobStock(jobWith([sizing], basis), 0.9);
    expect(lineOf(stock, 'oxygen').load / itemPercentile(sizing, 'oxygen', stock.level, basis).value).toBeCloseTo(1, 1);
    expect(lineOf(stock, `rods ${sizing.name}`).plain).toBe(sizing.rods);
  });

  it('adds rods up by size and length', () => {
    const basis = basisOf();
    const sizings = [
      sizePin(4, 10, '3/8 x 36', basis),
      sizePin(4, 10, '1/4 x 24', basis),
      sizePin(4, 12, '3/8 x 36', basis),
    ];
    const stock = jobStock(jobWith(sizings, basis), 0.9);
    expect(stock.lines.map((l) => l.name)).toEqual([
      'rods 3/8 x 36',
      'rods 1/4 x 24',
      'oxygen',
      'cylinders',
      'batteries',
      'plates',
      'crew work',
    ]);
  });

  it('takes four of one pin as four rows of it', () => {
    const basis = basisOf();
    const [pin, other] = [sizePin(4, 10, undefined, basis), sizePin(3, 8, undefined, basis)];
    const rows = jobStock(jobWith([pin, pin, pin, pin, other], basis), 0.9);
    expect(jobStock(jobWith([pin, other], basis, [4, 1]), 0.9)).toEqual(rows);
  });

  it('lights a thousand rods with more batteries than ten', () => {
    const weak = basisWith({ 'battery capacity': 5 * 3600 });
    const stock = jobStock(jobWith(sized(weak), weak), 0.9);
    expect(lineOf(stock, 'batteries').load).toBeGreaterThan(1);
    const dead = basisWith({ 'battery capacity': 3600, 'battery usable share': 0.001 });
    expect(() => jobStock(jobWith(sized(dead), dead), 0.9)).toThrow('the battery does not light a single rod');
  });

  it('says that no load suffices where the heat often does not', () => {
    const basis = new Basis(
      Assumptions.from([{ name: 'oxygen burnt share', value: 0.14, low: 0.07, high: 0.2, kind: 'your value' }]),
    );
    const sizings = [sizePin(4, 10, '3/8 x 36', basis)];
    expect(() => jobStock(jobWith(sizings, basis), 0.95)).toThrow(
      /in \d+% of the draws from the ranges of the assumptions the heat does not suffice/,
    );
  });
});
