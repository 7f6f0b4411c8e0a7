import { INCH } from '../units/quantities.ts';
import { given, solved } from '../model/step.ts';
import { StepList } from '../model/step-list.ts';
import { work, type Working } from '../model/working.ts';
import { requireAbove } from './check.ts';

export interface EyeShade {
  /** Least filter shade number. */
  readonly shade: number;
  readonly work: 'light' | 'medium' | 'heavy';
  /** Advice beyond the number. */
  readonly advice: string;
}

const ADVICE =
  'this is the least allowed; begin darker and go lighter until the work can just be seen. ' +
  'Anyone near wears it too, under a face shield; an arc to light the rod asks for the shade of that arc';

function rowOf(thickness: number): Pick<EyeShade, 'shade' | 'work'> {
  // A sheet's 1 in may arrive a rounding short of 0.0254 m.
  const inches = Number((thickness / INCH).toPrecision(12));
  if (inches < 1) return { shade: 3, work: 'light' };
  return inches <= 6 ? { shade: 4, work: 'medium' } : { shade: 5, work: 'heavy' };
}

/**
 * Least filter shade for cutting with oxygen, by the thickness cut.
 *
 *     under 1 in: 3; 1 to 6 in: 4; over 6 in: 5
 *
 * The table is for oxygen cutting; an exothermic rod burns brighter, so darker is often worn.
 * Source: 29 CFR 1910.133(a)(5), table of filter lenses, oxygen cutting.
 * @example eyeShade(3 * INCH).shade // 4
 *
 * @param thickness of the metal cut or pierced [m]
 */
export function eyeShade(thickness: number): EyeShade {
  requireAbove('thickness', thickness, 0, 'm');
  return { ...rowOf(thickness), advice: ADVICE };
}

/** How it is found: step `shade`. */
export function eyeShadeWorking(thickness: number): Working {
  const { work: kind } = eyeShade(thickness);
  const list = new StepList(
    [
      given('s', 'thickness', 'length'),
      solved(
        'shade',
        'least filter shade',
        'count',
        ['s'],
        (s) => eyeShade(s).shade,
        `oxygen cutting, ${kind}`,
        'osha 1910.133',
        'published',
      ),
    ],
    ['shade'],
  );
  return work(list, { s: thickness });
}
