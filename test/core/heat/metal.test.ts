import { describe, expect, it } from 'vitest';
import { contentAt, metalTable, plainMetal } from '../../../src/core/heat/metal.ts';
import { steelConductivity } from '../../../src/core/heat/steel-conductivity.ts';
import { steelEnthalpy } from '../../../src/core/heat/steel-enthalpy.ts';
import { steelSpecificHeat } from '../../../src/core/heat/steel-specific-heat.ts';

const STEEL = metalTable(
  { enthalpy: steelEnthalpy, specificHeat: steelSpecificHeat, conductivity: steelConductivity },
  273.15,
  1873.15,
  160,
);

describe('the table of steel', () => {
  it('holds the heat of its law within that of 0.11 K, also through the latent peak', () => {
    for (let t = 274; t < 1873; t += 0.37)
      expect(Math.abs(contentAt(STEEL, t) - steelEnthalpy(t)) / steelSpecificHeat(t), `${t} K`).toBeLessThan(0.11);
  });

  it('goes on straight beyond its ends', () => {
    expect(contentAt(STEEL, 200)).toBeCloseTo(steelEnthalpy(200), -2);
    expect(contentAt(STEEL, 2000)).toBeCloseTo(steelEnthalpy(2000), -2);
  });

  it('is exact for a metal of constant specific heat', () => {
    const metal = plainMetal(1, 500, 40);
    for (const t of [-20, 0.5, 900]) expect(contentAt(metal, t)).toBeCloseTo(500 * t, 9);
  });
});
