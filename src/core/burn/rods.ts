import { INCH } from '../units/quantities.ts';
import { unknownName } from '../messages.ts';
import { nearestNames } from '../units/nearest-names.ts';
import { parseQuantity } from '../units/parse-quantity.ts';

const STEEL_DENSITY = 7850;

/** A rod's construction: a steel tube packed with round wires. Lengths in m. */
export interface Rod {
  /** Name by size: `3/8`. */
  readonly name: string;
  readonly kind: 'short' | 'bar';
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
  name, kind: 'short', outsideDiameter: outside * INCH, bore: bore * INCH, wires, wireDiameter: wire * INCH,
  lengths: inches(18, 24, 36, 48), source: 'common practice',
});

/** Registry of rods, thinnest first. Constructions are common practice, no source; a measured flow replaces them. */
export const RODS: readonly Rod[] = [
  short('3/16', 0.1875, 0.137, 3, 0.05),
  short('1/4', 0.25, 0.19, 4, 0.065),
  short('3/8', 0.375, 0.305, 7, 0.095),
];

/** Mass of steel in a metre of rod, kg/m: tube wall and wires. */
export function rodMassPerLength(rod: Rod): number {
  const tube = rod.outsideDiameter ** 2 - rod.bore ** 2;
  const wires = rod.wires * rod.wireDiameter ** 2;
  return (Math.PI / 4) * (tube + wires) * STEEL_DENSITY;
}

/** `3/8 x 36`, or `3/8 x 36 coupled`; the length in inches, as the trade names rods. */
export function rodName(rod: Rod, length: number | undefined, coupled: boolean): string {
  const size = length === undefined ? rod.name : `${rod.name} x ${String(Number((length / INCH).toPrecision(4)))}`;
  return coupled ? `${size} coupled` : size;
}

/**
 * Reads a rod's name: `3/8`, `3/8 x 36`, `3/8 in x 36 in`, `0.375`, `3/8 x 36 coupled`; a plain length is inches.
 * `#N/A` with the nearest names where the register does not know it.
 */
export function findRod(text: string): RodChoice {
  const clean = text.trim().toLowerCase().replace(/\s+/g, ' ');
  const coupled = / ?coupled$/.test(clean);
  const [size = '', lengthText] = clean.replace(/ ?coupled$/, '').split(/\s*[x×]\s*/);
  const rod = rodOfSize(size);
  const length = lengthText === undefined ? undefined : parseQuantity(lengthText, 'length');
  if (!rod || (lengthText !== undefined && !(length !== undefined && length > 0 && length < 10))) {
    throw unknownName('rod', text, nearestNames(clean, RODS.flatMap((r) => [r.name, ...r.lengths.map((l) => rodName(r, l, false))])));
  }
  return { rod, length, coupled };
}

function rodOfSize(size: string): Rod | undefined {
  const byName = RODS.find((r) => r.name === size);
  if (byName) return byName;
  const diameter = parseQuantity(size, 'length');
  if (diameter === undefined) return undefined;
  return RODS.find((r) => r.kind === 'short' && Math.abs(r.outsideDiameter - diameter) < 0.3e-3);
}
