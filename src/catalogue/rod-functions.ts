import { INCH } from '../core/units/quantities.ts';
import type { Basis } from '../core/basis.ts';
import { recordRodLine } from '../core/burn/record-rod-line.ts';
import { rodLine } from '../core/burn/rod-line.ts';
import type { RodChoice } from '../core/burn/rods.ts';
import { ambientPressure } from '../core/oxygen/ambient-pressure.ts';
import { rodFlow, rodPressure } from '../core/oxygen/rod-flow.ts';
import type { Trace } from '../core/model/trace.ts';
import { OXYGEN_FLOW, ROD_LENGTH, TIP_PRESSURE } from './limits.ts';
import { optional, required, valueFunction, type Declaration } from './declaration.ts';

const DEFAULT_LENGTH = 36 * INCH;
const SOURCES = ['isothermal pipe flow', 'common practice'];
const remaining = optional(
  ROD_LENGTH,
  "Length of rod left; the length in the rod's name, else 36 in, or 120 in of a bar, when left out",
  '36',
);

const lengthOf = (rod: RodChoice, length: number | undefined): number =>
  length ?? rod.length ?? (rod.rod.kind === 'bar' ? Math.max(...rod.rod.lengths) : DEFAULT_LENGTH);

function recordRod(rod: RodChoice, length: number, basis: Basis, trace: Trace): void {
  const { outsideDiameter, source, name } = rod.rod;
  trace.add({
    name: 'rod',
    symbol: 'rod',
    value: name,
    quantity: 'count',
    formula: 'given',
    kind: 'input',
    source: '',
  });
  trace.add({
    name: 'length left',
    symbol: 'L',
    value: length,
    quantity: 'length',
    formula: 'given',
    kind: 'input',
    source: '',
  });
  trace.add({
    name: 'outside diameter of the rod',
    symbol: 'd_rod',
    value: outsideDiameter,
    quantity: 'length',
    formula: 'register of rods',
    kind: 'common practice',
    source,
  });
  recordRodLine(rod.rod, basis, trace);
}

export const ROD_FUNCTIONS: readonly Declaration[] = [
  valueFunction({
    name: 'BURN.ROD.FLOW',
    family: 'ROD',
    summary: 'Oxygen flow through a rod of that remaining length at a tip pressure (at the holder while oxygen flows).',
    parameters: {
      rod: required({ kind: 'rod' }, 'Rod, such as 3/8 or 3/8 x 36', '"3/8"'),
      pressure: required(TIP_PRESSURE, 'Tip pressure, gauge, at the holder while oxygen flows', '80'),
      length: remaining,
    },
    assume: true,
    result: { kind: 'value', quantity: 'flow' },
    sources: SOURCES,
    cautions: ['ROD'],
    examples: ['=BURN.ROD.FLOW("3/8",80)', '=BURN.ROD.FLOW("1/4 x 24",90,12)'],
    monotone: [
      {
        rises: ['pressure'],
        falls: ['length'],
        risesWith: ['holder orifice', 'air pressure'],
        fallsWith: ['gas temperature'],
      },
    ],
    calculate: ({ rod, pressure, length }, basis, trace) => {
      const left = lengthOf(rod, length);
      if (trace) {
        recordRod(rod, left, basis, trace);
        trace.add({
          name: 'tip pressure',
          symbol: 'p',
          value: pressure,
          quantity: 'pressure',
          formula: 'given',
          kind: 'input',
          source: '',
        });
      }
      const flow = rodFlow(rodLine(rod.rod, pressure, basis), ambientPressure(basis.a) + pressure, left);
      trace?.add({
        name: 'flow',
        symbol: 'm',
        value: flow,
        quantity: 'flow',
        formula: 'isothermal flow through holder and rod passages',
        expression: 'solve(p, L, d_rod, d_bore, n_wire, d_wire, d_holder, p_air, T_gas)',
        kind: 'calculated',
        source: 'isothermal pipe flow',
      });
      return flow;
    },
  }),
  valueFunction({
    name: 'BURN.ROD.PRESSURE',
    family: 'ROD',
    summary: 'Tip pressure that drives an oxygen flow through a rod of that remaining length.',
    parameters: {
      rod: required({ kind: 'rod' }, 'Rod, such as 3/8 or 3/8 x 36', '"3/8"'),
      flow: required(OXYGEN_FLOW, 'Oxygen flow', '8'),
      length: remaining,
    },
    assume: true,
    result: { kind: 'value', quantity: 'pressure' },
    sources: SOURCES,
    cautions: ['ROD'],
    examples: ['=BURN.ROD.PRESSURE("3/8",8)'],
    monotone: [{ rises: ['flow', 'length'], fallsWith: ['holder orifice'], risesWith: ['gas temperature'] }],
    calculate: ({ rod, flow, length }, basis, trace) => {
      const left = lengthOf(rod, length);
      if (trace) {
        recordRod(rod, left, basis, trace);
        trace.add({
          name: 'flow',
          symbol: 'm',
          value: flow,
          quantity: 'flow',
          formula: 'given',
          kind: 'input',
          source: '',
        });
      }
      const pressure = pressureFor(rod, flow, left, basis);
      trace?.add({
        name: 'tip pressure',
        symbol: 'p',
        value: pressure,
        quantity: 'pressure',
        formula: 'pressure that drives the flow through rod passages and holder',
        expression: 'solve(m, L, d_rod, d_bore, n_wire, d_wire, d_holder, p_air, T_gas)',
        kind: 'calculated',
        source: 'isothermal pipe flow',
      });
      return pressure;
    },
  }),
];

/** The gas in `rodLine` is taken at half the pressure, so pressure and gas are settled together. */
function pressureFor(rod: RodChoice, flow: number, length: number, basis: Basis): number {
  const ambient = ambientPressure(basis.a);
  let pressure = 0;
  for (let i = 0; i < 50; i++) {
    const next = rodPressure(rodLine(rod.rod, pressure, basis), flow, length) - ambient;
    if (Math.abs(next - pressure) <= 1e-10 * (ambient + next)) return next;
    pressure = next;
  }
  return pressure;
}
