import { calculated, type Step } from '../model/step.ts';
import type { Trace } from '../model/trace.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { checkPressFit, fitCompliance, ringShapes, type PressFit } from './press-fit.ts';

/**
 * Contact pressure of a pin pressed or shrunk into a boss, solid or bored.
 *
 * p = delta / (d [ ((Do^2 + d^2) / (Do^2 - d^2) + nu_h) / E_h + ((d^2 + di^2) / (d^2 - di^2) - nu_s) / E_s ]).
 * diameters and interference (on the diameter) [m], moduli [Pa]; result [Pa], 0 where there is no interference.
 * Symbols of the working: D joint, d bore, D_o boss, delta interference, E and nu of boss (h) and pin (s).
 * Valid while both stay elastic (`elasticPressureLimit`), ends of pin and boss flush.
 * Source: Lame's thick rings, as in Marks' Calculations for Machine Design, interference fits, example 6. Example: 4 in
 * pin, 6 in boss, 0.001 in, 30e6 psi, 0.3: 2083 psi.
 */
export function contactPressure(fit: PressFit, interference: number, system: UnitSystem = 'US', trace?: Trace): number {
  checkPressFit(fit, system);
  const pressure = Math.max(0, interference) / fitCompliance(fit);
  if (trace) {
    const shapes = ringShapes(fit);
    trace.add({
      name: 'shape of the boss',
      symbol: 'k_h',
      value: shapes.boss,
      quantity: 'ratio',
      formula: '(boss squared + diameter squared) / (boss squared - diameter squared)',
      expression: '(D_o * D_o + D * D) / (D_o * D_o - D * D)',
      kind: 'published',
      source: 'lame',
    });
    trace.add({
      name: 'shape of the pin',
      symbol: 'k_s',
      value: shapes.pin,
      quantity: 'ratio',
      formula: '(diameter squared + bore squared) / (diameter squared - bore squared)',
      expression: '(D * D + d * d) / (D * D - d * d)',
      kind: 'published',
      source: 'lame',
    });
    trace.add({
      name: 'contact pressure',
      symbol: 'p',
      value: pressure,
      quantity: 'stress',
      formula:
        'interference / (diameter x ((shape of the boss + Poisson) / modulus of the boss + (shape of the pin - Poisson) / modulus of the pin)); 0 with clearance',
      expression: 'max(0, delta) / (D * ((k_h + nu_h) / E_h + (k_s - nu_s) / E_s))',
      kind: 'published',
      source: 'lame',
    });
  }
  return pressure;
}

/** Steps of `contactPressure`, the pressure under the symbol named; `D`, `d`, `D_o`, `delta` and the elasticity stand before. */
export function contactPressureSteps(pressure: string): readonly Step[] {
  const lame = { kind: 'published', source: 'lame' } as const;
  return [
    calculated(
      'k_h',
      'shape of the boss',
      'ratio',
      '(D_o * D_o + D * D) / (D_o * D_o - D * D)',
      '(boss squared + diameter squared) / (boss squared - diameter squared)',
      lame,
    ),
    calculated(
      'k_s',
      'shape of the pin',
      'ratio',
      '(D * D + d * d) / (D * D - d * d)',
      '(diameter squared + bore squared) / (diameter squared - bore squared)',
      lame,
    ),
    calculated(
      pressure,
      'contact pressure',
      'stress',
      'max(0, delta) / (D * ((k_h + nu_h) / E_h + (k_s - nu_s) / E_s))',
      'interference / (diameter x ((shape of the boss + Poisson) / modulus of the boss + (shape of the pin - Poisson) / modulus of the pin)); 0 with clearance',
      lame,
    ),
  ];
}
