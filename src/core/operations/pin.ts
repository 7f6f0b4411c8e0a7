import { planRam } from '../fit/plan-ram.ts';
import { tabulatedCoolingTime } from '../heat/cooling-table.ts';
import { bossInForce, methodInForce, recordBoss, recordHeating } from '../heat/heat-in-force.ts';
import type { Rod } from '../burn/rods.ts';
import { mustBeLess } from '../messages.ts';
import type { Trace } from '../model/trace.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { defineOperation } from './operation.ts';
import { piercePressure, tipPressure } from './tip-pressure.ts';

/**
 * Planned bore of a pin [m]: d = ratio x D.
 *
 * `diameter` [m]. Source: common practice; what is left must be thin enough to yield hot and shrink cold.
 */
export function pinHole(diameter: number, a: Assumptions, trace?: Trace): number {
  const ratio = a.record('bore ratio', 'ratio', trace);
  const d = ratio * diameter;
  trace?.add({
    name: 'planned bore',
    symbol: 'd',
    value: d,
    quantity: 'length',
    formula: 'bore ratio x diameter',
    expression: 'ratio * D',
    kind: 'calculated',
    source: 'arithmetic',
  });
  return d;
}

const pilotWidth = (widths: number, rod: Rod, hole: number): number => Math.min(widths * rod.outsideDiameter, hole);
const volumeToWiden = (hole: number, width: number, length: number): number =>
  (Math.PI / 4) * (hole * hole - width * width) * length;

/** Burning a seized pin's core out end to end: pierce a pilot along the axis, then widen it to the bore. */
export const PIN = defineOperation({
  id: 'PIN',
  summary: "burn a seized pin's core out end to end: pierce a pilot, then widen it to the bore",
  order: ['diameter', 'length', 'hole'],
  sizes: {
    diameter: { summary: 'Pin diameter', quantity: 'length', above: 0, max: 2, example: '4' },
    length: { summary: 'Length of pin to burn through', quantity: 'length', above: 0, max: 10, example: '10' },
    hole: {
      summary: 'Bore to burn out; planned from the diameter when left out',
      quantity: 'length',
      above: 0,
      max: 2,
      optional: true,
      example: '2.5',
    },
  },
  plan: ({ diameter = 0, length = 0, hole }, a, trace) => {
    const input = (name: string, symbol: string, value: number): void =>
      trace?.add({ name, symbol, value, quantity: 'length', formula: 'given', kind: 'input', source: '' });
    if (hole !== undefined && hole >= diameter) {
      throw mustBeLess(
        'hole',
        showQuantity(hole, 'length', a.system),
        `the pin's ${showQuantity(diameter, 'length', a.system)}`,
      );
    }
    input('diameter', 'D', diameter);
    input('length', 'L', length);
    if (hole !== undefined) input('hole', 'd', hole);
    a.record('ends worked', 'ends', trace);
    return { diameter, length, hole: hole ?? pinHole(diameter, a, trace) };
  },
  opening: ({ hole }) => ({ width: hole, name: 'hole' }),
  work: ({ length, hole }, rod, read, a, trace) => {
    const ends = a.value('ends worked');
    const width = pilotWidth(read('pierce width'), rod, hole);
    const depth = length / ends;
    const freeVolume = volumeToWiden(hole, width, length);
    if (trace) {
      trace.add({
        name: 'width of the pilot',
        symbol: 'w',
        value: width,
        quantity: 'length',
        formula: 'pierce width x outside diameter of the rod, at most the hole',
        expression: 'min(widths * d_rod, d)',
        kind: 'calculated',
        source: 'arithmetic',
      });
      trace.add({
        name: 'depth pierced from each end',
        symbol: 'x',
        value: depth,
        quantity: 'length',
        formula: 'length / ends worked',
        expression: 'L / ends',
        kind: 'calculated',
        source: 'arithmetic',
      });
      trace.add({
        name: 'pilots',
        symbol: 'n',
        value: ends,
        quantity: 'count',
        formula: 'one from each end worked',
        expression: 'ends',
        kind: 'calculated',
        source: 'arithmetic',
      });
      trace.add({
        name: 'volume to widen',
        symbol: 'V',
        value: freeVolume,
        quantity: 'volume',
        formula: 'pi / 4 x (hole squared - pilot squared) x length',
        expression: 'PI / 4 * (d * d - w * w) * L',
        kind: 'calculated',
        source: 'arithmetic',
      });
      trace.add({
        name: 'depth to reach',
        symbol: 'reach',
        value: depth,
        quantity: 'length',
        formula: 'depth pierced from each end',
        expression: 'x',
        kind: 'calculated',
        source: 'arithmetic',
      });
    }
    return { pierceWidth: width, pierceDepth: depth, pierces: ends, freeVolume, reach: depth };
  },
  draw: ({ length, hole }, rod, drawn, _a, { pierceWidth, freeVolume }) => {
    const widths = drawn('pierce width');
    for (let i = 0; i < widths.length; i++) {
      const width = pilotWidth(widths[i]!, rod, hole);
      pierceWidth[i] = width;
      freeVolume[i] = volumeToWiden(hole, width, length);
    }
  },
  pressure: ({ length }, a, trace) => {
    const depth = length / a.value('ends worked');
    return tipPressure(a, trace, {
      words: 'pierce pressure + rise x depth, at most the top',
      expression: 'min(max(p_top, p_0), p_0 + rise * L / ends)',
      thickness: length,
      value: () => piercePressure(depth, a, trace),
    });
  },
  crewTimes: ['set-up time', 'plate time', 'push-out time', 'clean-up time'],
  cooling: (pin, basis, trace) => {
    const time = tabulatedCoolingTime(pin, basis);
    if (trace) {
      const { a } = basis;
      const method = methodInForce(a);
      recordBoss(pin.diameter, a, trace);
      recordHeating({ ...pin, boss: bossInForce(pin.diameter, a) }, method, undefined, a, trace);
      trace.add({
        name: 'cooling time',
        symbol: 't_cool',
        value: time,
        quantity: 'time',
        formula: `until the hottest part of the pin is at the target and the pin even with its boss, cooled with ${method}: conduction through rings, read from a table over diameter, hole and length`,
        expression: 'solve(D, d, L, b, T_air, epsilon, h_joint, zone, T_melt, h_part, pace, rho_pin, dT_even, T_push)',
        kind: 'calculated',
        source: 'en 1993-1-2',
      });
    }
    return time;
  },
  ram: (pin, { a }, trace) => planRam(pin, a, trace),
  cautions: ['PIN'],
});
