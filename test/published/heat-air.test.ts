import { describe, expect, it } from 'vitest';
import { airFilm } from '../../src/core/heat/air-film.ts';
import { nusseltCylinder } from '../../src/core/heat/nusselt-cylinder.ts';

// Horizontal cylinder in air at 20 C, emissivity 0.8, worked out with reference properties of air:
// D [mm], surface [C], ambient [C], Ra, Nu (Churchill & Chu), h of convection, h of radiation [W/m2 K].
const CYLINDERS = [
  [50.0, 100, 20, 5.7548e5, 12.447, 7.17, 6.806],
  [50.0, 200, 20, 6.8556e5, 13.057, 8.437, 10.769],
  [50.0, 400, 20, 5.1366e5, 12.05, 9.371, 23.63],
  [50.0, 600, 20, 3.4427e5, 10.806, 9.729, 44.882],
  [50.0, 800, 20, 2.3412e5, 9.746, 9.903, 76.705],
  [100.0, 100, 20, 4.6038e6, 22.475, 6.474, 6.806],
  [100.0, 200, 20, 5.4845e6, 23.635, 7.636, 10.769],
  [100.0, 400, 20, 4.1093e6, 21.722, 8.446, 23.63],
  [100.0, 600, 20, 2.7541e6, 19.363, 8.716, 44.882],
  [100.0, 800, 20, 1.873e6, 17.359, 8.82, 76.705],
  [200.0, 100, 20, 3.683e7, 41.679, 6.003, 6.806],
  [200.0, 200, 20, 4.3876e7, 43.915, 7.094, 10.769],
  [200.0, 400, 20, 3.2874e7, 40.23, 7.822, 23.63],
  [200.0, 600, 20, 2.2033e7, 35.695, 8.034, 44.882],
  [200.0, 800, 20, 1.4984e7, 31.851, 8.091, 76.705],
] as const;

describe('still air round a horizontal cylinder', () => {
  it.each(CYLINDERS)(
    '%d mm at %d C in air at %d C: Rayleigh within 1 %%, Nusselt and coefficients within 0.5 %%',
    (mm, surface, ambient, ra, nu, convection, radiation) => {
      const film = airFilm(mm / 1000, surface + 273.15, ambient + 273.15, 0.8);
      expect(Math.abs(film.rayleigh / ra - 1)).toBeLessThan(0.01);
      expect(Math.abs(film.nusselt / nu - 1)).toBeLessThan(0.005);
      expect(Math.abs(film.convection / convection - 1)).toBeLessThan(0.005);
      expect(Math.abs(film.radiation / radiation - 1)).toBeLessThan(2e-4);
    },
  );

  it("gives the Nusselt number of an open library's test, 139.135 at Pr 0.69 and Gr 2.63e9 (CalebBell/ht, Churchill and Chu)", () => {
    expect(nusseltCylinder(0.69 * 2.63e9, 0.69)).toBeCloseTo(139.13493970073597, 6);
  });
});
