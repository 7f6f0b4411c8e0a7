import { HEAT_ASSUMPTIONS } from '../../../src/core/assumptions/heat.ts';
import type { PinInBoss } from '../../../src/core/heat/cool-pin.ts';
import { heatIntoWall, type BurnPass } from '../../../src/core/heat/heat-into-wall.ts';
import type { HeatPhysics } from '../../../src/core/heat/heat-physics.ts';
import { toSi } from '../../../src/core/units/parse-quantity.ts';

type Name = (typeof HEAT_ASSUMPTIONS)[number]['name'];
export type Level = 'value' | 'low' | 'high';

/** A default of the heat assumptions in SI. */
export function assumed(name: Name, level: Level = 'value'): number {
  const row = HEAT_ASSUMPTIONS.find((a) => a.name === name)!;
  return toSi(row[level], row.quantity, 'US', row.unit);
}

export const DENSITY = 7850;
export const INCH = 0.0254;

/** The physics of the default assumptions. */
export const PHYSICS: HeatPhysics = {
  ambient: assumed('ambient temperature'),
  water: assumed('cooling water temperature'),
  emissivity: assumed('surface emissivity'),
  contact: assumed('joint conductance'),
  wetShare: assumed('wet boss share'),
  surfaceFactor: assumed('boiling surface factor'),
  fluxFactor: assumed('boiling flux factor'),
  filmLimit: assumed('film boiling limit'),
  meltingPoint: assumed('wall melting point'),
  density: DENSITY,
  zone: assumed('heated zone'),
};

/** A pin of 4 in, 10 in long, bored 2.5 in, in a boss of 10 in. */
export const PIN: PinInBoss = { diameter: 4 * INCH, hole: 2.5 * INCH, boss: 10 * INCH, length: 10 * INCH };

export function passesOf(pin: PinInBoss = PIN, burnTime = 600, level: Level | number = 'value'): readonly BurnPass[] {
  return heatIntoWall({
    hole: pin.hole,
    pilot: 0.75 * INCH,
    burnTime,
    heatPerMass: typeof level === 'number' ? level : assumed('heat into the part', level),
    density: DENSITY,
  });
}
