import { unknownGauge } from '../messages.ts';
import { INCH } from '../units/quantities.ts';

const THINNEST = 40;

/**
 * Number of an American wire gauge: `4/0` or `0000` is -3, `1/0` or `0` is 0, `2` is 2. Text may begin with AWG.
 * `#N/A` for a gauge that does not exist.
 *
 * @example gaugeNumber('2/0') // -1
 */
export function gaugeNumber(gauge: string): number {
  const clean = gauge
    .trim()
    .toUpperCase()
    .replace(/^(AWG|#|NO\.?)\s*/, '')
    .replace(/\s*(AWG|GA(UGE)?)$/, '');
  const slash = /^([1-4])\/0$/.exec(clean);
  const n = slash
    ? 1 - Number(slash[1])
    : /^0{1,4}$/.test(clean)
      ? 1 - clean.length
      : /^\d{1,2}$/.test(clean)
        ? Number(clean)
        : NaN;
  if (!(n <= THINNEST)) throw unknownGauge(gauge);
  return n;
}

/**
 * Diameter of a solid wire of an American wire gauge.
 *
 *     d = 0.005 in x 92^((36 - n) / 39)
 *
 * The series is geometric: 0.4600 in for 4/0 and 0.0050 in for 36 gauge, 39 steps apart.
 * Source: ASTM B258. A stranded cable of the same gauge has the same copper.
 *
 * @param n number of the gauge, from gaugeNumber
 * @returns d [m]
 * @example gaugeDiameter(4) / INCH // 0.2043
 */
export function gaugeDiameter(n: number): number {
  return 0.005 * INCH * 92 ** ((36 - n) / 39);
}
