import type { Assumptions } from '../assumptions/assumptions.ts';
import type { NumberName, ReadNumber } from '../assumptions/registry.ts';
import type { Rod } from '../burn/rods.ts';
import type { Trace } from '../model/trace.ts';
import type { WorkDraws } from './operation.ts';

/** Assumptions a kerf rests on. */
export const KERF_FACTORS = ['kerf width', 'kerf taper', 'saw width'] as const satisfies readonly NumberName[];

function isSawed(thickness: number, a: Assumptions): boolean {
  const technique = a.word('kerf technique');
  return technique === 'saw' || (technique === 'by thickness' && thickness > a.value('drag thickness'));
}

const meanWidth = (ratio: number, rod: Rod, saw: number, taper: number, thickness: number): number =>
  ratio * rod.outsideDiameter * saw + (taper * thickness) / 2;

/**
 * Mean width of a kerf [m]: w_k = ratio x d_rod, wider where the rod is sawed up and down, plus half the taper.
 *
 *     w_m = ratio d_rod [x saw] + taper t / 2
 *
 * `thickness` t [m], held by the step `symbol`; a thin section is dragged through, a thick one sawed, unless the technique
 * is named. Source: common practice, no source.
 */
export function kerfWidth(
  rod: Rod,
  thickness: number,
  symbol: string,
  read: ReadNumber,
  a: Assumptions,
  trace?: Trace,
): number {
  const technique = a.word('kerf technique');
  const sawed = isSawed(thickness, a);
  const mean = meanWidth(read('kerf width'), rod, sawed ? read('saw width') : 1, read('kerf taper'), thickness);
  if (trace) {
    trace.add({
      name: 'technique',
      symbol: 'technique',
      value: sawed ? 'saw' : 'drag',
      quantity: 'count',
      formula: technique === 'by thickness' ? 'dragged up to the drag thickness, sawed beyond' : 'given',
      kind: 'calculated',
      source: '',
    });
    if (technique === 'by thickness') a.record('drag thickness', 't_drag', trace);
    a.record('kerf width', 'kerfs', trace);
    if (sawed) a.record('saw width', 'saw', trace);
    a.record('kerf taper', 'taper', trace);
    trace.add({
      name: 'mean width of the kerf',
      symbol: 'w_m',
      value: mean,
      quantity: 'length',
      formula: `kerf width x outside diameter of the rod${sawed ? ' x saw width' : ''} + kerf taper x thickness / 2`,
      expression: `kerfs * d_rod${sawed ? ' * saw' : ''} + taper * ${symbol} / 2`,
      kind: 'calculated',
      source: 'arithmetic',
    });
  }
  return mean;
}

/** Volume of kerfs for all draws at once: `kerfWidth` x `depth` x `length` in all. */
export function drawKerf(
  depth: number,
  length: number,
  thickness: number,
  rod: Rod,
  drawn: (name: NumberName) => Float64Array,
  a: Assumptions,
  { freeVolume }: WorkDraws,
): void {
  const ratio = drawn('kerf width');
  const taper = drawn('kerf taper');
  const saw = isSawed(thickness, a) ? drawn('saw width') : undefined;
  for (let i = 0; i < ratio.length; i++)
    freeVolume[i] = meanWidth(ratio[i]!, rod, saw ? saw[i]! : 1, taper[i]!, thickness) * depth * length;
}
