import type { Assumptions } from '../assumptions/assumptions.ts';
import type { NumberName, ReadNumber } from '../assumptions/registry.ts';
import type { Rod } from '../burn/rods.ts';
import type { Trace } from '../model/trace.ts';
import type { Work, WorkDraws } from './operation.ts';

/** Volume [m3] of a round hole that is `taper` x depth wider at its mouth than at its far end: pi / 12 (d^2 + d d_m + d_m^2) x. */
export function taperedHole(width: number, depth: number, taper: number): number {
  const mouth = width + taper * depth;
  return (Math.PI / 12) * (width * width + width * mouth + mouth * mouth) * depth;
}

const mouthLessFarEnd = (hole: number, depth: number, taper: number, widths: number, rod: Rod): number =>
  Math.max(0, Math.min(taper * depth, 2 * (hole - widths * rod.outsideDiameter)));

/** pi / 12 (d_m^2 + d_m d_e + d_e^2) - pi / 4 d^2 comes to pi / 48 s^2. */
const taperVolume = (n: number, spread: number, depth: number): number => n * (Math.PI / 48) * spread * spread * depth;

/**
 * Work of round holes of one mean width and depth: the rod is led round, so that each is pierced at the width of the hole
 * and slag leaves through all of it; what the taper adds is melted besides. The far end is no narrower than the rod's own
 * pierce.
 *
 *     w = d,   s = min(taper x, 2 (d - widths d_rod)),   d_m = d + s / 2,   d_e = d - s / 2,
 *     V = n (pi / 12 (d_m^2 + d_m d_e + d_e^2) - pi / 4 d^2) x
 *
 * `hole` d and `depth` x [m], steps `d` and `L` of the working; `count` n with the step that holds it.
 * Source: geometry; the ratios are assumptions.
 */
export function piercedHoles(
  hole: number,
  depth: number,
  count: { readonly n: number; readonly symbol: string },
  rod: Rod,
  read: ReadNumber,
  a: Assumptions,
  trace?: Trace,
): Work {
  const taper = read('hole taper');
  const { n, symbol } = count;
  const spread = mouthLessFarEnd(hole, depth, taper, read('pierce width'), rod);
  const volume = taperVolume(n, spread, depth);
  if (trace) {
    const step = (
      name: string,
      s: string,
      value: number,
      quantity: 'length' | 'count' | 'volume',
      formula: string,
      expression: string,
    ): void =>
      trace.add({ name, symbol: s, value, quantity, formula, expression, kind: 'calculated', source: 'arithmetic' });
    step('width pierced', 'w', hole, 'length', 'the hole: the rod is led round', 'd');
    step('depth pierced', 'x', depth, 'length', 'the depth', 'L');
    step('holes pierced', 'n', n, 'count', 'one for each hole', symbol);
    a.record('hole taper', 'taper', trace);
    step(
      'mouth less far end',
      'd_s',
      spread,
      'length',
      "hole taper x depth, the far end no narrower than the rod's own pierce",
      'max(0, min(taper * L, 2 * (d - widths * d_rod)))',
    );
    step('width at the mouth', 'd_m', hole + spread / 2, 'length', 'hole + half the difference', 'd + d_s / 2');
    step('width at the far end', 'd_e', hole - spread / 2, 'length', 'hole - half the difference', 'd - d_s / 2');
    step(
      'volume of the taper',
      'V',
      volume,
      'volume',
      'holes x what a frustum of mouth and far end has more than a cylinder of the mean width',
      'n * (PI / 48) * d_s * d_s * L',
    );
    step('depth to reach', 'reach', depth, 'length', 'the depth', 'x');
  }
  return { pierceWidth: hole, pierceDepth: depth, pierces: n, freeVolume: volume, reach: depth };
}

/** `piercedHoles` for all draws at once. */
export function drawPiercedHoles(
  hole: number,
  depth: number,
  n: number,
  rod: Rod,
  drawn: (name: NumberName) => Float64Array,
  { freeVolume }: WorkDraws,
): void {
  const taper = drawn('hole taper');
  const widths = drawn('pierce width');
  for (let i = 0; i < taper.length; i++)
    freeVolume[i] = taperVolume(n, mouthLessFarEnd(hole, depth, taper[i]!, widths[i]!, rod), depth);
}
