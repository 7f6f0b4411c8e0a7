import { INCH } from '../core/units/quantities.ts';
import { rodFlowOf, rodPressureOf } from '../core/burn/rod-line.ts';
import type { RodChoice } from '../core/burn/rods.ts';
import { OXYGEN_FLOW, ROD_LENGTH, TIP_PRESSURE } from './limits.ts';
import { optional, required, workedFunction, type Declaration } from './declaration.ts';

const DEFAULT_LENGTH = 36 * INCH;
const SOURCES = ['isothermal pipe flow', 'common practice'];
const remaining = optional(
  ROD_LENGTH,
  "Length of rod left; the length in the rod's name, else 36 in, or 120 in of a bar, when left out",
  '36',
);

const lengthOf = (rod: RodChoice, length: number | undefined): number =>
  length ?? rod.length ?? (rod.rod.kind === 'bar' ? Math.max(...rod.rod.lengths) : DEFAULT_LENGTH);

export const ROD_FUNCTIONS: readonly Declaration[] = [
  workedFunction({
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
    working: ({ rod, pressure, length }, basis) => rodFlowOf(rod.rod, pressure, lengthOf(rod, length), basis),
  }),
  workedFunction({
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
    working: ({ rod, flow, length }, basis) => rodPressureOf(rod.rod, flow, lengthOf(rod, length), basis),
  }),
];
