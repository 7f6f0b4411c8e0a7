/** Formulas that nobody means: any function with anything for arguments, inside one another. */
import { functionNames } from '../../src/engine/headless.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';
import type { Chance } from './chance.ts';

/** What changes by itself, and what waits for an answer from elsewhere. */
const NOT_TWICE_THE_SAME = ['RAND', 'RANDBETWEEN', 'RANDARRAY', 'NOW', 'TODAY', 'IMAGE', 'INFO', 'CELL', 'WEBSERVICE'];
/** What makes as much as it is told to; its bounds of time and memory are tried on the command line. */
const AS_LARGE_AS_TOLD = ['MAKEARRAY', 'SEQUENCE', 'REPT', 'MUNIT', 'EXPAND', 'BASE', 'DEC2BIN', 'COMBIN', 'FACT'];

const SHEET = functionNames.filter((name) => !NOT_TWICE_THE_SAME.includes(name));
const OURS = hostFunctions
  .map(({ name }) => name)
  .filter((name) => !/ASSUME\.EFFECT|SPREAD|STOCK|LOG|CUTLIST|SUPPLY\.CHECK/.test(name));

export const VALUES = [
  '0',
  '-1',
  '1',
  '3',
  '0.1',
  '10',
  '46000',
  '1E308',
  '-1E308',
  '1E-320',
  '""',
  '"3/8"',
  '"4-1/2"',
  '"100 mm"',
  '"a"',
  '"=A1"',
  '"\u202e"',
  '"é\ud83d\udd25"',
  'TRUE',
  'FALSE',
  '#N/A',
  '#REF!',
  '#DIV/0!',
  '{1,2;3,4}',
  '{"a";1}',
  '',
];
const CELLS = [
  'A1',
  'A1:A6',
  'A1:C6',
  'B2',
  'C:C',
  '2:2',
  'A1:B3',
  'XFD1048576',
  '$A$1',
  'Z9',
  'sizes',
  'nothing',
  'S!A1',
  "'S'!B1:B3",
];
const OPERATORS = ['+', '-', '*', '/', '^', '&', '=', '<>', '<', '>=', ' ', ':'];

export function formula(chance: Chance, deep = 3): string {
  const kind = chance.below(deep > 0 ? 8 : 2);
  if (kind === 0) return chance.one(VALUES);
  if (kind === 1) return chance.one(CELLS);
  if (kind === 2) return `${formula(chance, deep - 1)}${chance.one(OPERATORS)}${formula(chance, deep - 1)}`;
  if (kind === 3)
    return `${chance.one(['-', '+', '--', '(', '@'])}${formula(chance, deep - 1)}${chance.one(['%', '', ')', '#'])}`;
  const name = chance.one(kind === 4 ? OURS : SHEET);
  const arguments_ = chance.in(8)
    ? []
    : chance.times(AS_LARGE_AS_TOLD.includes(name) ? 2 : 5, () =>
        AS_LARGE_AS_TOLD.includes(name) ? String(chance.below(9)) : formula(chance, deep - 1),
      );
  return `${name}(${arguments_.join(',')})`;
}
