import { QUANTITIES, type Quantity, type QuantityName, type Unit, type UnitSystem } from './quantities.ts';

const ALIASES: Readonly<Record<string, readonly string[]>> = {
  in: ['"', '″', '”', "''", 'in.', 'inch', 'inches'],
  ft: ["'", '′', '’', 'ft.', 'foot', 'feet'],
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

const FRACTIONS: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
  '⅓': '1/3',
  '⅔': '2/3',
};

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
    return next === '' || /[\s\d]/.test(next) || /['"″′”’]$/.test(name);
  };
  return names.find((n) => fits(n.text, true)) ?? names.find((n) => fits(n.text, false));
}

/**
 * Reads a quantity from a text such as `100 mm`, `3/8`, `4-1/2"`, `2 ft 6 in` or `6 bar` and gives it in SI.
 *
 * A text without a unit is a plain number in the unit of `system`. Parts with units add up (feet and inches,
 * hours and minutes). Gives undefined where the text is not a quantity of that kind.
 */
export function parseQuantity(text: string, name: QuantityName, system: UnitSystem = 'US'): number | undefined {
  const clean = text
    .replace(/[½¼¾⅛⅜⅝⅞⅓⅔]/g, (c) => ` ${FRACTIONS[c] ?? ''}`)
    .replace(/[²]/g, '2')
    .replace(/[³]/g, '3')
    .replace(/−/g, '-')
    .trim();
  const names = NAMES.get(name) ?? [];
  let sum = 0;
  let at = 0;
  let parts = 0;
  let negative = false;
  while (at < clean.length) {
    NUMBER.lastIndex = at;
    const m = NUMBER.exec(clean);
    if (!m) return undefined;
    const [, sign, whole, over, under, top, bottom, decimal] = m;
    if (parts > 0 && sign) return undefined;
    const n =
      decimal !== undefined
        ? Number(decimal)
        : whole !== undefined
          ? Number(whole) + Number(over) / Number(under)
          : Number(top) / Number(bottom);
    if (!Number.isFinite(n)) return undefined;
    at = NUMBER.lastIndex;
    const unit = readUnit(clean, at, names);
    if (parts === 0) negative = sign === '-';
    if (!unit) {
      if (parts > 0 || at < clean.length) return undefined;
      return toSi(negative ? -n : n, name, system);
    }
    if (parts > 0 && unit.unit.offset !== undefined) return undefined;
    sum += (negative ? -n : n) * unit.unit.factor + (unit.unit.offset ?? 0);
    at += unit.text.length;
    while (/\s/.test(clean.charAt(at))) at++;
    parts++;
  }
  return parts > 0 ? sum : undefined;
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

/** A number in `unit` (or the plain unit of a system) to SI. */
export function toSi(value: number, name: QuantityName, system: UnitSystem, unit = plainUnit(name, system)): number {
  const { factor, offset } = unitOf(name, unit);
  return offset === undefined ? value * factor : value * factor + offset;
}

/** An SI value to a number in `unit` (or the plain unit of a system). */
export function fromSi(value: number, name: QuantityName, system: UnitSystem, unit = plainUnit(name, system)): number {
  const { factor, offset } = unitOf(name, unit);
  return offset === undefined ? value / factor : (value - offset) / factor;
}

/** Whether `unit` is a unit, or another name of one, of the quantity; gives the register's own name of it. */
export function knownUnit(text: string, name: QuantityName): string | undefined {
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
