import type { Assumptions } from '../assumptions/assumptions.ts';
import type { Basis } from '../basis.ts';
import { waterPressure } from '../oxygen/ambient-pressure.ts';
import type { Trace } from '../model/trace.ts';
import type { Rod } from './rods.ts';

/** What the mean flow over a rod is solved from, in the symbols that are recorded here and beside it. */
export const MEAN_FLOW = 'solve(p, L_rod, stub, d_rod, d_bore, n_wire, d_wire, d_holder, p_air, T_gas, m_over)';

/** Records the passages of a rod and its holder. Step `d_rod` is recorded beside it. */
export function recordRodPassages({ bore, wires, wireDiameter, source }: Rod, a: Assumptions, trace: Trace): void {
  trace.add({
    name: 'bore of the tube',
    symbol: 'd_bore',
    value: bore,
    quantity: 'length',
    formula: 'register of rods',
    kind: 'common practice',
    source,
  });
  trace.add({
    name: 'wires',
    symbol: 'n_wire',
    value: wires,
    quantity: 'count',
    formula: 'register of rods',
    kind: 'common practice',
    source,
  });
  trace.add({
    name: 'wire diameter',
    symbol: 'd_wire',
    value: wireDiameter,
    quantity: 'length',
    formula: 'register of rods',
    kind: 'common practice',
    source,
  });
  a.record('holder orifice', 'd_holder', trace);
  if (a.value('rod flow measured') > 0) {
    a.record('rod flow measured', 'm_measured', trace);
    a.record('pressure', 'p_measured', trace);
  }
}

/** Records what the flow through a rod rests on: its passages, the holder, the gas, the air and water round it, and a measured flow where there is one. */
export function recordRodLine(rod: Rod, { a }: Basis, trace: Trace): void {
  recordRodPassages(rod, a, trace);
  a.record('air pressure', 'p_air', trace);
  if (a.value('water depth') > 0) {
    a.record('water depth', 'h_water', trace);
    waterPressure(a, a.value('water depth'), trace);
  }
  a.record('gas temperature', 'T_gas', trace);
}
