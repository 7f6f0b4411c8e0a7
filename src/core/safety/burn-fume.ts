import type { Basis } from '../basis.ts';
import { recordMaterial, type Material } from '../burn/materials.ts';
import { MEAN_FLOW, recordRodLine } from '../burn/record-rod-line.ts';
import { meanFlow } from '../burn/rod-line.ts';
import { rodName, rodNames, type RodChoice } from '../burn/rods.ts';
import { stubTooLong } from '../messages.ts';
import { ratesInForce, recordProcess } from '../operations/consumption.ts';
import { stubOf } from '../operations/rod-fit.ts';
import { recordSite } from '../operations/site.ts';
import type { Trace } from '../model/trace.ts';
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
  const length =
    rod.length ?? rod.rod.lengths.find((l) => Math.abs(l - USUAL_LENGTH) < INCH) ?? rod.rod.lengths[0] ?? USUAL_LENGTH;
  const stub = stubOf(rod.rod, basis);
  if (!(length > stub))
    throw stubTooLong(showQuantity(stub, 'length', a.system), showQuantity(length, 'length', a.system));
  const set = a.value('tip pressure');
  const pressure = set > 0 ? set : a.value('fume tip pressure');
  const flow = meanFlow(rod.rod, length, pressure, basis);
  const { process, removal } = ratesInForce(rod.rod, material, basis);
  const ferrous = material.kind === 'metal' && material.conducts !== true;
  const rodRate = process.fed * flow;
  const workRate = ferrous ? process.removed * removal * flow : 0;
  const content =
    material.name === 'manganese steel' ? ('manganese steel content' as const) : ('work manganese' as const);
  if (trace) {
    trace.add({
      name: 'rod',
      symbol: 'rod',
      value: rodName(rod.rod, length, rod.coupled),
      quantity: 'count',
      formula: 'given',
      kind: 'input',
      source: '',
    });
    trace.add({
      name: 'length of the rod',
      symbol: 'L_rod',
      value: length,
      quantity: 'length',
      formula: 'given with the rod, or usual',
      kind: 'input',
      source: '',
    });
    a.record(rodNames(rod.rod).stub, 'stub', trace);
    trace.add({
      name: 'outside diameter of the rod',
      symbol: 'd_rod',
      value: rod.rod.outsideDiameter,
      quantity: 'length',
      formula: 'register of rods',
      kind: 'common practice',
      source: rod.rod.source,
    });
    recordRodLine(rod.rod, basis, trace);
    a.record(set > 0 ? 'tip pressure' : 'fume tip pressure', 'p', trace);
    a.record('flow factor', 'm_over', trace);
    trace.add({
      name: 'mean flow through the rod',
      symbol: 'm',
      value: flow,
      quantity: 'flow',
      formula:
        'isothermal flow through holder and rod passages at the tip pressure, harmonic mean over the burned length, x flow factor',
      expression: MEAN_FLOW,
      kind: 'calculated',
      source: 'isothermal pipe flow',
    });
    recordMaterial(material, a, trace);
    recordProcess(rod.rod, material, basis, trace);
    const site = recordSite(a, trace);
    trace.add({
      name: 'rod iron fed',
      symbol: 'r_rod',
      value: rodRate,
      quantity: 'massRate',
      formula: 'rod feed ratio x flow',
      expression: 'lambda * m',
      kind: 'calculated',
      source: 'arithmetic',
    });
    trace.add({
      name: 'work metal removed',
      symbol: 'r_work',
      value: workRate,
      quantity: 'massRate',
      formula: ferrous ? 'work metal removed for a kilogram of oxygen x flow' : 'not counted: no iron or manganese',
      expression: ferrous ? `k${site.removal} * m` : '0',
      kind: 'calculated',
      source: 'arithmetic',
    });
    a.record('rod manganese', 'c_rod', trace);
    a.record(content, 'c_work', trace);
    a.record('fume factor', 'e', trace);
    a.record('manganese enrichment', 'k_Mn', trace);
  }
  const metal = { rodRate, rodManganese: a.value('rod manganese'), workRate, workManganese: a.value(content) };
  return fumeRelease(metal, a.value('fume factor'), a.value('manganese enrichment'), trace);
}
