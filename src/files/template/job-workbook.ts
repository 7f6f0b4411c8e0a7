import { findFunction } from '../../catalogue/catalogue.ts';
import { MATERIAL_NAMES } from '../../core/assumptions/material-names.ts';
import { RODS } from '../../core/burn/rods.ts';
import type { CellContent, CellLook } from '../../sheet/described-workbook.ts';
import { YELLOW } from '../../sheet/yellow.ts';
import { addressOf, areaName, columnName } from '../xlsx/address.ts';
import type { NewSheet, NewWorkbook } from '../xlsx/new-workbook.ts';

type Size = number | string;

/** An invented list to begin with: where the pin sits, diameter, length, and a bore where the planned one will not do. */
const PINS: readonly (readonly [where: string, diameter: Size, length: Size, hole?: Size])[] = [
  ['Boom foot, left', 5, 18],
  ['Boom foot, right', 5, 18],
  ['Stick pivot', '4-1/2', 16],
  ['Bucket link, left', 3.5, 12],
  ['Bucket link, right', 3.5, 12],
  ['Lift cylinder, rod end', '90 mm', '300 mm'],
  ['Lift cylinder, head end', '90 mm', '300 mm', '50 mm'],
  ['Ladder hinge', 1.25, 5],
];
const MOST_PINS = 30;
const FIRST = 7;
const LAST = FIRST + MOST_PINS - 1;

const TITLE: CellLook = { bold: true, size: 16 };
const NOTE: CellLook = { italic: true, color: '#5b6662' };
const HEADING: CellLook = { bold: true, background: '#dfe6e4', wrap: true };
const INPUT: CellLook = { background: YELLOW, unlocked: true };
const TEXT: CellLook = { wrap: true };
const SUM: CellLook = { bold: true };

const CALCULATION = 'Calculation';
/** Row of the sheet Calculation in which every table begins. */
const TABLES = 3;

const BLANK = '\u00a0';
const USUAL_WIDTH = 64;

/** A table that one formula spills on the sheet Calculation, and the sheet that shows it cell by cell. */
interface Block {
  /** Function it needs; without it the block is left out. */
  readonly needs: string;
  readonly label: string;
  readonly formula: string;
  readonly shown: Shown;
}

/** Where a table is shown: its columns by heading, all where none are named, with widths [px] and number formats. */
interface Shown {
  readonly sheet: string;
  /** Of the headings. */
  readonly row: number;
  readonly rows: number;
  readonly headings?: readonly string[];
  readonly widths?: Readonly<Record<string, number>>;
  readonly formats?: Readonly<Record<string, string>>;
  /** Columns of texts that may be long, and of short ones in the middle. */
  readonly texts?: readonly string[];
  readonly middle?: readonly string[];
}

/** Headings of the table of a block, without units. */
const headingsOf = (block: Block): readonly string[] => {
  const { result } = findFunction(block.needs) ?? {};
  return result && 'columns' in result ? result.columns.map((c) => c.heading) : [];
};

const ASSUME = 'Assume';
/** Room for the assumptions of a fit and for how they go along with each other. */
const FIT_ROWS = 80;
const column = (letter: string): string => `Pins!$${letter}$${FIRST}:$${letter}$${LAST}`;
const HAZARDS = 'Cautions!$B$5:$B$14';
const PRICES = 'Quote!$A$6:$C$18';
const ITEM = 'Working!$B$4:$B$8';
/** The heading row of the log, and its rows. */
const LOG_FIRST = 4;
const LOG_ROWS = 20;
const LOG_LAST = LOG_FIRST + LOG_ROWS;
const LOG = `Log!$A$${LOG_FIRST}:$G$${LOG_LAST}`;
const LIST = `Pins!$A$${FIRST - 1}:$G$${LAST}`;
/** Heading row, a row for each pin, and the total. */
const PLAN_ROWS = MOST_PINS + 2;
/** Some fifty as it comes; each assumption of one's own is a row more. */
const BASIS_ROWS = 64;

const tenths = (...headings: readonly string[]): Readonly<Record<string, string>> =>
  Object.fromEntries(headings.map((h) => [h, '#,##0.0']));

/** Rows kept free for each table; a longer one is told below it. */
const BLOCKS: readonly Block[] = [
  {
    needs: 'BURN.JOB.PLAN',
    label: 'Plan',
    formula: `=BURN.JOB.PLAN(${LIST},${ASSUME})`,
    shown: {
      sheet: 'Plan',
      row: 4,
      rows: PLAN_ROWS,
      headings: [
        'item',
        'mark',
        'rod',
        'rods',
        'rods low',
        'rods high',
        'tip pressure',
        'regulator setting',
        'oxygen',
        'oxygen low',
        'oxygen high',
        'cylinders so far',
        'left in cylinder',
        'burning',
        'cooling',
        'crew',
        'crew low',
        'crew high',
        'ram',
        'note',
      ],
      widths: {
        item: 40,
        mark: 180,
        rod: 84,
        'regulator setting': 70,
        'cylinders so far': 70,
        'left in cylinder': 70,
        note: 420,
      },
      texts: ['mark', 'note'],
      middle: ['rod', 'ram'],
      formats: {
        ...tenths(
          'left in cylinder',
          'oxygen',
          'oxygen low',
          'oxygen high',
          'burning',
          'cooling',
          'crew',
          'crew low',
          'crew high',
        ),
        'tip pressure': '0',
        'regulator setting': '0',
        ram: '0',
      },
    },
  },
  {
    needs: 'BURN.JOB.STOCK',
    label: 'Stock',
    formula: `=BURN.JOB.STOCK(${LIST},Stock!$B$3,${ASSUME})`,
    shown: {
      sheet: 'Stock',
      row: 5,
      rows: 16,
      widths: {
        load: 150,
        amount: 84,
        unit: 60,
        'sum of plans': 84,
        'load falls short': 84,
        'sum falls short': 84,
        note: 380,
      },
      texts: ['note'],
      middle: ['unit'],
      formats: tenths('amount', 'sum of plans', 'load falls short', 'sum falls short'),
    },
  },
  {
    needs: 'BURN.JOB.COST',
    label: 'Quote',
    formula: `=BURN.JOB.COST(${LIST},${PRICES},Stock!$B$3,Shifts!$B$3,${ASSUME})`,
    shown: {
      sheet: 'Quote',
      row: 21,
      rows: 24,
      widths: { line: 160, quantity: 84, unit: 96, price: 84, quoted: 84, 'used low': 84, 'used high': 84, note: 360 },
      texts: ['note'],
      middle: ['unit'],
      formats: { ...tenths('quantity'), price: '#,##0.00', quoted: '#,##0', 'used low': '#,##0', 'used high': '#,##0' },
    },
  },
  {
    needs: 'BURN.JOB.SCHEDULE',
    label: 'Shifts',
    formula: `=BURN.JOB.SCHEDULE(${LIST},Shifts!$B$3,Shifts!$B$4,Shifts!$B$5,${ASSUME})`,
    shown: {
      sheet: 'Shifts',
      row: 7,
      rows: 2 * PLAN_ROWS,
      widths: { order: 50, mark: 180, crew: 50, shift: 50, day: 110, cylinder: 70, note: 420 },
      texts: ['mark', 'note'],
      middle: [
        'crew',
        'shift',
        'day',
        'start',
        'burn from',
        'burn to',
        'cold at',
        'push shift',
        'push from',
        'done',
        'cylinder',
      ],
      formats: tenths('noise dose'),
    },
  },
  {
    needs: 'BURN.CAUTIONS',
    label: 'Cautions',
    formula: `=BURN.CAUTIONS("PIN",${HAZARDS},${CALCULATION}!PLAN,${ASSUME})`,
    shown: {
      sheet: 'Cautions',
      row: 17,
      rows: 50,
      headings: ['severity', 'caution', 'what to do', 'because', 'clause', 'source'],
      widths: { severity: 90, caution: 260, 'what to do': 470, because: 100, clause: 170, source: 230 },
      texts: ['caution', 'what to do', 'because', 'clause', 'source'],
    },
  },
  {
    needs: 'BURN.JOB.BASIS',
    label: 'Basis',
    formula: `=BURN.JOB.BASIS(${LIST},Pins!$B$2,${ASSUME})`,
    shown: {
      sheet: 'Basis',
      row: 4,
      rows: BASIS_ROWS,
      // Two printed pages at most.
      widths: { section: 150, what: 300, figure: 190, note: 520 },
      texts: ['section', 'what', 'figure', 'note'],
    },
  },
  {
    needs: 'BURN.PIN.STEPS',
    label: 'Working',
    formula: `=BURN.PIN.STEPS(${[4, 5, 6, 7, 8].map((row) => `Working!$B$${row}`).join(',')},${ASSUME})`,
    shown: {
      sheet: 'Working',
      row: 10,
      rows: 190,
      widths: { step: 300, symbol: 90, value: 100, unit: 70, formula: 480, kind: 120, source: 170 },
      texts: ['step', 'formula', 'kind', 'source'],
      middle: ['symbol', 'unit'],
      formats: { value: '0.####' },
    },
  },
  {
    needs: 'BURN.LOG.FIT',
    label: 'Log',
    formula: `=BURN.LOG.FIT(${LOG},${ASSUME})`,
    shown: {
      sheet: 'Log',
      row: LOG_LAST + 3,
      rows: FIT_ROWS + LOG_ROWS,
      widths: { name: 190, value: 110, low: 110, high: 110, unit: 110, kind: 110, source: 380, meaning: 300 },
      texts: ['name', 'kind', 'source', 'meaning'],
      middle: ['unit'],
      formats: { value: '0.####', low: '0.####', high: '0.####' },
    },
  },
  {
    needs: 'BURN.ASSUME.DIFF',
    label: 'Departures',
    formula: `=BURN.ASSUME.DIFF(${ASSUME})`,
    shown: {
      sheet: 'Audit',
      row: 6,
      rows: FIT_ROWS,
      headings: [
        'name',
        'value',
        'low',
        'high',
        'unit',
        'kind',
        'default',
        'default low',
        'default high',
        'change',
        'change, %',
      ],
      middle: ['unit', 'kind'],
      formats: tenths('change, %'),
    },
  },
  {
    needs: 'BURN.ASSUME.EFFECT',
    label: 'Effects',
    formula: `=BURN.ASSUME.EFFECT("PIN",${ITEM},${ASSUME})`,
    shown: {
      sheet: 'Audit',
      row: 36,
      rows: 90,
      headings: [
        'assumption',
        'result',
        'rank',
        'change at low',
        'change at high',
        'at low',
        'as assumed',
        'at high',
        'unit',
        'low',
        'high',
        'unit of the assumption',
        'note',
      ],
      widths: {
        assumption: 190,
        result: 80,
        rank: 60,
        'change at low': 74,
        'change at high': 74,
        'at low': 74,
        'as assumed': 74,
        'at high': 74,
        unit: 74,
        low: 74,
        high: 74,
        'unit of the assumption': 84,
        note: 260,
      },
      texts: ['note'],
      middle: ['result', 'rank', 'unit', 'unit of the assumption'],
      formats: tenths('change at low', 'change at high', 'at low', 'as assumed', 'at high'),
    },
  },
];

/** The first column of each block on the sheet Calculation; one stays free between two. */
function placed(blocks: readonly Block[]): ReadonlyMap<Block, number> {
  const at = new Map<Block, number>();
  let next = 2;
  for (const block of blocks) {
    at.set(block, next);
    next += headingsOf(block).length + 1;
  }
  return at;
}

function calculationSheet(at: ReadonlyMap<Block, number>): NewSheet {
  const cells: Record<string, CellContent> = {
    A1: 'The tables as the functions spill them; the other sheets show them cell by cell, so that programs without the add-in show them too.',
    [addressOf(TABLES - 1, 0)]: `=BURN.VERSION(${ASSUME})`,
  };
  const [planBlock, plan] = [...at].find(([block]) => block.label === 'Plan') ?? [];
  const planArea =
    planBlock && plan !== undefined
      ? areaName({
          top: TABLES - 1,
          left: plan,
          bottom: TABLES - 2 + PLAN_ROWS,
          right: plan + headingsOf(planBlock).length - 1,
        })
      : '';
  const looks: Record<string, CellLook> = { A1: NOTE };
  for (const [{ label, formula }, left] of at) {
    cells[addressOf(TABLES - 2, left)] = label;
    cells[addressOf(TABLES - 1, left)] = formula.replace(`${CALCULATION}!PLAN`, `${CALCULATION}!${planArea}`);
    looks[addressOf(TABLES - 2, left)] = SUM;
  }
  return { name: CALCULATION, cells, looks, hidden: true, size: [400, 140] };
}

/**
 * Cells that show a block: its headings, its rows, and a line where it is longer than the room kept for it. A blank is
 * shown as a space that cannot be broken, since programs that lack our functions take an empty text for a result that is
 * missing, and drop a common space.
 */
function shownBlock(block: Block, left: number): Pick<NewSheet, 'cells' | 'looks' | 'widths'> {
  const { row, rows, widths = {}, formats = {}, texts = [], middle = [] } = block.shown;
  const all = headingsOf(block);
  const headings = (block.shown.headings ?? all).filter((h) => all.includes(h));
  const from = (r: number, heading: string): string =>
    `${CALCULATION}!${addressOf(TABLES - 1 + r, left + all.indexOf(heading))}`;
  const cells: Record<string, CellContent> = {};
  for (let r = 0; r < rows; r++)
    headings.forEach((h, c) => (cells[addressOf(row - 1 + r, c)] = `=IF(${from(r, h)}="","${BLANK}",${from(r, h)})`));
  const first = all[0] ?? '';
  cells[addressOf(row - 1 + rows, 0)] = `=IF(${from(rows, first)}="","${BLANK}","more on the sheet ${CALCULATION}")`;
  const looks: Record<string, CellLook> = {
    [areaName({ top: row - 1, left: 0, bottom: row - 1, right: headings.length - 1 })]: HEADING,
  };
  headings.forEach((heading, c) => {
    const format = formats[heading];
    const align = middle.includes(heading)
      ? ('center' as const)
      : texts.includes(heading) || c === 0
        ? ('left' as const)
        : undefined;
    looks[addressOf(row - 1, c)] = { align: align ?? 'right' };
    const look = {
      ...(format === undefined ? {} : { format }),
      ...(align === undefined ? {} : { align }),
      ...(texts.length > 0 ? TEXT : {}),
    };
    if (Object.keys(look).length > 0) looks[areaName({ top: row, left: c, bottom: row + rows - 2, right: c })] = look;
  });
  return {
    cells,
    looks,
    widths: Object.fromEntries(headings.map((h, c) => [columnName(c), widths[h] ?? USUAL_WIDTH])),
  };
}

const text = (size: Size): CellContent => (typeof size === 'string' ? { text: size } : size);
const VERSION_CELL = `${CALCULATION}!$A$${TABLES}`;

function pinSheet(): NewSheet {
  const cell = (f: string, r: number): CellContent =>
    `=IF(C${r}="","",BURN.PIN.${f}(C${r},D${r},E${r},F${r},G${r},${ASSUME}))`;
  const row = (i: number): readonly CellContent[] => {
    const [where, diameter, length, hole] = PINS[i] ?? [];
    const given = [
      where ?? null,
      diameter === undefined ? null : text(diameter),
      length === undefined ? null : text(length),
      hole === undefined ? null : text(hole),
      null,
      null,
    ];
    return [i + 1, ...given, ...['RODS', 'PRESSURE', 'OXYGEN', 'BURN', 'TIME'].map((f) => cell(f, FIRST + i))];
  };
  const total = (letter: string): CellContent => `=SUM(${letter}${FIRST}:${letter}${LAST})`;
  return {
    name: 'Pins',
    rows: [
      ['Job workbook: seized pins'],
      ['Job', null, null, 'Customer', null, null, 'Date'],
      [
        'Yellow cells are yours to fill. Plain numbers are inches; texts such as 100 mm, 4-1/2 or 3/8 (typed with an apostrophe) work too. Bore, rod and material may stay blank.',
      ],
      [
        `="Calculation "&${VERSION_CELL}&". Low and high: one case in ten takes less, one in ten more. Estimates; they do not say that a job is safe. Cautions are on their own sheet."`,
      ],
      [],
      [
        'No.',
        'Pin',
        'Diameter',
        'Length',
        'Bore, if not as planned',
        'Rod, if not picked',
        'Material, if not steel',
        'Rods',
        'Tip pressure, psi',
        'Oxygen, scf',
        'Burning, min',
        'Crew, min',
      ],
      ...Array.from({ length: MOST_PINS }, (_, i) => row(i)),
      [],
      [null, 'In all', null, null, null, null, null, total('H'), null, total('J'), total('K'), total('L')],
      [null, 'Cylinders, shared down the list', null, null, null, null, null, `=MAX(Plan!L5:L${PLAN_ROWS + 3})`],
      [null, 'Crew hours', null, null, null, null, null, null, null, null, null, `=L${LAST + 2}/60`],
    ],
    looks: {
      A1: TITLE,
      'B2:C2': INPUT,
      'E2:F2': INPUT,
      'H2:I2': INPUT,
      'A3:A4': NOTE,
      'A6:L6': HEADING,
      [`B${FIRST}:G${LAST}`]: INPUT,
      'C6:L6': { align: 'right' },
      [`A${FIRST}:A${LAST}`]: { align: 'center' },
      [`C${FIRST}:G${LAST}`]: { align: 'right' },
      [`H${FIRST}:I${LAST + 3}`]: { format: '0' },
      [`J${FIRST}:L${LAST + 2}`]: { format: '0.0' },
      [`L${LAST + 4}`]: { format: '0.0' },
      [`A${LAST + 2}:L${LAST + 4}`]: SUM,
    },
    widths: { A: 40, B: 210, 'C:D': 74, E: 84, 'F:G': 96, 'H:L': 78 },
    frozenRows: 6,
    frozenColumns: 2,
    printedHeading: 6,
    landscape: true,
    plain: true,
    validations: {
      [`F${FIRST}:F${LAST}`]: {
        list: RODS.map((r) => r.name),
        message: 'This is no rod of the register; a length may follow, as in 3/8 x 36.',
      },
      [`G${FIRST}:G${LAST}`]: { list: MATERIAL_NAMES, message: 'This is no material of the register.' },
    },
  };
}

/** Prices to be replaced; the figures are invented. */
const PRICE_ROWS: readonly (readonly CellContent[])[] = [
  ['name', 'price', 'per'],
  ['currency', 'USD', null],
  ['rod', 9, null],
  ['oxygen', 38, '100 scf'],
  ['cylinder rental', 1.1, 'day'],
  ['crew', 185, 'h'],
  ['plate', 6, null],
  ['ram hire', 240, 'day'],
  ['mobilisation', 600, null],
  ['contingency', 10, '%'],
  ['margin', 20, '%'],
];

/** Invented finished jobs, to be replaced by your own. */
const LOG_HEADINGS = ['name', 'diameter', 'length', 'rods used', 'oxygen used', 'burning minutes', 'crew minutes'];
const FINISHED: readonly (readonly CellContent[])[] = [
  ['Loader tilt pin', 3.5, 12, 6, 118, 12, 66],
  ['Crane boom foot', { text: '4-1/2' }, 16, 12, 228, 26, 92],
  ['Grab hinge', 3, 9, 4, 64, 6, 50],
];

/** What stands on a sheet besides its block. */
function sheetAround(name: string): NewSheet {
  switch (name) {
    case 'Plan':
      return {
        name,
        rows: [['Plan of all pins'], ['One case in ten stays under the low, nine in ten under the high.']],
        looks: { A1: TITLE, A2: NOTE },
        frozenRows: 4,
        frozenColumns: 2,
        printedHeading: 4,
      };
    case 'Stock':
      return {
        name,
        rows: [
          ['What to load'],
          [
            'Enough for the whole list together, with the chance below; the plain sum of the plans falls short more often than not.',
          ],
          ['Confidence, %', 90],
        ],
        looks: { A1: TITLE, A2: NOTE, B3: INPUT },
        validations: { B3: { message: 'Give a percentage above 0.' } },
      };
    case 'Quote':
      return {
        name,
        rows: [
          ['Quote'],
          [
            'Prices are invented: put in your own. Quantities are what is loaded, days those of the shifts; low and high are what the job may take.',
          ],
          [],
          [],
          ['Your prices'],
          ...PRICE_ROWS,
          [],
          [],
          [],
          ['Priced job'],
        ],
        looks: {
          A1: TITLE,
          A2: NOTE,
          A5: SUM,
          'A6:C6': HEADING,
          'A7:C18': INPUT,
          'C7:C18': { align: 'center' },
          C6: { align: 'center' },
          B6: { align: 'right' },
          A20: SUM,
        },
      };
    case 'Shifts':
      return {
        name,
        rows: [
          ['Order and shifts'],
          [
            'One pin cools while the next is burnt. Times are planned, not promised; the fire watch ends within the shift.',
          ],
          ['Crews', 1],
          ['Shift, h', 10],
          ['Start', { text: '07:00' }],
        ],
        looks: { A1: TITLE, A2: NOTE, 'B3:B5': { ...INPUT, align: 'right' } },
        printedHeading: 7,
        validations: { 'B3:B4': { message: 'Give a number above 0.' } },
      };
    case 'Cautions':
      return {
        name,
        rows: [
          ['Cautions'],
          [
            'What is known here, not all there is. Local codes, the permit and the people licensed or qualified for the work rule.',
          ],
          [],
          [null, 'How the job is, one a cell'],
          ...['height 12 ft', 'grease packed', 'water quench'].map((c): readonly CellContent[] => [null, c]),
        ],
        looks: { A1: TITLE, A2: NOTE, B4: HEADING, 'B5:B14': INPUT },
        printedHeading: 17,
      };
    case 'Basis':
      return {
        name,
        rows: [
          ['Basis of the estimate'],
          ['For whoever judges it without any other paper. What the job is called stands on the sheet Pins.'],
        ],
        looks: { A1: TITLE, A2: NOTE, [`A5:A${BASIS_ROWS + 3}`]: { ...TEXT, bold: true, align: 'left' } },
        printedHeading: 4,
      };
    case 'Log':
      return {
        name,
        rows: [
          ['Finished jobs'],
          [
            'The three rows are invented: put in your own, one finished job a row. Below stands what they make of the assumptions; copy values that you trust to the sheet Assumptions, with the reason.',
          ],
          [],
          LOG_HEADINGS,
          ...FINISHED,
        ],
        looks: {
          A1: TITLE,
          A2: NOTE,
          [`A${LOG_FIRST}:G${LOG_FIRST}`]: HEADING,
          [`A${LOG_FIRST + 1}:G${LOG_LAST}`]: INPUT,
          [`B${LOG_FIRST + 1}:G${LOG_LAST}`]: { align: 'right' },
          [`B${LOG_FIRST}:G${LOG_FIRST}`]: { align: 'right' },
        },
      };
    case 'Working': {
      const of = (letter: string): CellContent =>
        `=IF(INDEX(${column(letter)},$B$2)="","",INDEX(${column(letter)},$B$2))`;
      return {
        name,
        rows: [
          ['Working of one pin, step by step'],
          ['Pin no.', 1],
          ['Pin', of('B')],
          ['Diameter', of('C')],
          ['Length', of('D')],
          ['Bore', of('E')],
          ['Rod', of('F')],
          ['Material', of('G')],
        ],
        looks: { A1: TITLE, B2: INPUT, 'A3:B8': NOTE },
        printedHeading: 10,
      };
    }
    default:
      return {
        name: 'Audit',
        rows: [
          ['Audit'],
          [`="Calculated with version "&${VERSION_CELL}`],
          ['npm run recheck compares this workbook with a later version, cell by cell.'],
          [],
          ['What the sheet Assumptions changes'],
          ...Array.from({ length: 29 }, (): readonly CellContent[] => []),
          [
            'What each assumption does to the pin of the sheet Working: from its low to its high, one at a time, largest first',
          ],
        ],
        looks: { A1: TITLE, 'A2:A3': NOTE, A5: SUM, A35: SUM },
      };
  }
}

const PASSED = 'passed';
const LOOK = 'LOOK';

/** What the workbook can check of itself: each line compares two counts that must agree. */
function checkSheet(blocks: readonly Block[]): NewSheet {
  const range = (sheet: string, heading: string): string => {
    const block = blocks.find((b) => b.shown.sheet === sheet);
    if (!block) return '';
    const { row, rows, headings = headingsOf(block) } = block.shown;
    const letter = columnName(headings.indexOf(heading));
    return `${sheet}!$${letter}$${row + 1}:$${letter}$${row + rows - 1}`;
  };
  const has = (...sheets: readonly string[]): boolean =>
    sheets.every((sheet) => blocks.some((b) => b.shown.sheet === sheet));
  const sum = (sheet: string, name: string, line: string, amount: string): string =>
    `SUMIF(${range(sheet, name)},"${line}",${range(sheet, amount)})`;
  const pins = `SUMPRODUCT(--(${column('C')}<>""))`;
  const lines: readonly (readonly [what: string, first: string, second: string, note: string])[] = [
    [
      'pins with a diameter, and pins sized',
      pins,
      `COUNT(Pins!$H$${FIRST}:$H$${LAST})`,
      'A pin that is not sized says why in its own row.',
    ],
    [
      'pins with a diameter, and with a length',
      pins,
      `SUMPRODUCT((${column('C')}<>"")*(${column('D')}<>""))`,
      'A blank length leaves the pin out of every sheet.',
    ],
    ...(has('Plan')
      ? [
          [
            'pins with a diameter, and rows of the plan',
            pins,
            `SUMPRODUCT(--ISNUMBER(${range('Plan', 'item')}))`,
            'The plan reads the same list.',
          ] as const,
        ]
      : []),
    ...(has('Stock', 'Quote')
      ? [
          [
            'rods loaded, and rods quoted',
            sum('Stock', 'load', 'rods*', 'amount'),
            sum('Quote', 'line', 'rod *', 'quantity'),
            'Rods without a price of their own stand in the quote without an amount.',
          ] as const,
          [
            'oxygen loaded, and oxygen quoted',
            `ROUND(${sum('Stock', 'load', 'oxygen', 'amount')},3)`,
            `ROUND(${sum('Quote', 'line', 'oxygen', 'quantity')},3)`,
            'What is quoted is what is loaded.',
          ] as const,
        ]
      : []),
    [
      'cells of the list that failed, and none',
      `SUMPRODUCT(--ISERROR(Pins!$H$${FIRST}:$L$${LAST}))`,
      '0',
      'Select the cell: the pane says why.',
    ],
    [
      'version calculated with, and version typed when it was quoted',
      VERSION_CELL,
      'IF($B$4="",' + VERSION_CELL + ',$B$4)',
      'Type the version into the yellow cell when the quote goes out; later it shows whether figures may have moved.',
    ],
  ];
  const top = 7;
  const last = top + lines.length - 1;
  return {
    name: 'Checks',
    rows: [
      ['Checks'],
      [
        'Each line compares two figures that must agree. They find slips of the list and of copying; they do not prove an estimate right.',
      ],
      [
        `=IF(COUNTIF(D${top}:D${last},"${PASSED}")=${lines.length},"All ${lines.length} checks passed",COUNTIF(D${top}:D${last},"${LOOK}")&" of ${lines.length} want a look")`,
      ],
      ['Quoted with version', null],
      [],
      ['check', 'one', 'other', 'result', 'note'],
      ...lines.map(([what, first, second, note], i): readonly CellContent[] => [
        what,
        `=${first}`,
        `=${second}`,
        `=IF(B${top + i}=C${top + i},"${PASSED}","${LOOK}")`,
        note,
      ]),
    ],
    looks: {
      A1: TITLE,
      A2: NOTE,
      A3: SUM,
      B4: INPUT,
      'A6:E6': HEADING,
      [`A${top}:A${last}`]: TEXT,
      [`E${top}:E${last}`]: TEXT,
      [`B${top}:C${last}`]: { align: 'right' },
      [`D6:D${last}`]: { align: 'center' },
    },
    conditions: [
      { range: `D${top}:D${last}`, formula: `D${top}="${PASSED}"`, look: { color: '#1f5c3a', background: '#e2f0e6' } },
      {
        range: `D${top}:D${last}`,
        formula: `D${top}="${LOOK}"`,
        look: { bold: true, color: '#7a1f12', background: '#fbe3dd' },
      },
      {
        range: 'A3',
        formula: `COUNTIF($D$${top}:$D$${last},"${LOOK}")>0`,
        look: { bold: true, color: '#7a1f12', background: '#fbe3dd' },
      },
    ],
    widths: { A: 300, 'B:C': 130, D: 90, E: 420 },
    landscape: true,
    plain: true,
  };
}

/** What the workbook is, for whoever gets it. */
function aboutSheet(): NewSheet {
  const lines: readonly (readonly [string, string])[] = [
    [
      'What it is',
      'An estimate of burning out seized pins with hand-held exothermic rods: rods, oxygen, cylinders, minutes, cost, each with a low and a high.',
    ],
    [
      'What it is not',
      'A permit, or a proof that the job is safe. Local codes, the permit and the people licensed or qualified for the work rule.',
    ],
    [
      'Yellow cells',
      'Yours to fill. All other cells are protected, without a password: take the protection off where you must, and say so.',
    ],
    ['Grey headings', 'Name the column below. What stands under them is calculated.'],
    ['Low and high', 'One case in ten stays under the low, nine in ten under the high.'],
    ['Pins', 'The list. Every other sheet reads it.'],
    ['Plan, Stock, Quote, Shifts', 'One evaluation of the list: what is quoted is what is loaded.'],
    ['Cautions', 'What can go wrong, most severe first. Not all there is.'],
    ['Basis', 'What the estimate covers, how sure it is and on what it rests, to print and to sign.'],
    ['Working', 'One pin, step by step, with formula and source.'],
    [
      'Assumptions',
      'Every number that is no size, with its range and source. Change one, and say why, by whom and when.',
    ],
    ['Log', 'Finished jobs; what they make of the assumptions.'],
    ['Audit', 'What departs from the defaults, and what each assumption does.'],
    ['Checks', 'Figures that must agree.'],
    ['Calculation', 'A hidden sheet with the tables as the functions spill them.'],
    ['Without the add-in', 'The saved figures stay; they are calculated anew where Rodsheet is.'],
  ];
  return {
    name: 'About',
    rows: [['About this workbook'], [`="Calculated with version "&${VERSION_CELL}`], [], ...lines],
    looks: {
      A1: TITLE,
      A2: NOTE,
      [`A4:A${lines.length + 3}`]: { bold: true, vertical: 'top' },
      [`B4:B${lines.length + 3}`]: TEXT,
      A6: { background: YELLOW },
      A7: { background: '#dfe6e4' },
    },
    widths: { A: 190, B: 620 },
    landscape: true,
    plain: true,
  };
}

function assumptionSheet(listing: readonly (readonly CellContent[])[]): NewSheet {
  const [end, last] = [listing.length + 2, listing.length + 2 + FIT_ROWS];
  return {
    name: 'Assumptions',
    rows: [
      ['Assumptions of this job'],
      [
        'Edit a value, low or high, and say why, by whom and when: every sheet follows. Common practice means no published source; your own log beats it.',
      ],
      ...listing.map((row, i) => [...row, ...(i === 0 ? ['why', 'by', 'date'] : [])]),
    ],
    looks: {
      A1: TITLE,
      A2: NOTE,
      'A3:K3': HEADING,
      [`B4:D${last}`]: INPUT,
      [`A${end + 1}:A${last}`]: INPUT,
      [`E${end + 1}:F${last}`]: INPUT,
      [`G4:H${last}`]: TEXT,
      [`I4:K${last}`]: INPUT,
      [`K4:K${last}`]: { format: 'yyyy\\-mm\\-dd' },
    },
    widths: { A: 190, 'B:E': 84, F: 120, G: 260, H: 420, I: 260, J: 110, K: 84 },
    frozenRows: 3,
    landscape: true,
    printedHeading: 3,
    plain: true,
  };
}

/**
 * The job workbook: pin list, plan, stock list, quote, cautions, the basis of the estimate, the working of one pin, a log, assumptions, audit, checks, and what it is about.
 * Yellow cells may be typed over; the rest is protected without a password.
 *
 * Tables spill on a hidden sheet; the others show them cell by cell. A table whose function is not among `functions` is
 * left out. `listing` is what BURN.ASSUMED gives.
 */
export function jobWorkbook(
  functions: readonly { readonly name: string }[],
  listing: readonly (readonly CellContent[])[],
): NewWorkbook {
  const names = new Set(functions.map((f) => f.name));
  const blocks = BLOCKS.filter((b) => names.has(b.needs));
  const at = placed(blocks);
  const shown = [...new Set(blocks.map((b) => b.shown.sheet))].map((sheet): NewSheet => {
    const around = sheetAround(sheet);
    const parts = blocks.filter((b) => b.shown.sheet === sheet).map((b) => shownBlock(b, at.get(b) ?? 0));
    const joined = <T>(
      pick: (p: (typeof parts)[number]) => Readonly<Record<string, T>> | undefined,
    ): Record<string, T> => Object.assign({}, ...parts.map(pick)) as Record<string, T>;
    return {
      ...around,
      cells: joined((p) => p.cells),
      looks: { ...joined((p) => p.looks), ...around.looks },
      widths: joined((p) => p.widths),
      landscape: true,
      plain: true,
    };
  });
  return {
    title: 'Job workbook: seized pins',
    definedNames: { [ASSUME]: `Assumptions!$A$3:$K$${listing.length + 2 + FIT_ROWS}` },
    sheets: [
      pinSheet(),
      ...shown,
      assumptionSheet(listing),
      checkSheet(blocks),
      aboutSheet(),
      calculationSheet(at),
    ].map((sheet) => ({ ...sheet, protected: true })),
  };
}
