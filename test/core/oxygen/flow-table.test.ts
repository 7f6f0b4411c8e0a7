import { describe, expect, it } from 'vitest';
import { flowingOn, flowTable } from '../../../src/core/oxygen/flowing-gas.ts';
import { isotherm } from '../../../src/core/oxygen/oxygen-state.ts';

describe('flowTable', () => {
  it.each([250, 294.26, 350])(
    'at %d K gives what is worked out from the equation of state, inside and beyond',
    (temperature) => {
      const oxygen = isotherm(temperature);
      for (const highest of [1e6, 4e6]) {
        const table = flowTable(oxygen, highest);
        for (let p = 0; p <= 1.2 * highest; p += highest / 37) {
          const [a, b] = [flowingOn(oxygen, p), flowingOn(table, p)];
          expect(Math.abs(a.zrt / b.zrt - 1)).toBeLessThan(1e-10);
          expect(Math.abs(a.viscosity / b.viscosity - 1)).toBeLessThan(1e-10);
          expect(Math.abs(a.exponent / b.exponent - 1)).toBeLessThan(1e-10);
        }
      }
      expect(flowTable(flowTable(oxygen, 1e6), 2e6).density(1e5)).toBe(oxygen.density(1e5));
    },
  );
});
