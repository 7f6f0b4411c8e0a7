import type { Assumptions } from '../assumptions/assumptions.ts';
import type { NumberName, ReadNumber } from '../assumptions/registry.ts';
import type { Rod } from '../burn/rods.ts';
import type { Trace } from '../trace/trace.ts';

/** Assumptions a kerf rests on. */
export const KERF_FACTORS = ['kerf width', 'kerf taper', 'saw width'] as const satisfies readonly NumberName[];

/**
 * Mean width of a kerf [m]: w_k = ratio x d_rod, wider where the rod is sawed up and down, plus half the taper.
 *
 *     w_m = ratio d_rod [x saw] + taper t / 2
 *
 * `thickness` t [m], held by the step `symbol`; a thin section is dragged through, a thick one sawed, unless the technique
 * is named. Source: common practice, no source.
 */
export function kerfWidth(rod: Rod, thickness: number, symbol: string, read: ReadNumber, a: Assumptions, trace?: Trace): number {
  const technique = a.word('kerf technique');
  const sawed = technique === 'saw' || (technique === 'by thickness' && thickness > a.value('drag thickness'));
  const width = read('kerf width') * rod.outsideDiameter * (sawed ? read('saw width') : 1);
  const taper = read('kerf taper');
  const mean = width + (taper * thickness) / 2;
  if (trace) {
    trace.add({ name: 'technique', symbol: 'technique', value: sawed ? 'saw' : 'drag', quantity: 'count', formula: technique === 'by thickness' ? 'dragged up to the drag thickness, sawed beyond' : 'given', kind: 'calculated', source: '' });
    if (technique === 'by thickness') a.record('drag thickness', 't_drag', trace);
    a.record('kerf width', 'kerfs', trace);
    if (sawed) a.record('saw width', 'saw', trace);
    a.record('kerf taper', 'taper', trace);
    trace.add({
      name: 'mean width of the kerf', symbol: 'w_m', value: mean, quantity: 'length', formula: `kerf width x outside diameter of the rod${sawed ? ' x saw width' : ''} + kerf taper x thickness / 2`,
      expression: `kerfs * d_rod${sawed ? ' * saw' : ''} + taper * ${symbol} / 2`, kind: 'calculated', source: 'arithmetic',
    });
  }
  return mean;
}
