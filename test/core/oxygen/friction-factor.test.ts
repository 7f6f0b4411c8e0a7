import { describe, expect, it } from 'vitest';
import { frictionFactor } from '../../../src/core/oxygen/friction-factor.ts';

describe('frictionFactor', () => {
  it('is 64 / Re in laminar flow', () => {
    expect(frictionFactor(1000)).toBeCloseTo(0.064, 12);
  });

  it('satisfies the Colebrook equation', () => {
    for (const reynolds of [4000, 1e4, 1e5, 1e6, 1e8])
      for (const rr of [0, 1e-5, 1e-3, 0.05]) {
        const x = 1 / Math.sqrt(frictionFactor(reynolds, rr));
        expect(x).toBeCloseTo(-2 * Math.log10(rr / 3.7 + (2.51 * x) / reynolds), 10);
      }
  });

  it('follows Blasius in smooth passages and joins Colebrook where that law is higher', () => {
    expect(frictionFactor(1e4, 0, 'Blasius')).toBeCloseTo(0.03164, 8);
    expect(frictionFactor(1e6, 0, 'Blasius')).toBe(frictionFactor(1e6, 0));
    // Blasius is the higher of the two smooth laws up to about 8e4.
    expect(frictionFactor(7e4, 0, 'Blasius')).toBeGreaterThan(frictionFactor(7e4, 0));
    expect(frictionFactor(1e5, 0, 'Blasius')).toBe(frictionFactor(1e5, 0));
  });

  it('is half laminar and half turbulent midway between them, and leaves both without a bend', () => {
    // A cubic that starts and ends level is symmetric about its middle.
    expect(frictionFactor(3150, 0, 'Blasius')).toBeCloseTo((64 / 3150 + 0.3164 / 3150 ** 0.25) / 2, 12);
    const apart = (re: number): number => frictionFactor(re, 0, 'Blasius') - 64 / re;
    expect(apart(2301) / (0.3164 / 2301 ** 0.25 - 64 / 2301)).toBeCloseTo(3 / 1700 ** 2, 7);
    expect(frictionFactor(2300, 0, 'Blasius')).toBe(64 / 2300);
    expect(frictionFactor(4000, 0, 'Blasius')).toBeCloseTo(0.3164 / 4000 ** 0.25, 15);
  });

  it('has no step and keeps the pressure loss rising with flow through the transition', () => {
    for (const law of ['Blasius', 'Colebrook'] as const)
      for (let re = 1000, before = 0; re < 2e5; re *= 1.002) {
        const loss = re * re * frictionFactor(re, 0, law);
        expect(loss).toBeGreaterThan(before);
        if (before > 0) expect(loss / before).toBeLessThan(1.02);
        before = loss;
      }
  });
});
