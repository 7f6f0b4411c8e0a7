import { INCH } from '../units/quantities.ts';
import type { Trace } from '../model/trace.ts';
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

/**
 * Least filter shade for cutting with oxygen, by the thickness cut.
 *
 *     under 1 in: 3; 1 to 6 in: 4; over 6 in: 5
 *
 * The table is for oxygen cutting; an exothermic rod burns brighter, so darker is often worn.
 * Source: 29 CFR 1910.133(a)(5), table of filter lenses, oxygen cutting.
 *
 * @param thickness of the metal cut or pierced [m]
 */
export function eyeShade(thickness: number, trace?: Trace): EyeShade {
  requireAbove('thickness', thickness, 0, 'm');
  // A sheet's 1 in may arrive a rounding short of 0.0254 m.
  const inches = Number((thickness / INCH).toPrecision(12));
  const row =
    inches < 1
      ? ({ shade: 3, work: 'light' } as const)
      : inches <= 6
        ? ({ shade: 4, work: 'medium' } as const)
        : ({ shade: 5, work: 'heavy' } as const);
  trace?.add({
    name: 'least filter shade',
    symbol: 'shade',
    value: row.shade,
    quantity: 'count',
    formula: `oxygen cutting, ${row.work}`,
    kind: 'published',
    source: 'osha 1910.133',
  });
  return { ...row, advice: ADVICE };
}
