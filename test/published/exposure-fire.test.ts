import { describe, expect, it } from 'vitest';
import { dropFlight, sphereDrag } from '../../src/core/safety/drop-flight.ts';
import { eyeShade } from '../../src/core/safety/eye-shade.ts';
import { fireWatch } from '../../src/core/safety/fire-watch.ts';
import { INCH } from '../../src/core/units/quantities.ts';

describe('fire watch', () => {
  it('lasts half an hour by 29 CFR 1910.252(a)(2)(iii)(B) and by NFPA 51B of 2014', () => {
    expect(fireWatch('OSHA').watch / 60).toBe(30);
    expect(fireWatch('NFPA 51B 2014').watch / 60).toBe(30);
    expect(fireWatch('NFPA 51B 2014').monitoring).toBe(0);
  });

  it('lasts an hour by NFPA 51B of 2019, with up to three hours of monitoring after (5.6.3)', () => {
    expect(fireWatch('NFPA 51B 2019').watch / 60).toBe(60);
    expect(fireWatch('NFPA 51B 2019').monitoring / 60).toBe(180);
  });
});

describe('filter shade, 29 CFR 1910.133(a)(5), oxygen cutting', () => {
  it('is 3 under 1 in, 4 from 1 to 6 in, 5 over 6 in', () => {
    const shade = (inches: number): number => eyeShade(inches * INCH).shade;
    expect([0.25, 0.999, 1, 3, 6, 6.001, 24].map(shade)).toEqual([3, 3, 4, 4, 4, 5, 5]);
    // The table's own metric column: 25 and 150 mm.
    expect(eyeShade(0.02).work).toBe('light');
    expect(eyeShade(0.1).work).toBe('medium');
    expect(eyeShade(0.2).work).toBe('heavy');
  });
});

describe('a falling drop', () => {
  it('has the drag of a sphere: standard curve, textbook values from memory, to 6 percent', () => {
    // Clift, Grace and Weber 1978, standard drag curve: Re 1, 10, 100, 500 (from memory, hence the wide band).
    for (const [Re, Cd] of [
      [1, 27.1],
      [10, 4.26],
      [100, 1.09],
      [500, 0.555],
    ] as const)
      expect(Math.abs(sphereDrag(Re) / Cd - 1), String(Re)).toBeLessThan(0.06);
  });

  it('agrees with an integration of its own: short explicit steps in speed and direction', () => {
    const [d, rho, air, nu, wind] = [2e-3, 6500, 1.18, 15.6e-6, 4];
    for (const [height, speed, angle] of [
      [9.144, 8, 0.3],
      [40, 5, 0],
      [2, 12, 0.9],
    ] as const) {
      // Written anew: the published drag, mass and cross-section, one small step after another.
      const mass = (rho * Math.PI * d ** 3) / 6;
      const section = (Math.PI * d * d) / 4;
      let [x, z, vx, vz, t] = [0, height, speed * Math.cos(angle), speed * Math.sin(angle), 0];
      const dt = 2e-5;
      while (z > 0 || vz > 0) {
        const w = Math.hypot(vx - wind, vz);
        const Re = (w * d) / nu;
        const Cd = Re < 1000 ? (24 * (1 + 0.15 * Re ** 0.687)) / Re : 0.44;
        const force = (Cd * section * air * w * w) / 2;
        vx -= (dt * force * (vx - wind)) / w / mass;
        vz -= dt * (9.80665 + (force * vz) / w / mass);
        x += dt * vx;
        z += dt * vz;
        t += dt;
      }
      const ours = dropFlight(
        { diameter: d, density: rho },
        { density: air, viscosity: nu, wind },
        height,
        speed,
        angle,
      );
      expect(ours.distance / x).toBeCloseTo(1, 3);
      expect(ours.time / t).toBeCloseTo(1, 3);
      expect(ours.speed / Math.hypot(vx, vz)).toBeCloseTo(1, 3);
    }
  });

  it("falls past its relaxation as 1 - exp would have it: v = vt tanh(g t / vt) where the drag is Newton's", () => {
    // Exact solution for a constant coefficient, 0.44, from rest in air of almost no viscosity.
    const [d, rho, air] = [5e-3, 6000, 1.204];
    const vt = Math.sqrt((4 * 9.80665 * d * rho) / (3 * 0.44 * air));
    for (const h of [5, 20, 60]) {
      const landing = dropFlight({ diameter: d, density: rho }, { density: air, viscosity: 1e-9, wind: 0 }, h, 0, 0);
      expect(landing.speed).toBeCloseTo(vt * Math.sqrt(1 - Math.exp((-2 * 9.80665 * h) / vt ** 2)), 4);
      expect(landing.speed).toBeCloseTo(vt * Math.tanh((9.80665 * landing.time) / vt), 4);
    }
  });
});
