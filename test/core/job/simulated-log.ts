/** Invented finished jobs, made by sizing pins with stated true factors and then letting them scatter. */
import { Assumptions, type Override } from '../../../src/core/assumptions/assumptions.ts';
import { isChoice } from '../../../src/core/assumptions/assumption.ts';
import { REGISTRY, type NumberName } from '../../../src/core/assumptions/registry.ts';
import { Basis } from '../../../src/core/basis.ts';
import { CalcError } from '../../../src/core/errors.ts';
import { findMaterial } from '../../../src/core/burn/materials.ts';
import { findRod, rodMassPerLength } from '../../../src/core/burn/rods.ts';
import type { LogJob } from '../../../src/core/job/log-job.ts';
import { johnson, johnsonQuantile } from '../../../src/core/spread/johnson.ts';
import { drawnWith } from '../../../src/core/spread/drawn-together.ts';
import type { Seeded } from '../../../src/core/spread/seeded.ts';
import { operationOf } from '../../../src/core/operations/all.ts';
import { sized, type Sized } from '../../../src/core/operations/sized.ts';

export const IN = 0.0254;
export const PIN = operationOf('PIN');
export const STEEL = findMaterial('carbon steel');
export type Truth = Readonly<Partial<Record<NumberName, number>>>;

/** A basis in which the factors have these values for certain. */
export function basisWith(truth: Truth): Basis {
  return new Basis(
    Assumptions.from(
      Object.entries(truth).map(([name, value]): Override => ({
        name: name as NumberName,
        value,
        low: value,
        high: value,
        kind: 'your value',
      })),
    ),
  );
}

/** A basis in which every assumption is certain, these with other values. */
export const certainly = (truth: Truth): Basis =>
  basisWith({
    ...Object.fromEntries(
      REGISTRY.flatMap((entry) => (isChoice(entry) ? [] : [[entry.name, Assumptions.defaults().value(entry.name)]])),
    ),
    ...truth,
  });

/** A random world: factors from their ranges in force, those together that the draws draw together. */
export function drawWorld(
  names: readonly NumberName[],
  random: Seeded,
  basis = new Basis(Assumptions.defaults()),
): Readonly<Partial<Record<NumberName, number>>> {
  const chances = new Map<NumberName, number>();
  return Object.fromEntries(
    names.map((each) => {
      const { name, falling } = drawnWith(each, basis.a);
      const chance = chances.get(name) ?? random.uniform();
      chances.set(name, chance);
      return [each, johnsonQuantile(johnson(basis.a.inForce(each)), falling ? 1 - chance : chance)];
    }),
  );
}

/** `drawWorld` until the heat suffices to burn a pin: other worlds leave no log, and their draws count as more than any other. */
export function drawBurningWorld(
  names: readonly NumberName[],
  random: Seeded,
  basis = new Basis(Assumptions.defaults()),
): ReturnType<typeof drawWorld> {
  for (;;) {
    const world = drawWorld(names, random, basis);
    try {
      sizePin(4, 10, undefined, basisWith(world));
      return world;
    } catch (e) {
      if (!(e instanceof CalcError)) throw e;
    }
  }
}

export interface Noise {
  readonly rods: number;
  readonly oxygen: number;
  readonly burning: number;
  readonly crew: number;
}

export const NOISE: Noise = { rods: 0.05, oxygen: 0.06, burning: 0.08, crew: 0.12 };

export const sizePin = (diameter: number, length: number, rod: string | undefined, basis: Basis): Sized =>
  sized({
    operation: PIN,
    sizes: { diameter: diameter * IN, length: length * IN },
    rod: rod === undefined ? undefined : findRod(rod),
    material: STEEL,
    basis,
  });

const wholeUp = (x: number): number => Math.max(1, Math.ceil(x - 1e-9));

/**
 * Rods, not rounded, for a length of rod consumed: each burns its length less the stub and half of what the depth takes; coupled
 * ones lose both once.
 */
function rodsFor(consumed: number, { rod: { length, coupled }, reach }: Sized, { a }: Basis): number {
  const lost = a.value('stub') + (a.value('reach loss') * reach) / 2;
  return coupled ? (consumed + lost) / length : consumed / (length - lost);
}

/** What a sized item takes with its own scatter, rods whole, changed as far as they burn. Cooling [s] is given, so that it need not be worked out again. */
export function scattered(
  sizing: Sized,
  own: number,
  basis: Basis,
  cooling: number,
): { readonly rods: number; readonly oxygen: number; readonly burning: number; readonly crew: number } {
  const { a } = basis;
  const used = Math.max(1, rodsFor(sizing.consumed * own, sizing, basis));
  const rods = wholeUp(used);
  const burning = sizing.burnTime * own;
  // Pilot and widening have flows of their own: their mean is what fed the rod consumed.
  const flow = (sizing.consumed * rodMassPerLength(sizing.rod.rod)) / a.value('rod feed ratio') / sizing.burnTime;
  return {
    rods,
    burning,
    oxygen: flow * burning * (1 + a.value('idle oxygen share')) + rods * flow * a.value('lighting time'),
    crew:
      PIN.crewTimes.reduce((sum, name) => sum + a.value(name), 0) +
      cooling +
      burning / a.value('burning duty') +
      used * a.value('rod change time') +
      (sizing.rod.coupled ? (used - 1) * a.value('coupling time') : 0),
  };
}

export interface SimulatedPin {
  readonly diameter: number;
  readonly length: number;
}

export function randomPins(n: number, random: Seeded): readonly SimulatedPin[] {
  return Array.from({ length: n }, () => ({
    diameter: Math.round(8 * (2.5 + 4 * random.uniform())) / 8,
    length: Math.round(4 * (6 + 18 * random.uniform())) / 4,
  }));
}

/**
 * Finished jobs of pins as a crew with these true factors notes them; sized, as any log is, with the assumptions in `basis`. They
 * cool as planned, or as in their world, which takes longer to work out.
 */
export function simulateLog(
  pins: readonly SimulatedPin[],
  truth: Truth,
  random: Seeded,
  noise: Noise = NOISE,
  basis = new Basis(Assumptions.defaults()),
  cooled: 'as planned' | 'in its world' = 'as planned',
): readonly LogJob[] {
  const world = certainly(truth);
  const scatter = johnson(basis.a.inForce('item scatter'));
  return pins.map(({ diameter, length }, i) => {
    const sizing = sizePin(diameter, length, undefined, basis);
    const happened = sizePin(diameter, length, sizing.name, world);
    const own = johnsonQuantile(scatter, random.uniform());
    const noted = (x: number, deviation: number): number => x * Math.exp(deviation * random.normal());
    const took = scattered(happened, own, world, (cooled === 'as planned' ? sizing : happened).cooling);
    const rods = wholeUp(noted(rodsFor(happened.consumed * own, happened, world), noise.rods));
    return {
      row: i + 2,
      label: String(i + 1),
      operation: PIN,
      sizing,
      noted: {
        rods,
        oxygen: noted(took.oxygen, noise.oxygen),
        burning: noted(took.burning, noise.burning),
        crew: noted(took.crew, noise.crew),
      },
    };
  });
}
