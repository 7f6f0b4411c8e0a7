import { assumed } from '../assumptions/assumed.ts';
import { calculated, type Step } from '../model/step.ts';

/**
 * Work of round holes of one mean width `d` and depth `L`: the rod is led round, so that each is pierced at the width of the hole
 * and slag leaves through all of it; what the taper adds is melted besides. The far end is no narrower than the rod's own
 * pierce.
 *
 *     w = d,   s = min(taper x, 2 (d - widths d_rod)),   d_m = d + s / 2,   d_e = d - s / 2,
 *     V = n (pi / 12 (d_m^2 + d_m d_e + d_e^2) - pi / 4 d^2) x = n pi / 48 s^2 x
 *
 * `count`: the step that holds n, or `1`. Source: geometry; the ratios are assumptions.
 */
export function piercedHoles(count: string): readonly Step[] {
  return [
    calculated('w', 'width pierced', 'length', 'd', 'the hole: the rod is led round'),
    calculated('x', 'depth pierced', 'length', 'L', 'the depth'),
    calculated('n', 'holes pierced', 'count', count, 'one for each hole'),
    assumed('widths', 'pierce width'),
    assumed('taper', 'hole taper'),
    calculated(
      'd_s',
      'mouth less far end',
      'length',
      'max(0, min(taper * L, 2 * (d - widths * d_rod)))',
      "hole taper x depth, the far end no narrower than the rod's own pierce",
    ),
    calculated('d_m', 'width at the mouth', 'length', 'd + d_s / 2', 'hole + half the difference'),
    calculated('d_e', 'width at the far end', 'length', 'd - d_s / 2', 'hole - half the difference'),
    calculated(
      'V',
      'volume of the taper',
      'volume',
      'n * (PI / 48) * d_s * d_s * L',
      'holes x what a frustum of mouth and far end has more than a cylinder of the mean width',
    ),
    calculated('reach', 'depth to reach', 'length', 'x', 'the depth'),
  ];
}
