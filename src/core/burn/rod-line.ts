import type { Basis } from '../basis.ts';
import { ambientPressure } from '../oxygen/ambient-pressure.ts';
import { flowingOxygen } from '../oxygen/flowing-gas.ts';
import { meanRodFlow, rodFlowScale, type RodLine } from '../oxygen/rod-flow.ts';
import { INCH } from '../units/quantities.ts';
import { rodNames, type Rod } from './rods.ts';

const MEASURED_LENGTH = 36 * INCH;

/** Holder and rod as a flow path at a gauge pressure [Pa] at the holder's inlet, fitted to the user's own measured flow where there is one. */
export function rodLine(rod: Rod, pressure: number, { a, once }: Basis): RodLine {
  const line = (p: number): RodLine => {
    const around = ambientPressure(a);
    return {
      rod,
      holder: { diameter: a.value('holder orifice'), dischargeCoefficient: 1 },
      ambient: around,
      gas: once(`gas ${around + p / 2}`, () => flowingOxygen(a.value('gas temperature'), around + p / 2)),
      law: 'Blasius',
    };
  };
  if (a.value('rod flow measured') === 0) return line(pressure);
  const scale = once(`scale ${rod.name}`, () => {
    const at = a.value('pressure');
    return rodFlowScale(
      line(at),
      a.value('rod flow measured'),
      ambientPressure(a) + at,
      rod.kind === 'bar' ? Math.max(...rod.lengths) : MEASURED_LENGTH,
    );
  });
  return { ...line(pressure), scale };
}

/**
 * Mean flow [kg/s] at the work over a rod burned from its length down to the stub [m], at a gauge pressure [Pa]: the flow
 * calculated, times the assumption `flow factor`.
 */
export function meanFlow(rod: Rod, length: number, pressure: number, basis: Basis): number {
  const { a, once } = basis;
  return once(
    `flow ${rod.name} ${length} ${pressure}`,
    () =>
      a.value('flow factor') *
      meanRodFlow(
        once(`line ${rod.name} ${pressure}`, () => rodLine(rod, pressure, basis)),
        ambientPressure(a) + pressure,
        length,
        a.value(rodNames(rod).stub),
      ),
  );
}
