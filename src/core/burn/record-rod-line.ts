import type { Basis } from '../basis.ts';
import { Evaluation } from '../model/evaluation.ts';
import { StepList } from '../model/step-list.ts';
import type { Trace } from '../model/trace.ts';
import { rodGiven, rodLineSteps, rodPath } from './rod-line.ts';
import type { Rod } from './rods.ts';

/** What the mean flow over a rod is solved from, in the symbols that are recorded here and beside it. */
export const MEAN_FLOW = 'solve(p, L_rod, stub, d_rod, d_bore, n_wire, d_wire, d_holder, p_air, T_gas, m_over)';

/** Records what the flow through a rod rests on: see `rodLineSteps`. Step `d_rod` is recorded beside it. */
export function recordRodLine(rod: Rod, basis: Basis, trace: Trace): void {
  const { from } = rodPath(rod, basis);
  const line = new Evaluation(new StepList(rodLineSteps(rod, basis.a), from), rodGiven(rod), basis.a);
  for (const step of line.worked(from.filter((symbol) => symbol !== 'd_rod'))) trace.add(step);
}
