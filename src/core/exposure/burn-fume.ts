import type { Basis } from '../basis.ts';
import type { Material } from '../burn/materials.ts';
import { meanFlow } from '../burn/rod-line.ts';
import { rodName, type RodChoice } from '../burn/rods.ts';
import { stubTooLong } from '../messages.ts';
import { ratesInForce } from '../operations/consumption.ts';
import { stubOf } from '../operations/rod-fit.ts';
import type { Trace } from '../trace/trace.ts';
import { INCH } from '../units/quantities.ts';
import { showQuantity } from '../units/show-quantity.ts';
import { fumeRelease, type FumeRelease } from './fume-release.ts';

const USUAL_LENGTH = 36 * INCH;

/**
 * Fume of a rod that burns a material, from the flow it passes and the heat balance in force.
 *
 *     r_rod = (rod iron fed per kg of oxygen) m,   r_work = (work removed per kg of oxygen) m
 *
 * Of copper and aluminium alloys, concrete and rock only the rod's own iron and manganese count: their own fume and dust have
 * other limits. Flow and assumptions as in the operations; see fume-release.ts for what metal becomes fume.
 *
 * @param rod of its own length, else of 36 in or the shortest stocked of a long bar
 * @param material of the work
 */
export function burnFume(rod: RodChoice, material: Material, basis: Basis, trace?: Trace): FumeRelease {
  const { a } = basis;
  const length = rod.length ?? rod.rod.lengths.find((l) => Math.abs(l - USUAL_LENGTH) < INCH) ?? rod.rod.lengths[0] ?? USUAL_LENGTH;
  const stub = stubOf(rod.rod, basis);
  if (!(length > stub)) throw stubTooLong(showQuantity(stub, 'length', a.system), showQuantity(length, 'length', a.system));
  const set = a.value('tip pressure');
  const pressure = set > 0 ? set : a.value('fume tip pressure');
  const flow = meanFlow(rod.rod, length, pressure, basis);
  const { process, removal } = ratesInForce(rod.rod, material, basis);
  const ferrous = material.kind === 'metal' && material.conducts !== true;
  const rodRate = process.fed * flow;
  const workRate = ferrous ? process.removed * removal * flow : 0;
  const content = material.name === 'manganese steel' ? ('manganese steel content' as const) : ('work manganese' as const);
  if (trace) {
    trace.add({ name: 'rod', symbol: 'rod', value: rodName(rod.rod, length, rod.coupled), quantity: 'count', formula: 'given', kind: 'input', source: '' });
    trace.add({ name: 'material', symbol: 'material', value: material.name, quantity: 'count', formula: 'given, or by default', kind: 'input', source: '' });
    a.record(set > 0 ? 'tip pressure' : 'fume tip pressure', 'p', trace);
    trace.add({ name: 'mean flow through the rod', symbol: 'm', value: flow, quantity: 'flow', formula: 'isothermal flow through holder and rod passages at the tip pressure', kind: 'calculated', source: 'isothermal pipe flow' });
    trace.add({ name: 'rod iron fed for a kilogram of oxygen', symbol: 'fed', value: process.fed, quantity: 'ratio', formula: 'from the heat balance', kind: 'calculated', source: 'nasa polynomials' });
    trace.add({ name: 'work metal removed for a kilogram of oxygen', symbol: 'removed', value: ferrous ? process.removed * removal : 0, quantity: 'ratio', formula: ferrous ? 'from the heat balance and the position' : 'not counted: no iron or manganese', kind: 'calculated', source: 'nasa polynomials' });
    trace.add({ name: 'rod iron fed', symbol: 'r_rod', value: rodRate, quantity: 'massRate', formula: 'rod iron fed for a kilogram of oxygen x flow', expression: 'fed * m', kind: 'calculated', source: 'arithmetic' });
    trace.add({ name: 'work metal removed', symbol: 'r_work', value: workRate, quantity: 'massRate', formula: 'work metal removed for a kilogram of oxygen x flow', expression: 'removed * m', kind: 'calculated', source: 'arithmetic' });
    a.record('rod manganese', 'c_rod', trace);
    a.record(content, 'c_work', trace);
    a.record('fume factor', 'e', trace);
    a.record('manganese enrichment', 'k', trace);
  }
  const metal = { rodRate, rodManganese: a.value('rod manganese'), workRate, workManganese: a.value(content) };
  return fumeRelease(metal, a.value('fume factor'), a.value('manganese enrichment'), trace);
}
