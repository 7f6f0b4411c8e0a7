import { editDistance, nearestNames } from './nearest-names.ts';
import { QUANTITIES, type Quantity, type QuantityName, type Unit, type UnitSystem } from './quantities.ts';

const ALIASES: Readonly<Record<string, readonly string[]>> = {
  in: ['"', "''", 'inch', 'inches'],
  ft: ["'", 'foot', 'feet'],
  mm: ['millimetre', 'millimetres', 'millimeter', 'millimeters'],
  m: ['metre', 'metres', 'meter', 'meters'],
  psi: ['psig', 'lb/in2', 'lbf/in2'],
  bar: ['barg', 'bar g', 'bar(g)'],
  'bar abs': ['bara', 'bar(a)'],
  scf: ['cu ft', 'ft3', 'cf', 'cubic feet', 'standard cubic feet', 'scf70'],
  'cu ft': ['ft3', 'cubic feet', 'cubic foot', 'cf'],
  'cu in': ['in3'],
  'sq in': ['in2'],
  m3: ['cu m', 'sm3'],
  Nm3: ['nm3'],
  scfm: ['cfm', 'cu ft/min', 'scf/min'],
  cfm: ['cu ft/min', 'ft3/min'],
  scfh: ['cfh'],
  min: ['minute', 'minutes', 'mins'],
  s: ['sec', 'secs', 'second', 'seconds'],
  h: ['hr', 'hrs', 'hour', 'hours'],
  lb: ['lbs', 'pound', 'pounds'],
  lbf: ['lb', 'lbs'],
  ton: ['tons', 'short ton', 'short tons', 'tonf'],
  F: ['°F', 'deg F', 'degF'],
  C: ['°C', 'deg C', 'degC'],
  K: ['kelvin'],
  L: ['litre', 'litres', 'liter', 'liters'],
  A: ['amp', 'amps', 'ampere', 'amperes'],
  V: ['volt', 'volts'],
  Ah: ['amp hours', 'ampere hours'],
  dBA: ['dB(A)'],
  '%': ['percent'],
};

/** Words and signs of a diameter, before or after a length, or between its number and its unit. */
const DIAMETER =
  /^(?:[ø⌀∅φ]|dia(?:m(?:eter|etre)?)?\b\.?)\s*|\s*(?:[ø⌀∅φ]|\bdia(?:m(?:eter|etre)?)?\b\.?)$|\s+dia(?:m(?:eter|etre)?)?\b\.?(?=\s*[a-z"'])/i;

/** Units after whose part a plain number is one of the next smaller: 1 ft 2, 1 h 30. */
const NEXT_SMALLER: Readonly<Record<string, string>> = { ft: 'in', h: 'min' };

// A whole number with a fraction (4-1/2, 4 1/2), a fraction (3/8), or a decimal. No thousands separators:
// "2,500" is two thousand five hundred in one country and two and a half in another.
const NUMBER =
  /\s*([+-]?)\s*(?:(\d+)(?:\s*-\s*|\s+)(\d+)\s*\/\s*(\d+)|(\d+)\s*\/\s*(\d+)|(\d+\.?\d*(?:[eE][+-]?\d+)?|\.\d+(?:[eE][+-]?\d+)?))\s*/y;

interface UnitName {
  readonly text: string;
  readonly unit: Unit;
}

/** Names of each quantity's units, longest first so that `bar abs` is not read as `bar`. */
const NAMES = new Map<QuantityName, readonly UnitName[]>(
  (Object.keys(QUANTITIES) as QuantityName[]).map((name) => {
    const found: UnitName[] = [];
    for (const [text, unit] of Object.entries(QUANTITIES[name].units)) {
      for (const each of [text, ...(ALIASES[text] ?? [])]) if (each) found.push({ text: each, unit });
    }
    return [name, found.sort((a, b) => b.text.length - a.text.length)];
  }),
);

function readUnit(text: string, at: number, names: readonly UnitName[]): UnitName | undefined {
  const fits = (name: string, exact: boolean): boolean => {
    const piece = text.slice(at, at + name.length);
    if (exact ? piece !== name : piece.toLowerCase() !== name.toLowerCase()) return false;
    const next = text.charAt(at + name.length);
    return next === '' || /[\s\d-]/.test(next) || /^\.(?!\d)/.test(text.slice(at + name.length)) || /['"]$/.test(name);
  };
  return names.find((n) => fits(n.text, true)) ?? names.find((n) => fits(n.text, false));
}

/**
 * A text in the signs of a typewriter: fullwidth letters and digits, fractions of one sign, the many dashes, quotes and spaces
 * become plain ones (compatibility forms of Unicode), and what is not seen is dropped.
 */
function plainSigns(text: string): string {
  if (/^[ -~]*$/.test(text)) return text.trim();
  return text
    .replace(/º/g, '°')
    .replace(/[\u00bc-\u00be\u2150-\u215e]/g, (fraction) => ` ${fraction.normalize('NFKC')}`)
    .replace(/[″”“]/g, '"')
    .replace(/[′’‘]/g, "'")
    .normalize('NFKC')
    .replace(/[\u2044\u2215]/g, '/')
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .replace(/[\u200b-\u200f\u2060\ufeff]/g, '')
    .trim();
}

/** What is wrong with a text that should be a quantity, and the part of it that is. */
export interface Misread {
  readonly problem: 'no number' | 'unknown unit' | 'comma' | 'left over';
  readonly part: string;
  /** Names of units like the one that came, where there are any. */
  readonly nearest: readonly string[];
}

/** A text read as a quantity: in SI, whether it says that it is a diameter, and whether it names its unit. */
export interface ReadText {
  readonly si: number;
  readonly diameter: boolean;
  readonly unit: boolean;
}

const misread = (problem: Misread['problem'], part: string, nearest: readonly string[] = []): Misread => ({
  problem,
  part: part.trim(),
  nearest,
});

/** What follows a number and is neither a unit nor another part. */
function strange(after: string, name: QuantityName): Misread {
  const rest = after.replace(DIAMETER, '');
  if (/^\s*,/.test(rest)) return misread('comma', rest);
  const word = /^[^\s\d,()]+/.exec(rest)?.[0].replace(/\.+$/, '') ?? '';
  const names = (NAMES.get(name) ?? []).map((n) => n.text);
  if (/^(x|[^\p{L}].*)?$/iu.test(word) || names.includes(word)) return misread('left over', rest);
  // A slip of the finger: one letter in a short name, and more in a long one.
  const close = (unit: string): boolean => editDistance(word.toLowerCase(), unit.toLowerCase()) <= 1 + unit.length / 4;
  return misread('unknown unit', word, nearestNames(word, names.filter(close), 2));
}

/**
 * Reads a quantity from a text as people write it and gives it in SI, or says which part of it is wrong.
 *
 * `100 mm`, `3/8`, `4-1/2"`, `4½`, `2 ft 6 in`, `1'-2"`, `1 ft 2`, `Ø90`, `3 1/2 in dia`, `6 bar`, in whatever dashes, quotes and
 * widths. A text without a unit is a plain number in the unit of `system`. Parts with units add up, from the larger to the
 * smaller where a dash joins them; after feet a plain number is inches, after hours minutes.
 */
export function readQuantityText(text: string, name: QuantityName, system: UnitSystem = 'US'): ReadText | Misread {
  const signs = plainSigns(text);
  const length = name === 'length' || name === 'distance';
  const clean = length ? signs.replace(DIAMETER, '') : signs;
  const diameter = clean !== signs;
  const names = NAMES.get(name) ?? [];
  let sum = 0;
  let at = 0;
  let last: UnitName | undefined;
  let negative = false;
  while (at < clean.length) {
    const joined = last ? (/^\s*-\s*/.exec(clean.slice(at))?.[0].length ?? 0) : 0;
    NUMBER.lastIndex = at + joined;
    const m = NUMBER.exec(clean);
    if (!m || (last && m[1])) return last ? strange(clean.slice(at), name) : misread('no number', signs);
    const [, sign, whole, over, under, top, bottom, decimal] = m;
    const n =
      decimal !== undefined
        ? Number(decimal)
        : whole !== undefined
          ? Number(whole) + Number(over) / Number(under)
          : Number(top) / Number(bottom);
    if (!Number.isFinite(n)) return misread('no number', m[0]);
    const from = at;
    at = NUMBER.lastIndex;
    const named = readUnit(clean, at, names);
    if (!last) negative = sign === '-';
    const signed = negative ? -n : n;
    if (!named && at < clean.length) return strange(clean.slice(at), name);
    if (!named && !last) return { si: toSi(signed, name, system), diameter, unit: false };
    const smaller = last && NEXT_SMALLER[registered(last, name)];
    const unit = named?.unit ?? (smaller === undefined ? undefined : unitOf(name, smaller));
    if (!unit || (last && unit.offset !== undefined)) return misread('left over', clean.slice(from));
    if (joined > 0 && last && unit.factor >= last.unit.factor) return misread('left over', clean.slice(from));
    sum += signed * unit.factor + (unit.offset ?? 0);
    if (!named) break;
    last = named;
    at += named.text.length;
    if (/^\.(?!\d)/.test(clean.slice(at))) at++;
    while (/\s/.test(clean.charAt(at))) at++;
  }
  return last ? { si: sum, diameter, unit: true } : misread('no number', signs);
}

/** The register's own name of a unit that was read. */
const registered = ({ unit }: UnitName, name: QuantityName): string =>
  Object.entries(QUANTITIES[name].units).find(([, each]) => each === unit)?.[0] ?? '';

/**
 * `readQuantityText` for whoever needs no reason: undefined where the text is not a quantity of that kind.
 *
 * @example parseQuantity('4-1/2', 'length') // 0.1143
 */
export function parseQuantity(text: string, name: QuantityName, system: UnitSystem = 'US'): number | undefined {
  const read = readQuantityText(text, name, system);
  return 'si' in read ? read.si : undefined;
}

/** Unit of plain numbers of a quantity in a system. */
export function plainUnit(name: QuantityName, system: UnitSystem): string {
  return system === 'SI' ? QUANTITIES[name].si : QUANTITIES[name].us;
}

function unitOf(name: QuantityName, unit: string): Unit {
  const { units }: Quantity = QUANTITIES[name];
  const found = units[unit];
  if (!found) throw new Error(`${unit} is not a unit of ${name}`);
  return found;
}

/**
 * A number in `unit` (or the plain unit of a system) to SI.
 *
 * @example toSi(90, 'pressure', 'US') // 620528.16
 */
export function toSi(value: number, name: QuantityName, system: UnitSystem, unit = plainUnit(name, system)): number {
  const { factor, offset } = unitOf(name, unit);
  return offset === undefined ? value * factor : value * factor + offset;
}

/**
 * An SI value to a number in `unit` (or the plain unit of a system).
 *
 * @example fromSi(0.1016, 'length', 'US') // 4
 */
export function fromSi(value: number, name: QuantityName, system: UnitSystem, unit = plainUnit(name, system)): number {
  const { factor, offset } = unitOf(name, unit);
  return offset === undefined ? value / factor : (value - offset) / factor;
}

/** Whether `unit` is a unit, or another name of one, of the quantity; gives the register's own name of it. */
export function knownUnit(written: string, name: QuantityName): string | undefined {
  const text = plainSigns(written).replace(/\.$/, '');
  const units = Object.keys(QUANTITIES[name].units);
  return (
    units.find((u) => u === text) ??
    units.find((u) => u.toLowerCase() === text.toLowerCase() || (ALIASES[u] ?? []).includes(text))
  );
}

/** How a number in `unit` becomes SI: number x factor + offset. */
export function conversion(name: QuantityName, unit: string): { readonly factor: number; readonly offset: number } {
  const { factor, offset = 0 } = unitOf(name, unit);
  return { factor, offset };
}

/** The unit in which SI values of a quantity stand; undefined where the register has no such unit. */
export function siUnit(name: QuantityName): string | undefined {
  const { units }: Quantity = QUANTITIES[name];
  return Object.entries(units).find(([, { factor, offset }]) => factor === 1 && offset === undefined)?.[0];
}
