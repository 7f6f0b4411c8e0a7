import { describe, expect, it } from 'vitest';
import { airFilm } from '../../src/core/heat/air-film.ts';
import { nusseltCylinder } from '../../src/core/heat/nusselt-cylinder.ts';

// Horizontal cylinder in air at 20 C, emissivity 0.8, worked out with reference properties of air:
// D [mm], surface [C], ambient [C], Ra, Nu (Churchill & Chu), h of convection, h of radiation [W/m2 K].
const CYLINDERS = [
  [50.0, 100, 20, 5.7548e+05, 12.447, 7.170, 6.806],
  [50.0, 200, 20, 6.8556e+05, 13.057, 8.437, 10.769],
  [50.0, 400, 20, 5.1366e+05, 12.050, 9.371, 23.630],
  [50.0, 600, 20, 3.4427e+05, 10.806, 9.729, 44.882],
  [50.0, 800, 20, 2.3412e+05, 9.746, 9.903, 76.705],
  [100.0, 100, 20, 4.6038e+06, 22.475, 6.474, 6.806],
  [100.0, 200, 20, 5.4845e+06, 23.635, 7.636, 10.769],
  [100.0, 400, 20, 4.1093e+06, 21.722, 8.446, 23.630],
  [100.0, 600, 20, 2.7541e+06, 19.363, 8.716, 44.882],
  [100.0, 800, 20, 1.8730e+06, 17.359, 8.820, 76.705],
  [200.0, 100, 20, 3.6830e+07, 41.679, 6.003, 6.806],
  [200.0, 200, 20, 4.3876e+07, 43.915, 7.094, 10.769],
  [200.0, 400, 20, 3.2874e+07, 40.230, 7.822, 23.630],
  [200.0, 600, 20, 2.2033e+07, 35.695, 8.034, 44.882],
  [200.0, 800, 20, 1.4984e+07, 31.851, 8.091, 76.705],
] as const;

describe('still air round a horizontal cylinder', () => {
  it.each(CYLINDERS)('%d mm at %d C in air at %d C: Rayleigh within 1 %%, Nusselt and coefficients within 0.5 %%', (mm, surface, ambient, ra, nu, convection, radiation) => {
    const film = airFilm(mm / 1000, surface + 273.15, ambient + 273.15, 0.8);
    expect(Math.abs(film.rayleigh / ra - 1)).toBeLessThan(0.01);
    expect(Math.abs(film.nusselt / nu - 1)).toBeLessThan(0.005);
    expect(Math.abs(film.convection / convection - 1)).toBeLessThan(0.005);
    expect(Math.abs(film.radiation / radiation - 1)).toBeLessThan(2e-4);
  });

  it('gives the Nusselt number of an open library\'s test, 139.135 at Pr 0.69 and Gr 2.63e9 (CalebBell/ht, Churchill and Chu)', () => {
    expect(nusseltCylinder(0.69 * 2.63e9, 0.69)).toBeCloseTo(139.13493970073597, 6);
  });
});
