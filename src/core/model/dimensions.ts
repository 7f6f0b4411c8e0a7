import type { QuantityName } from '../units/quantities.ts';
import type { Formula } from './grammar.ts';
import type { StepList } from './step-list.ts';

/** Exponents of metre, kilogram, second, kelvin, ampere and money. */
export type Dimension = readonly [number, number, number, number, number, number];

const dimension = (metre: number, kilogram = 0, second = 0, kelvin = 0, ampere = 0, money = 0): Dimension => [
  metre,
  kilogram,
  second,
  kelvin,
  ampere,
  money,
];

const NONE = dimension(0);

/** Dimension of every quantity. Levels in decibel and shares are pure numbers; amounts of oxygen are masses. */
export const DIMENSIONS: Readonly<Record<QuantityName, Dimension>> = {
  length: dimension(1),
  distance: dimension(1),
  pressure: dimension(-1, 1, -2),
  stress: dimension(-1, 1, -2),
  oxygen: dimension(0, 1),
  flow: dimension(0, 1, -1),
  time: dimension(0, 0, 1),
  seconds: dimension(0, 0, 1),
  hours: dimension(0, 0, 1),
  mass: dimension(0, 1),
  force: dimension(1, 1, -2),
  temperature: dimension(0, 0, 0, 1),
  temperatureDifference: dimension(0, 0, 0, 1),
  absoluteTemperature: dimension(0, 0, 0, 1),
  capacity: dimension(3),
  volume: dimension(3),
  airflow: dimension(3, 0, -1),
  area: dimension(2),
  speed: dimension(1, 0, -1),
  massRate: dimension(0, 1, -1),
  massPerLength: dimension(-1, 1),
  pressurePerLength: dimension(-2, 1, -2),
  timePerLength: dimension(-1, 0, 1),
  density: dimension(-3, 1),
  specificHeat: dimension(2, 0, -2, -1),
  heatPerMass: dimension(2, 0, -2),
  energy: dimension(2, 1, -2),
  power: dimension(2, 1, -3),
  heatTransfer: dimension(0, 1, -3, -1),
  conductivity: dimension(1, 1, -3, -1),
  diffusivity: dimension(2, 0, -1),
  ratio: NONE,
  percent: NONE,
  count: NONE,
  level: NONE,
  current: dimension(0, 0, 0, 0, 1),
  voltage: dimension(2, 1, -3, 0, -1),
  resistivity: dimension(3, 1, -3, 0, -2),
  charge: dimension(0, 0, 1, 0, 1),
  concentration: dimension(-3, 1),
  money: dimension(0, 0, 0, 0, 0, 1),
  moneyPerMass: dimension(0, -1, 0, 0, 0, 1),
  moneyPerSteel: dimension(0, -1, 0, 0, 0, 1),
  moneyPerTime: dimension(0, 0, -1, 0, 0, 1),
  oxygenPerMass: NONE,
};

const UNITS = ['m', 'kg', 's', 'K', 'A', 'money'] as const;

/** `m3 kg-1`, or `a pure number`. */
export function dimensionText(d: Dimension): string {
  const text = UNITS.flatMap((unit, i) => (d[i] === 0 ? [] : [`${unit}${d[i] === 1 ? '' : d[i]}`])).join(' ');
  return text === '' ? 'a pure number' : text;
}

const same = (a: Dimension, b: Dimension): boolean => a.every((x, i) => Math.abs(x - (b[i] as number)) < 1e-9);
const combine = (a: Dimension, b: Dimension, sign: number): Dimension =>
  a.map((x, i) => x + sign * (b[i] as number)) as unknown as Dimension;
const power = (a: Dimension, n: number): Dimension => a.map((x) => x * n) as unknown as Dimension;

/** A plain 0 is nothing of anything, so it fits every dimension. */
type Found = Dimension | 'nothing';

class Misfit extends Error {}

/**
 * What is wrong with the units of a list: each formula's dimension follows from those of its symbols and must be that of its
 * step. Each message names step, formula, what was found and what was expected; none where all fit.
 */
export function misfits(list: StepList): readonly string[] {
  return list.nodes.flatMap(({ step, formula }) => {
    if (!formula || !('expression' in step.from)) return [];
    const of = (symbol: string): Dimension => DIMENSIONS[list.step(symbol).quantity];
    const expected = DIMENSIONS[step.quantity];
    const where = `step ${step.symbol} (${step.name}) = ${step.from.expression}`;
    try {
      const found = dimensionOf(formula, of);
      return found === 'nothing' || same(found, expected)
        ? []
        : [`${where}: found ${dimensionText(found)}, expected ${dimensionText(expected)}`];
    } catch (e) {
      if (e instanceof Misfit) return [`${where}: ${e.message}`];
      throw e;
    }
  });
}

function dimensionOf(f: Formula, of: (symbol: string) => Dimension): Found {
  const each = (g: Formula): Found => dimensionOf(g, of);
  switch (f.kind) {
    case 'number':
      return f.value === 0 ? 'nothing' : NONE;
    case 'pi':
      return NONE;
    case 'symbol':
      return of(f.symbol);
    case 'negative':
      return each(f.of);
    case 'binary':
      return pair(f, each);
    case 'call': {
      const parts = f.of.map(each);
      if (f.name === 'min' || f.name === 'max' || f.name === 'abs') return parts.reduce(alike);
      const [only = NONE] = parts;
      if (f.name === 'sqrt') return only === 'nothing' ? only : power(only, 0.5);
      return pure(only, f.name);
    }
    case 'if':
      alike(each(f.left), each(f.right));
      return alike(each(f.then), each(f.otherwise));
  }
}

function pair(f: Extract<Formula, { kind: 'binary' }>, each: (g: Formula) => Found): Found {
  const [left, right] = [each(f.left), each(f.right)];
  switch (f.operator) {
    case '+':
    case '-':
      return alike(left, right);
    case '*':
      return left === 'nothing' || right === 'nothing' ? 'nothing' : combine(left, right, 1);
    case '/':
      return left === 'nothing' || right === 'nothing' ? left : combine(left, right, -1);
    case '^':
      pure(right, 'an exponent');
      if (left === 'nothing' || same(left, NONE)) return left;
      if (f.right.kind !== 'number') throw new Misfit(`a power of ${dimensionText(left)} must be a plain number`);
      return power(left, f.right.value);
  }
}

function alike(a: Found, b: Found): Found {
  if (a === 'nothing') return b;
  if (b === 'nothing') return a;
  if (!same(a, b)) throw new Misfit(`found ${dimensionText(a)} beside ${dimensionText(b)}, expected the same`);
  return a;
}

function pure(found: Found, of: string): Dimension {
  if (found !== 'nothing' && !same(found, NONE))
    throw new Misfit(`found ${dimensionText(found)} in ${of}, expected a pure number`);
  return NONE;
}
