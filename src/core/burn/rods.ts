import type { NumberName } from '../assumptions/registry.ts';
import { INCH } from '../units/quantities.ts';
import { shown, unknownName } from '../messages.ts';
import { nearestNames } from '../units/nearest-names.ts';
import { parseQuantity } from '../units/parse-quantity.ts';

/** kg/m3; source: EN 1991-1-1, Table A.4. */
export const STEEL_DENSITY = 7850;

/** A rod's construction: a steel tube packed with round wires. Lengths in m. */
export interface Rod {
  /** Name by size: `3/8`. */
  readonly name: string;
  /** A hand-held rod up to 4 ft, or a long burning bar of pipe. */
  readonly kind: 'short' | 'bar';
  /** Covered so that it does not arc on grounded work or under water. */
  readonly insulated: boolean;
  readonly outsideDiameter: number;
  readonly bore: number;
  readonly wires: number;
  readonly wireDiameter: number;
  /** Lengths it is stocked in, shortest first. */
  readonly lengths: readonly number[];
  readonly source: string;
}

/** A rod as chosen for a job. */
export interface RodChoice {
  readonly rod: Rod;
  /** Length of one rod, m; undefined leaves it to the picker. */
  readonly length: number | undefined;
  readonly coupled: boolean;
}

const inches = (...xs: readonly number[]): readonly number[] => xs.map((x) => x * INCH);
const short = (name: string, outside: number, bore: number, wires: number, wire: number): Rod => ({
  name,
  kind: 'short',
  insulated: false,
  outsideDiameter: outside * INCH,
  bore: bore * INCH,
  wires,
  wireDiameter: wire * INCH,
  lengths: inches(18, 24, 36, 48),
  source: 'common practice',
});
/** The cover burns off ahead of the tip; it is left out of mass and widths. */
const insulated = (rod: Rod): Rod => ({
  ...rod,
  name: `${rod.name} insulated`,
  insulated: true,
  lengths: inches(18, 24, 36),
});
/** Schedule 40 pipe packed with as many 1/8 in wires as its bore takes side by side (densest packing of circles in a circle). */
const bar = (size: string, outside: number, wall: number, wires: number): Rod => ({
  name: `${size} pipe`,
  kind: 'bar',
  insulated: false,
  outsideDiameter: outside * INCH,
  bore: (outside - 2 * wall) * INCH,
  wires,
  wireDiameter: 0.125 * INCH,
  lengths: inches(60, 120),
  source: 'asme b36.10',
});

const SHORT_RODS: readonly Rod[] = [
  short('3/16', 0.1875, 0.137, 3, 0.05),
  short('1/4', 0.25, 0.19, 4, 0.065),
  short('3/8', 0.375, 0.305, 7, 0.095),
];

/**
 * Registry of rods, thinnest first of each kind. Constructions of short rods, and wires, are common practice, no source;
 * outside diameter and wall of bars are those of schedule 40 pipe. A measured flow replaces what follows from them.
 */
export const RODS: readonly Rod[] = [
  ...SHORT_RODS,
  ...SHORT_RODS.slice(1).map(insulated),
  bar('1/4', 0.54, 0.088, 5),
  bar('3/8', 0.675, 0.091, 11),
  bar('1/2', 0.84, 0.109, 19),
  bar('3/4', 1.05, 0.113, 33),
];

/** Names of the assumptions that belong to a kind of rod. */
export function rodNames(rod: Rod): {
  readonly feed: NumberName;
  readonly burnt: NumberName;
  readonly stub: NumberName;
  readonly access: NumberName;
  readonly holder: NumberName;
  readonly price: NumberName;
} {
  return rod.kind === 'bar'
    ? {
        feed: 'bar feed ratio',
        burnt: 'bar oxygen burnt share',
        stub: 'bar stub',
        access: 'bar access length',
        holder: 'bar holder ratio',
        price: 'bar price',
      }
    : {
        feed: 'rod feed ratio',
        burnt: 'oxygen burnt share',
        stub: 'stub',
        access: 'access length',
        holder: 'holder orifice',
        price: 'rod price',
      };
}

/**
 * Mass of steel in a metre of rod, kg/m: tube wall and wires.
 *
 * @example (rodMassPerLength(findRod('3/8').rod) * 36 * INCH) / POUND // 0.8883
 */
export function rodMassPerLength(rod: Rod): number {
  const tube = rod.outsideDiameter ** 2 - rod.bore ** 2;
  const wires = rod.wires * rod.wireDiameter ** 2;
  return (Math.PI / 4) * (tube + wires) * STEEL_DENSITY;
}

/** `3/8 x 36`, or `3/8 x 36 coupled`; the length in inches, as the trade names rods. */
export function rodName(rod: Rod, length: number | undefined, coupled: boolean): string {
  const registered = length === undefined ? undefined : REGISTERED.get(rod)?.get(length);
  if (registered) return coupled ? registered.coupled : registered.single;
  const size = length === undefined ? rod.name : `${rod.name} x ${shown(length / INCH, 4)}`;
  return coupled ? `${size} coupled` : size;
}

interface Names {
  readonly single: string;
  readonly coupled: string;
}
/** Names of the lengths of the register, made once: plans of many rows ask for nothing else. */
const REGISTERED = new Map<Rod, ReadonlyMap<number, Names>>();
for (const rod of RODS)
  REGISTERED.set(
    rod,
    new Map(rod.lengths.map((l) => [l, { single: rodName(rod, l, false), coupled: rodName(rod, l, true) }])),
  );

const ROD_NAMES = RODS.flatMap((r) => [r.name, ...r.lengths.map((l) => rodName(r, l, false))]);

/**
 * Reads a rod's name: `3/8`, `3/8 x 36`, `3/8 in x 36 in`, `0.375`, `3/8 insulated x 18`, `1/2 pipe x 10 ft`, with
 * `coupled` behind it where rods are coupled; a plain length is inches. `#N/A` with the nearest names where the
 * register does not know it.
 */
export function findRod(text: string): RodChoice {
  const clean = text.trim().toLowerCase().replace(/\s+/g, ' ');
  const coupled = / ?coupled$/.test(clean);
  const bare = clean.replace(/ ?coupled$/, '');
  const covered = / ?insulated/.test(bare);
  const [size = '', lengthText] = bare.replace(/ ?insulated/, '').split(/\s*[x×]\s*/);
  const rod = rodOfSize(size, covered);
  const length = lengthText === undefined ? undefined : parseQuantity(lengthText, 'length');
  if (!rod || (lengthText !== undefined && !(length !== undefined && length > 0 && length < LONGEST))) {
    throw unknownName('rod', text, nearestNames(clean, ROD_NAMES));
  }
  return { rod, length, coupled };
}

/** A longer rod than this is a slip of the pen [m]. */
const LONGEST = 10;
/** How far a diameter in decimals may be from the register's [m]. */
const NEAR = 0.3e-3;

function rodOfSize(size: string, covered: boolean): Rod | undefined {
  const wanted = covered ? `${size} insulated` : size;
  const byName = RODS.find((r) => r.name === wanted);
  if (byName) return byName;
  const piped = / ?pipe$/.test(size);
  const diameter = parseQuantity(size.replace(/ ?pipe$/, ''), 'length');
  if (diameter === undefined) return undefined;
  if (piped)
    return RODS.find((r) => r.kind === 'bar' && parseQuantity(r.name.replace(' pipe', ''), 'length') === diameter);
  return RODS.find(
    (r) => r.kind === 'short' && r.insulated === covered && Math.abs(r.outsideDiameter - diameter) < NEAR,
  );
}
