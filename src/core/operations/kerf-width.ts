import { assumed } from '../assumptions/assumed.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import type { NumberName } from '../assumptions/registry.ts';
import { calculated, decidedBy, type Step } from '../model/step.ts';

/** Assumptions a kerf rests on. */
export const KERF_FACTORS = ['kerf width', 'kerf taper', 'saw width'] as const satisfies readonly NumberName[];

/**
 * Mean width of a kerf, step `w_m`: wider where the rod is sawed up and down, plus half the taper.
 *
 *     w_m = kerfs d_rod [x saw] + taper t / 2
 *
 * `thickness`: the step that holds t; a thin section is dragged through, a thick one sawed, unless the technique is named. A crew
 * saws more the thicker the section is, so the kerf widens evenly and a thousandth of an inch makes no other job of it:
 *
 *     saw = 1 + (saw width - 1) min(1, max(0, t / drag thickness - 1/2))
 *
 * Source: common practice, no source.
 */
export function kerfWidth(thickness: string, a: Assumptions): readonly Step[] {
  const technique = a.word('kerf technique');
  const saw = assumed('saw', 'saw width');
  const sawing: readonly Step[] =
    technique === 'saw'
      ? [saw]
      : technique === 'drag'
        ? []
        : [
            assumed('t_drag', 'drag thickness'),
            assumed('saw_over', 'saw width'),
            calculated(
              'saw',
              'widening by the technique',
              'ratio',
              `1 + (saw_over - 1) * min(1, max(0, ${thickness} / t_drag - 1 / 2))`,
              '1 up to half the drag thickness, saw width from one and a half of it, even between',
            ),
          ];
  const wider = sawing.length > 0;
  return [
    ...sawing,
    assumed('kerfs', 'kerf width'),
    assumed('taper', 'kerf taper'),
    decidedBy(
      calculated(
        'w_m',
        'mean width of the kerf',
        'length',
        `kerfs * d_rod${wider ? ' * saw' : ''} + taper * ${thickness} / 2`,
        `kerf width x outside diameter of the rod${wider ? ' x widening by the technique' : ''} + kerf taper x thickness / 2`,
      ),
      'kerf technique',
    ),
  ];
}
