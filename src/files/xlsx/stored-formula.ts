import { counted } from '../../core/units/counted.ts';
import { ownName } from '../../sheet/own-name.ts';
import { parseA1Ref, parseStructRef, stringifyA1Ref, type RangeA1 } from '@borgar/fx/xlsx';
import { nearestNames } from '../../core/units/nearest-names.ts';
import type { HostFunction } from '../../sheet/host-function.ts';
import { LAST_ROW, LAST_COLUMN, isWithin, sheetPrefix, type Area } from './address.ts';
import {
  formulaTokens,
  isOperator,
  isRange,
  readReference,
  shiftReference,
  tooDeep,
  tooLong,
  TYPES,
  type FormulaToken,
} from './formula-tokens.ts';
import { LIMITS } from './limits.ts';
import type { SavedName, SavedTable, SavedWorkbook } from './saved-workbook.ts';

/** Where a formula stands. */
export interface Place {
  /** Index of the sheet. */
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
}

/** Cells of one sheet. */
export interface SheetArea {
  readonly sheet: number;
  readonly area: Area;
}

/** What a stored formula says. */
export interface StoredFormula {
  /** For the engine, with `=`; undefined where a problem keeps it from being calculated. */
  readonly engine: string | undefined;
  /** Names of our functions in it. */
  readonly ours: readonly string[];
  /** Cells that it reads. */
  readonly reads: readonly SheetArea[];
  /** Why it cannot be calculated at all, or only in the host with what else is there. */
  readonly problem: string | undefined;
  /** Why the engine here does not calculate it as the host does. */
  readonly lacking: string | undefined;
  /** Functions in it that change by themselves. */
  readonly volatile: readonly string[];
}

export interface ReadingOptions {
  /** Leaves a name that stands for cells, a number or a text as it is, where the engine knows names. */
  readonly keepNames?: boolean;
  /** The last row and column that the engine's sheets have; by default what is filled. */
  readonly ends?: readonly { readonly row: number; readonly column: number }[];
}

const OURS = 'BURN.';
/** Says why a cell failed where the program does not show it; it rests on what that program has in its cells. */
const IN_LIBREOFFICE = 'BURN.WHY';
const VOLATILE = new Set(['NOW', 'TODAY', 'RAND', 'RANDBETWEEN', 'RANDARRAY']);
const MOST_NAMES_DEEP = 16;

/** What leaves out rows that a filter or the user hides, which the engine does not know of. */
const OF_SHOWN_ROWS = new Set(['SUBTOTAL', 'AGGREGATE']);

/** What reads or writes days as numbers. The engine counts them from 1900 only. */
const OF_DAYS = new Set(
  (
    'DATE DATEDIF DATESTRING DATEVALUE DAY DAYS DAYS360 EDATE EOMONTH HOUR ISOWEEKNUM MINUTE MONTH NETWORKDAYS ' +
    'NETWORKDAYS.INTL SECOND TEXT TIME TIMEVALUE VALUE WEEKDAY WEEKNUM WORKDAY WORKDAY.INTL YEAR YEARFRAC'
  ).split(' '),
);

/** Operators of the sheet that files store as functions: `@` and `A1#`. */
const OPERATORS = new Set(['SINGLE', 'ANCHORARRAY']);

/** Finds names, tables and functions for the formulas of one workbook. */
export class FormulaReader {
  private readonly functions: ReadonlyMap<string, HostFunction>;
  private readonly functionNames: readonly string[];
  private readonly sheetsByName: ReadonlyMap<string, number>;
  private readonly names: ReadonlyMap<string, SavedName>;
  private readonly tables: ReadonlyMap<string, SavedTable>;
  private readonly engineNames: readonly string[];

  constructor(
    private readonly workbook: Pick<SavedWorkbook, 'sheets' | 'names' | 'tables' | 'daysFrom1904'>,
    functions: readonly HostFunction[],
    /** Functions of the sheet's own that the engine has. */
    private readonly sheetFunctions: ReadonlySet<string>,
    private readonly options: ReadingOptions = {},
  ) {
    // `_` stands for `.` in the stored form; no two of our names may differ in that alone, which a test checks.
    this.functions = new Map(functions.map((f) => [comparable(f.name), f]));
    this.functionNames = functions.map((f) => f.name);
    this.sheetsByName = new Map(workbook.sheets.map((s, i) => [s.name.toLowerCase(), i]));
    this.names = new Map(workbook.names.map((n) => [nameKey(n.name, n.sheet), n]));
    this.tables = new Map(workbook.tables.map((t) => [t.name.toLowerCase(), t]));
    const taken = new Set(workbook.sheets.map((s) => s.name.toLowerCase()));
    this.engineNames = workbook.sheets.map(({ name }) => {
      let other = name;
      if (name.includes('!')) for (other = name.replaceAll('!', '_'); taken.has(other.toLowerCase());) other += '_';
      taken.add(other.toLowerCase());
      return other;
    });
  }

  read(text: string, place: Place): StoredFormula {
    const reading = new Reading(this, place);
    if (text.length > LIMITS.formula) {
      // Only looked at, so that a cell with our name in it is reported and not passed over.
      const ours = /BURN[._]/i.test(text) ? ['BURN'] : [];
      return { engine: undefined, ours, reads: [], volatile: [], lacking: undefined, problem: tooLong(text.length) };
    }
    const engine = reading.text(formulaTokens(text), place, []);
    const problem =
      reading.problem ??
      (engine.length > LIMITS.expanded ? 'with its names put in, the formula is too long' : undefined);
    return {
      engine: problem === undefined ? `=${engine}` : undefined,
      ours: reading.ours,
      reads: reading.reads,
      problem,
      lacking: reading.lacking ?? this.whyOthers(reading),
      volatile: reading.volatile,
    };
  }

  /** What the engine does not know of the workbook and the formula depends on. */
  private whyOthers({ called, reads }: Reading): string | undefined {
    const shown = called.find((name) => OF_SHOWN_ROWS.has(name));
    if (shown !== undefined && reads.some(({ sheet, area }) => this.hidesRows(sheet, area)))
      return `${shown} leaves out hidden rows, which are not told from others here`;
    const days = this.workbook.daysFrom1904 ? called.find((name) => OF_DAYS.has(name)) : undefined;
    return days === undefined ? undefined : `${days}: the workbook counts days from 1904, which is not done here`;
  }

  private hidesRows(sheet: number, { top, bottom }: Area): boolean {
    return this.workbook.sheets[sheet]?.rows.some((r) => r.hidden && r.row >= top && r.row <= bottom) ?? false;
  }

  has(name: string): boolean {
    return this.sheetFunctions.has(name);
  }

  function(name: string): HostFunction | undefined {
    return this.functions.get(comparable(name));
  }
  nearest(name: string): readonly string[] {
    return nearestNames(name, this.functionNames);
  }
  sheet(name: string): number | undefined {
    return this.sheetsByName.get(name.toLowerCase());
  }
  /** The sheet's name in the engine, which takes what stands before an exclamation mark for the whole of it. */
  engineName(index: number): string {
    return this.engineNames[index] ?? '';
  }
  name(name: string, sheet: number): SavedName | undefined {
    return this.names.get(nameKey(name, sheet)) ?? this.names.get(nameKey(name, undefined));
  }
  table(name: string, place: Place): SavedTable | undefined {
    if (name !== '') return this.tables.get(name.toLowerCase());
    return this.workbook.tables.find((t) => t.sheet === place.sheet && isWithin(t.area, place.row, place.column));
  }
  /** Whether a name is left to the engine: it must mean the same wherever it stands. */
  keeps(name: SavedName): boolean {
    if (this.options.keepNames !== true || name.sheet !== undefined) return false;
    const [only, ...more] = formulaTokens(name.formula);
    if (only === undefined || more.length > 0) return false;
    if (only.type === TYPES.NUMBER) return true;
    const range = isRange(only) ? readReference(only.value) : undefined;
    return range !== undefined && range.sheetName !== undefined && isFixed(range.range);
  }
  /** The last row and column of a sheet that are read. */
  used(sheet: number): { readonly row: number; readonly column: number } {
    let used = this.options.ends?.[sheet] ?? this.usedOf.get(sheet);
    if (!used) {
      const cells = this.workbook.sheets[sheet]?.cells ?? [];
      used = { row: cells.at(-1)?.row ?? 0, column: cells.reduce((most, c) => Math.max(most, c.column), 0) };
      this.usedOf.set(sheet, used);
    }
    return used;
  }
  private readonly usedOf = new Map<number, { row: number; column: number }>();
}

const isFixed = ({ top, bottom, left, right, $top, $bottom, $left, $right }: RangeA1): boolean =>
  (top === null || $top === true) &&
  (bottom === null || $bottom === true) &&
  (left === null || $left === true) &&
  (right === null || $right === true);

const comparable = (name: string): string => name.toUpperCase().replaceAll('_', '.');
const nameKey = (name: string, sheet: number | undefined): string => `${sheet ?? ''}|${name.toLowerCase()}`;

interface OpenCall {
  /** Our function, where it is one. */
  readonly host: HostFunction | undefined;
  commas: number;
  filled: boolean;
}

/** The reading of one formula. */
class Reading {
  readonly ours: string[] = [];
  readonly reads: SheetArea[] = [];
  readonly volatile: string[] = [];
  /** Functions of the sheet's own in it. */
  readonly called: string[] = [];
  problem: string | undefined;
  lacking: string | undefined;

  constructor(
    private readonly reader: FormulaReader,
    private readonly place: Place,
  ) {}

  text(tokens: readonly FormulaToken[], place: Place, names: readonly string[]): string {
    const pieces: string[] = [];
    const open: OpenCall[] = [];
    const braces: string[] = [];
    for (let i = 0; i < tokens.length; i++) {
      const token = tokens[i]!;
      const call = open.at(-1);
      if (call && token.type !== TYPES.WHITESPACE && token.type !== TYPES.NEWLINE && !isOperator(token, ')'))
        call.filled = true;
      if (token.type === TYPES.CONTEXT || token.type === TYPES.CONTEXT_QUOTE) {
        // `[2]!` before one of our functions is what a clash with another add-in leaves; anything else leads away.
        const called = tokens[i + 2];
        if (
          isOperator(tokens[i + 1], '!') &&
          called?.type === TYPES.FUNCTION &&
          storedName(called.value).name.startsWith(OURS)
        ) {
          i++;
          continue;
        }
        if (isOperator(tokens[i + 1], '!') && tokens[i + 2]?.type === TYPES.ERROR) {
          pieces.push('#REF!');
          i += 2;
          continue;
        }
        this.fail(`it reads another workbook (${token.value}), which is not opened`);
      } else if (token.type === TYPES.FUNCTION) {
        const host = this.functionCall(token.value, pieces, isCell(tokens[i + 2]) && isOperator(tokens[i + 3], ')'));
        pieces.push('(');
        open.push({ host, commas: 0, filled: false });
        i++; // its parenthesis
        while (i < tokens.length && !isOperator(tokens[i], '(')) i++;
        if (open.length > LIMITS.nesting) this.fail(tooDeep());
      } else if (isOperator(token, '(')) {
        open.push({ host: undefined, commas: 0, filled: false });
        pieces.push('(');
        if (open.length > LIMITS.nesting) this.fail(tooDeep());
      } else if (isOperator(token, ')')) {
        const closed = open.pop();
        if (!closed) this.fail('it has a closing parenthesis too many');
        else if (closed.host) this.count(closed.host, closed.filled || closed.commas > 0 ? closed.commas + 1 : 0);
        pieces.push(')');
      } else if (isOperator(token, '{') || isOperator(token, '}')) {
        if (token.value === '{') braces.push('{');
        else braces.pop();
        pieces.push(token.value);
      } else if (isOperator(token, ',') && braces.length === 0) {
        if (call) call.commas++;
        pieces.push(',');
      } else {
        // The engine takes a line break in a text for a blank, which is mended only outside of arrays.
        if (braces.length > 0 && token.type === TYPES.STRING && /[\r\n]/.test(token.value))
          this.lacking ??= 'a text in an array of it has a line break';
        pieces.push(this.piece(token, place, names));
      }
    }
    if (open.length > 0) this.fail('a parenthesis is not closed');
    return pieces.join('');
  }

  /** Writes the name of a called function; gives it where it is ours. */
  private functionCall(stored: string, pieces: string[], ofOneCell: boolean): HostFunction | undefined {
    const { name, foreign } = storedName(stored);
    if (name === IN_LIBREOFFICE) this.fail(`${name} is calculated in LibreOffice only`);
    else if (name.startsWith(OURS)) {
      const host = this.reader.function(name);
      this.ours.push(host?.name ?? name);
      if (!host) this.fail(`there is no function ${name}; nearest: ${this.reader.nearest(name).join(', ')}`);
      pieces.push(host?.name ?? name);
      return host;
    }
    if (foreign) this.fail(`${name} is a function of another add-in`);
    else if (!OPERATORS.has(name) && !this.reader.has(name)) this.lacking ??= `there is no function ${name} here`;
    this.called.push(name);
    if (VOLATILE.has(name)) this.volatile.push(name);
    // One value of a range by its place; of a single cell it is the cell, which the engine does not see.
    pieces.push(name === 'SINGLE' ? (ofOneCell ? '' : '@') : name);
    return undefined;
  }

  private count(host: HostFunction, given: number): void {
    const most = host.parameters.length;
    const least = host.parameters.filter((p) => !p.optional).length;
    if (given >= least && given <= most) return;
    const takes = least === most ? String(most) : `${least} to ${most}`;
    this.fail(`${host.name} has ${counted(given, 'argument')}; it takes ${takes}`);
  }

  private piece(token: FormulaToken, place: Place, names: readonly string[]): string {
    if (isRange(token)) return this.reference(token.value, place);
    switch (token.type) {
      case TYPES.REF_NAMED:
        return this.named(token.value, place, names);
      case TYPES.REF_STRUCT:
        return this.structured(token.value, place);
      case TYPES.NUMBER:
        return this.number(token.value);
      case TYPES.WHITESPACE:
      case TYPES.NEWLINE:
        return ' ';
      case TYPES.STRING:
        if (token.unterminated) this.fail('a text in it has no closing quote');
        return token.value;
      case TYPES.UNKNOWN:
      case TYPES.REF_TERNARY:
        this.fail(`it cannot be read at ${token.value.slice(0, 20)}`);
        return token.value;
      default:
        return token.value;
    }
  }

  /** The engine reads 1E3 as a text. */
  private number(text: string): string {
    const [, digits, exponent] = /^(.+)e([+-]?\d+)$/i.exec(text) ?? [];
    return digits === undefined || exponent === undefined ? text : `(${digits}*10^(${Number(exponent)}))`;
  }

  private reference(text: string, place: Place): string {
    const reference = readReference(text);
    if (!reference) return text;
    const { workbookName = '', sheetName = '', range } = reference;
    if (workbookName !== '') this.fail(`it reads another workbook (${text}), which is not opened`);
    else if (sheetName.includes(':')) this.fail(`it reads through several sheets (${text}), which is not done here`);
    else if (range.trim) this.fail(`it trims a range (${text}), which is not done here`);
    const sheet = sheetName === '' ? place.sheet : this.reader.sheet(sheetName);
    if (sheet === undefined) {
      this.fail(`there is no sheet ${sheetName}`);
      return text;
    }
    const area = {
      top: range.top ?? 0,
      left: range.left ?? 0,
      bottom: range.bottom ?? LAST_ROW,
      right: range.right ?? LAST_COLUMN,
    };
    this.reads.push({ sheet, area });
    // The engine has no rows as far down as the host; below the last filled row there is nothing to be read.
    const used = this.reader.used(sheet);
    const clip = (
      at: number | null | undefined,
      last: number,
      filled: number,
      first: number | null,
    ): number | null | undefined => (at === last && first !== null ? Math.max(first, filled) : at);
    const bottom = clip(range.bottom, LAST_ROW, used.row, range.top);
    const right = clip(range.right, LAST_COLUMN, used.column, range.left);
    const name = sheetName === '' ? '' : this.reader.engineName(sheet);
    const asIs = bottom === range.bottom && right === range.right && name.toLowerCase() === sheetName.toLowerCase();
    return asIs ? text : stringifyA1Ref({ sheetName: name, range: { ...range, bottom, right } });
  }

  /** A defined name as what it stands for, a table's name as its rows. */
  private named(text: string, place: Place, names: readonly string[]): string {
    if (/^_xlpm\./i.test(text)) return text.slice('_xlpm.'.length);
    // Names may stand for many names each, so nothing is put in once it has come to nothing.
    if (this.problem !== undefined) return text;
    const found = parseA1Ref(text);
    const { workbookName = '', sheetName = '', name = text } = found && 'name' in found ? found : {};
    if (workbookName !== '') {
      this.fail(`it reads another workbook (${text}), which is not opened`);
      return text;
    }
    const sheet = sheetName === '' ? place.sheet : (this.reader.sheet(sheetName) ?? place.sheet);
    const meant = this.reader.name(name, sheet);
    if (!meant) {
      const table = this.reader.table(name, place);
      if (table) return this.area(table.sheet, bodyOf(table));
      // Names that a formula declares for itself are stored with a prefix, so this is none of them.
      this.fail(`the name ${name} is not known`);
      return text;
    }
    if (this.reader.keeps(meant)) return meant.name;
    const key = nameKey(meant.name, meant.sheet);
    if (names.includes(key) || names.length >= MOST_NAMES_DEEP) {
      this.fail(`the name ${meant.name} is defined by itself`);
      return text;
    }
    if (meant.formula.length > LIMITS.formula) {
      this.fail(`the name ${meant.name} is too long`);
      return text;
    }
    // What a name says without `$` is meant from the cell that uses it; it is stored as seen from A1.
    const tokens = formulaTokens(meant.formula).map((t) =>
      isRange(t) ? { ...t, value: shiftReference(t.value, this.place.row, this.place.column) } : t,
    );
    const written = this.text(tokens, place, [...names, key]);
    if (written.length > LIMITS.expanded) this.fail('with its names put in, the formula is too long');
    return tokens.length === 1 ? written.slice(0, LIMITS.expanded) : `(${written.slice(0, LIMITS.expanded)})`;
  }

  private structured(text: string, place: Place): string {
    const reference = parseStructRef(text);
    const { workbookName = '', table: name = '', columns = [], sections = [] } = reference ?? {};
    if (workbookName !== '') {
      this.fail(`it reads another workbook (${text}), which is not opened`);
      return text;
    }
    const table = this.reader.table(name, place);
    if (!table) {
      this.fail(`there is no table ${name === '' ? `at ${text}` : name}`);
      return text;
    }
    const at = columns.map((c) => table.columns.findIndex((each) => each.toLowerCase() === c.toLowerCase()));
    const missing = columns.find((_, i) => at[i] === -1);
    if (missing !== undefined) {
      this.fail(`the table ${table.name} has no column ${missing}`);
      return text;
    }
    const rows = rowsOf(table, sections, place);
    if (!rows) {
      this.fail(`${text} means no rows of the table ${table.name}`);
      return text;
    }
    const left = table.area.left + (at.length > 0 ? Math.min(...at) : 0);
    const right = at.length > 0 ? table.area.left + Math.max(...at) : table.area.right;
    return this.area(table.sheet, { ...rows, left, right });
  }

  private area(sheet: number, area: Area): string {
    this.reads.push({ sheet, area });
    const corner = (row: number, column: number): string =>
      stringifyA1Ref({
        range: {
          top: row,
          left: column,
          bottom: row,
          right: column,
          $top: true,
          $left: true,
          $bottom: true,
          $right: true,
        },
      });
    const [first, last] = [corner(area.top, area.left), corner(area.bottom, area.right)];
    return `${sheetPrefix(this.reader.engineName(sheet))}${first === last ? first : `${first}:${last}`}`;
  }

  private fail(problem: string): void {
    this.problem ??= problem;
  }
}

interface StoredName {
  /** Ours in their own writing, those of the sheet without prefixes. */
  readonly name: string;
  /** Whether it belongs to another add-in. */
  readonly foreign: boolean;
}

function storedName(stored: string): StoredName {
  const sheet = /^_xlfn\.(?:_xlws\.)?(.+)$/i.exec(stored)?.[1];
  if (sheet !== undefined) return { name: sheet.toUpperCase(), foreign: false };
  const addIn = /^_xl(?:dudf_|l\.|udf\.)(.+)$/i.exec(stored)?.[1];
  const name = ownName(stored);
  if (name !== undefined) return { name, foreign: false };
  return addIn === undefined ? { name: stored.toUpperCase(), foreign: false } : { name: addIn, foreign: true };
}

function isCell(token: FormulaToken | undefined): boolean {
  const range = token && isRange(token) ? readReference(token.value)?.range : undefined;
  return (
    range !== undefined &&
    range.top !== null &&
    range.left !== null &&
    range.top === range.bottom &&
    range.left === range.right
  );
}

function bodyOf({ area, headings, totals }: SavedTable): Area {
  return { ...area, top: area.top + headings, bottom: area.bottom - totals };
}

function rowsOf(
  table: SavedTable,
  sections: readonly string[],
  place: Place,
): Pick<Area, 'top' | 'bottom'> | undefined {
  const { area, headings, totals } = table;
  const body = bodyOf(table);
  const parts = (sections.length === 0 ? ['data'] : sections).map(
    (section): Pick<Area, 'top' | 'bottom'> | undefined => {
      switch (section) {
        case 'all':
          return area;
        case 'headers':
          return headings > 0 ? { top: area.top, bottom: body.top - 1 } : undefined;
        case 'totals':
          return totals > 0 ? { top: body.bottom + 1, bottom: area.bottom } : undefined;
        case 'this row':
          return place.sheet === table.sheet && place.row >= body.top && place.row <= body.bottom
            ? { top: place.row, bottom: place.row }
            : undefined;
        default:
          return body.top <= body.bottom ? body : undefined;
      }
    },
  );
  const known = parts.filter((p) => p !== undefined);
  if (known.length < parts.length || known.length === 0) return undefined;
  return { top: Math.min(...known.map((p) => p.top)), bottom: Math.max(...known.map((p) => p.bottom)) };
}
