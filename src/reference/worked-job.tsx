import type { ComponentChildren } from 'preact';
import { isCellError } from '../catalogue/cell.ts';
import { showCell, showNumber } from '../pane/show-cell.ts';
import type { Cell } from '../sheet/host-function.ts';
import { hostFunctions } from '../sheet/host-functions.ts';
import { referencePage } from '../sheet/reference-page.ts';
import { calculateWorkbook } from '../engine/headless.ts';
import type { CalculatedWorkbook, CellContent, SheetDescription } from '../sheet/described-workbook.ts';
import { JOB_FILE } from './files.ts';
import type { Page } from './page.ts';
import { SheetTable, type ShownCell } from './sheet-table.tsx';

type Typed = string | number;

/** The customer's list, invented: pin, diameter, length, and the push that did not move it. */
const PINS: readonly (readonly Typed[])[] = [
  ['No.', 'Pin', 'Diameter', 'Length', 'Tried, ton'],
  [1, 'Boom foot, left', 5, 16, 100],
  [2, 'Boom foot, right', 5, 16, 100],
  [3, 'Back stay, left', 4, 12, 60],
  [4, 'Back stay, right', 4, 12, 60],
  [5, 'Luffing sheave', '3-1/2', 10, 60],
  [6, 'Tie link', '100 mm', '280 mm', 60],
];
const ASSUME: readonly (readonly Typed[])[] = [
  ['hose length', 100],
  ['hose bore', '3/8'],
  ['set-up time', 20],
];
const CONDITIONS: readonly (readonly Typed[])[] = [
  ['height 25 ft'],
  ['lead paint'],
  ['grease packed'],
  ['suspended load'],
  ['ram'],
];
const PRICES: readonly (readonly Typed[])[] = [
  ['currency', 'USD'],
  ['rod', 9.5],
  ['oxygen', 36, '100 scf'],
  ['cylinder rental', 8],
  ['crew', 175],
  ['plate', 15],
  ['ram hire', 260],
  ['mobilisation', 900],
  ['other: permit and fire watch', 350],
  ['contingency', '10%'],
  ['margin', '20%'],
];
/** What the crew wrote down, invented. */
const LOG: readonly (readonly Typed[])[] = [
  ['pin', 'diameter', 'length', 'rods used', 'oxygen used', 'burning minutes', 'crew minutes'],
  ['Boom foot, left', 5, 16, 17, 402, 20, 104],
  ['Boom foot, right', 5, 16, 16, 371, 18.5, 92],
  ['Back stay, left', 4, 12, 9, 196, 10.5, 79],
  ['Back stay, right', 4, 12, 8, 181, 9.5, 70],
  ['Luffing sheave', '3-1/2', 10, 5, 124, 7, 63],
  ['Tie link', '100 mm', '280 mm', 8, 158, 9, 68],
];

const SET = 'Assumptions!A1:B3';
/** The customer's columns: the push tried is for another function. */
const LIST = 'Pins!A1:D7';
const PLAN = 'Plan!A1:AA7';
const sheet = (
  name: string,
  typed: readonly (readonly Typed[])[],
  cells: Readonly<Record<string, string>> = {},
): SheetDescription => ({
  name,
  rows: typed.map((row) => row.map((cell): CellContent => (typeof cell === 'string' ? { text: cell } : cell))),
  cells,
});

const HOSES = [['1/4'], ['3/8'], ['1/2']] as const;

const SHEETS: readonly SheetDescription[] = [
  sheet('Pins', PINS),
  sheet('Assumptions', ASSUME),
  sheet('Plan', [], { A1: `=BURN.JOB.PLAN(${LIST},${SET})` }),
  sheet('Hose', HOSES, { B1: `=BURN.HOSE.SETTING(MAX(Plan!H2:H7),MAX(Plan!I2:I7),100,A1:A3,,${SET})` }),
  sheet('Supply', [], { A1: '=BURN.SUPPLY.CHECK("3/8 x 36",MAX(Plan!S2:S7),100,"3/8",1)' }),
  sheet(
    'Cooling',
    [['Boom foot, bore'], ['minutes in air'], ['minutes with water'], ['loosening, in'], ['in air, in a thin boss']],
    {
      B1: `=BURN.PIN.HOLE(Pins!C2,${SET})`,
      B2: '=BURN.COOL.TIME(Pins!C2,B1,Pins!D2,"air")',
      B3: '=BURN.COOL.TIME(Pins!C2,B1,Pins!D2,"water")',
      B4: '=BURN.COOL.SHRINK(Pins!C2,B1)',
      B5: '=BURN.COOL.TIME(Pins!C2,B1,Pins!D2,"air",,{"boss over pin",1.8})',
    },
  ),
  sheet('Grip', [], { A1: '=BURN.GRIP.AFTER(Pins!C2,Pins!D2,12,Cooling!B1,Pins!E2)' }),
  sheet('Push', [['force to allow for, ton'], ['ram to bring, ton']], {
    B1: '=Grip!C3',
    B2: '=BURN.PUSH.RAM(B1)',
    A4: '=BURN.PUSH.CHECK(B1,Pins!C2,Cooling!B1,Pins!D2)',
  }),
  sheet('Conditions', CONDITIONS),
  sheet('Cautions', [], { A1: `=BURN.CAUTIONS("PIN",Conditions!A1:A5,${PLAN},${SET})` }),
  sheet('Load', [], { A1: `=BURN.JOB.STOCK(${LIST},90,${SET})` }),
  sheet('Prices', PRICES),
  sheet('Quote', [], { A1: `=BURN.JOB.COST(${LIST},Prices!A1:C11,90,1,${SET})` }),
  sheet('Shifts', [], { A1: `=BURN.JOB.SCHEDULE(${LIST},1,10,"07:00",${SET})` }),
  sheet('Log', LOG),
  sheet('Score', [], { A1: `=BURN.LOG.SCORE(Log!A1:G7,${SET})` }),
  sheet('Fit', [], { A1: `=BURN.LOG.FIT(Log!A1:G7,${SET})` }),
  sheet(
    'Next',
    [
      ['by default', null],
      ['with the log', null],
    ].map(([name]) => [name ?? '']),
    { B1: `=BURN.PIN.PLAN("4-1/2",14,,,,${SET})`, B4: '=BURN.PIN.PLAN("4-1/2",14,,,,Fit!A1:F90)' },
  ),
];

/** The invented job, calculated; reads its figures for the prose, so that none is typed there. */
class Job {
  private readonly book: CalculatedWorkbook;
  readonly sheets: readonly SheetDescription[];

  constructor(book: CalculatedWorkbook, sheets: readonly SheetDescription[]) {
    this.book = book;
    this.sheets = sheets;
  }

  spill(name: string, address = 'A1'): readonly (readonly Cell[])[] {
    return this.book.spilled(`${name}!${address}`);
  }

  number(name: string, address: string): number {
    const [[cell = null] = []] = this.book.values(`${name}!${address}`);
    if (typeof cell !== 'number') throw new Error(`${name}!${address} holds no number: ${JSON.stringify(cell)}`);
    return cell;
  }

  /** The row of a table whose cell under `key` (or its first) begins so, and in it the cell under a heading; headings without their unit. */
  under(table: readonly (readonly Cell[])[], heading: string, row: number | string): Cell {
    const [headings = [], ...rows] = table;
    const column = headings.findIndex(
      (h) => typeof h === 'string' && (h === heading || h.replace(/, [^,]*$/, '') === heading),
    );
    const line = typeof row === 'number' ? rows[row] : rows.find((r) => r[0] === row);
    const cell = column < 0 ? null : (line?.[column] ?? null);
    if (cell === null) throw new Error(`there is no ${heading} in row ${row}`);
    return cell;
  }

  /** Number of the total row of a plan under a heading. */
  total(plan: readonly (readonly Cell[])[], heading: string): number {
    return Number(this.under(plan, heading, 'total'));
  }

  /** How far low and high of a plan's oxygen stand apart. */
  width(name: string, address: string): number {
    const table = this.spill(name, address);
    return Number(this.under(table, 'oxygen high', 0)) - Number(this.under(table, 'oxygen low', 0));
  }

  formula(name: string, address = 'A1'): string {
    const content = this.sheets.find((s) => s.name === name)?.cells?.[address];
    if (typeof content !== 'string') throw new Error(`${name}!${address} holds no formula`);
    return content;
  }
}

const figure = (x: Cell, digits = 3): string =>
  typeof x === 'number' ? showNumber(Number(x.toPrecision(digits))) : showCell(x);
const money = (x: Cell): string => (typeof x === 'number' ? x.toFixed(0) : showCell(x));
const whole = (x: number): string => x.toFixed(0);

const F = ({ name }: { readonly name: string }) => <a href={referencePage(name)}>{name}</a>;

interface PartProps {
  readonly job: Job;
  readonly name: string;
  readonly address?: string;
  readonly rows?: number;
  /** Columns shown, from the first. */
  readonly columns?: number;
}

/** The formula in a cell of a sheet, with what it gives. */
function Spill({ job, name, address = 'A1', rows = 12, columns = 99 }: PartProps) {
  const values = job.spill(name, address);
  const row = Number(/\d+/.exec(address)?.[0]) - 1;
  const column = address.charCodeAt(0) - 65;
  const shown = values
    .slice(0, rows)
    .map((line, r) =>
      line
        .slice(0, columns)
        .map((value, c): ShownCell => ({ value, ...(r === 0 && c === 0 ? { is: 'holds' as const } : {}) })),
    );
  const more = values.length - shown.length;
  return (
    <>
      <code class="formula">{job.formula(name, address)}</code>
      <SheetTable rows={shown} row={row} column={column} caption={`Sheet ${name}, from ${address}`} />
      {more > 0 && <p class="fine">And {more} more rows.</p>}
    </>
  );
}

/** Cells that are typed in. */
function TypedCells({ rows, name }: { readonly rows: readonly (readonly Typed[])[]; readonly name: string }) {
  const width = Math.max(...rows.map((r) => r.length));
  return (
    <SheetTable
      rows={rows.map((r) => Array.from({ length: width }, (_, c): ShownCell => ({ value: r[c] ?? null, is: 'typed' })))}
      row={0}
      column={0}
      caption={`Sheet ${name}, typed`}
    />
  );
}

export async function workedJob(): Promise<Page> {
  const job = new Job(await calculateWorkbook({ sheets: SHEETS }, hostFunctions), SHEETS);
  for (const { name, cells = {} } of SHEETS) {
    for (const address of Object.keys(cells)) {
      const failed = job.spill(name, address)[0]?.find(isCellError);
      if (failed) throw new Error(`${name}!${address} fails: ${failed.message}`);
    }
  }
  checkProse(job);
  return {
    file: JOB_FILE,
    title: 'A worked job',
    lead: "From a customer's list of seized pins to the quote, and what the finished job teaches. Customer, crane, prices and log are invented.",
    body: <Body job={job} />,
  };
}

/** What the prose says in words must be so in the figures; it is written anew where it is not. */
function checkProse(job: Job): void {
  const [grip, load, plan] = [job.spill('Grip'), job.spill('Load'), job.spill('Plan')];
  const at = (table: typeof plan, heading: string, row: string | number): number =>
    Number(job.under(table, heading, row));
  const doubt = (row: string): number => at(grip, 'high', row) / at(grip, 'low', row);
  const lost = (hose: string): number => job.number('Hose', hose) - at(plan, 'tip pressure', 0);
  const claims: Readonly<Record<string, boolean>> = {
    'the narrow hose loses several times as much': lost('B1') > 4 * lost('B2') && lost('B1') > 10,
    'the first pin is the deepest':
      at(plan, 'tip pressure', 0) === Math.max(...plan.slice(1, -1).map((_, i) => at(plan, 'tip pressure', i))),
    'water saves minutes':
      job.number('Cooling', 'B3') < job.number('Cooling', 'B2') && job.number('Cooling', 'B2') < 15,
    'in a thin boss it saves more': job.number('Cooling', 'B5') > 3 * job.number('Cooling', 'B2'),
    'shrinking is next to nothing': Math.abs(job.number('Cooling', 'B4')) < 0.0002,
    'burning loosens, with much doubt':
      at(grip, 'likely', 'force after') < at(grip, 'likely', 'force before') &&
      doubt('force after') > Math.max(2, doubt('force before')),
    'the load is more than the sum': at(load, 'amount', 'cylinders') > at(load, 'sum of plans', 'cylinders'),
    'the log narrows the spread': job.width('Next', 'B4') < job.width('Next', 'B1'),
  };
  const wrong = Object.keys(claims).filter((claim) => !claims[claim]);
  if (wrong.length > 0) throw new Error(`the worked job says, and its figures do not: ${wrong.join('; ')}`);
}

function Part({
  id,
  heading,
  children,
}: {
  readonly id: string;
  readonly heading: string;
  readonly children: ComponentChildren;
}) {
  return (
    <section aria-labelledby={id}>
      <h2 id={id}>{heading}</h2>
      {children}
    </section>
  );
}

function Body({ job }: { readonly job: Job }) {
  const plan = job.spill('Plan');
  const load = job.spill('Load');
  const quote = job.spill('Quote');
  const grip = job.spill('Grip');
  const supply = job.spill('Supply');
  const check = job.spill('Push', 'A4');
  const score = job.spill('Score');
  const shifts = job.spill('Shifts');
  const fit = job.spill('Fit');
  const [before, after] = [job.spill('Next', 'B1'), job.spill('Next', 'B4')];
  const cautions = job.spill('Cautions');
  const oxygen = job.total(plan, 'oxygen');
  const rods = job.total(plan, 'rods');
  const crew = job.total(plan, 'crew') / 60;
  const fittedRows = fit.slice(1).findIndex((r) => r[0] === null || r[0] === '');
  const price = quote.at(-1) ?? [];
  const parts: readonly (readonly [id: string, heading: string, content: ComponentChildren])[] = [
    [
      'list',
      'The list',
      <>
        <p>
          A yard crane stands with its boom down. Six pins are seized; the owner’s rams have pushed at each of them and
          none has moved. The list says what was tried. Sizes come as the customer wrote them: inches, a fraction typed
          as text, millimetres.
        </p>
        <TypedCells rows={PINS} name="Pins" />
      </>,
    ],
    [
      'set',
      'What is set for this job',
      <>
        <p>
          The cylinders stay on the ground, so the hose is long; rigging a platform takes more setting up than usual.
          Everything else stays at its default, of which <F name="BURN.ASSUMED" /> gives the list. Three rows of name
          and value are the argument <code>assume</code> of every formula below.
        </p>
        <TypedCells rows={ASSUME} name="Assumptions" />
      </>,
    ],
    [
      'plan',
      'The plan',
      <>
        <p>
          One formula sizes the list. <F name="BURN.JOB.PLAN" /> finds the columns by their headings, plans the bore,
          picks the rod and gives each pin a row under its mark, and the list its total.
        </p>
        <Spill job={job} name="Plan" columns={22} />
        <p>
          More columns hold what each pin is made of and the conditions that its cautions rest on, the cautions, and the
          note that says why that rod was picked. All six take {figure(oxygen)} scf at the work, {whole(rods)} rods and{' '}
          {figure(crew)} crew hours with cooling. A boom foot pin takes {figure(job.under(plan, 'oxygen', 0))} scf, but
          between {figure(job.under(plan, 'oxygen low', 0))} and {figure(job.under(plan, 'oxygen high', 0))} in eight
          cases of ten: nobody knows this crew and this steel yet, and the plan does not pretend to.{' '}
          <F name="BURN.PIN.STEPS" /> shows how each figure came about.
        </p>
      </>,
    ],
    [
      'hose',
      'Hose and regulator',
      <>
        <p>
          The deepest pin asks for {figure(job.under(plan, 'tip pressure', 0))} psi at the holder. What must the
          regulator show for that, through 100 ft of each hose in the van?
        </p>
        <Beside job={job} />
        <p>
          The narrow hose would need {figure(job.number('Hose', 'B1'))} psi, the 3/8 in hose{' '}
          {figure(job.number('Hose', 'B2'))} psi: it loses several times as much. So the 3/8 in hose goes along.{' '}
          <F name="BURN.SUPPLY.CHECK" /> then looks at the whole line, from cylinder to rod:
        </p>
        <Spill job={job} name="Supply" rows={20} />
        <p>
          One cylinder burns for {figure(job.under(supply, 'now', 'minutes until the change'))} minutes, then it is
          changed. The line is limited by the {showCell(job.under(supply, 'now', 'limit'))}; the rows marked mend say
          what would help.
        </p>
      </>,
    ],
    [
      'cooling',
      'Cooling',
      <>
        <p>A bored pin must cool until it has let go of its boss. For a boom foot pin:</p>
        <Pairs job={job} name="Cooling" rows={5} />
        <p>
          Water saves {figure(job.number('Cooling', 'B2') - job.number('Cooling', 'B3'))} minutes of{' '}
          {figure(job.number('Cooling', 'B2'))}: not worth steam and a wet deck here. In a boss of no more than 1.8 pin
          diameters the whole of it gets hot, and in air it is {figure(job.number('Cooling', 'B5'))} minutes: look at
          the boss first. Shrinking takes {figure(job.number('Cooling', 'B4'))} in off the interference when the pin is
          pushed, next to nothing. What lets go is something else, and the next function counts it: a bored pin presses
          on its boss less than a solid one, and heat breaks a part of the rust.
        </p>
      </>,
    ],
    [
      'grip',
      'Grip, and the ram to bring',
      <>
        <p>
          The owner’s {whole(job.number('Pins', 'E2'))} tons that moved nothing are worth something: they rule out every
          weak grip. <F name="BURN.GRIP.AFTER" /> starts from that, for a boss of 12 in.
        </p>
        <Spill job={job} name="Grip" rows={16} />
        <p>
          Before burning it would likely take {figure(job.under(grip, 'likely', 'force before'))} tons, afterwards{' '}
          {figure(job.under(grip, 'likely', 'force after'))}, with much doubt:{' '}
          {figure(job.under(grip, 'low', 'force after'))} to {figure(job.under(grip, 'high', 'force after'))}. The ram
          is chosen for the likely force and worked only in part:
        </p>
        <Pairs job={job} name="Push" rows={2} />
        <p>
          By the table above that ram suffices in{' '}
          {figure(job.under(grip, 'chance', `ram of ${whole(job.number('Push', 'B2'))} ton`))} cases of a hundred. So it
          is quoted, and a larger one is asked to be ready.
        </p>
        <p>
          What that push does to pin, spacers and boss (<F name="BURN.PUSH.CHECK" />
          ):
        </p>
        <Spill job={job} name="Push" address="A4" />
        <p>
          The pin is loaded to {figure(job.under(check, 'used', 'pin'))} percent of what is allowed. The last line is
          the one to read aloud: what flies when the pin lets go. Where the ram does not suffice, a wider bore or
          another ram is for those to decide who know the machine.
        </p>
      </>,
    ],
    [
      'cautions',
      'Cautions',
      <>
        <p>
          The place is walked before anything is priced. What was seen goes into cells, in words that{' '}
          <F name="BURN.CONDITIONS" /> lists; <F name="BURN.CAUTIONS" /> takes them with the plan and answers with what
          is known to go wrong.
        </p>
        <TypedCells rows={CONDITIONS} name="Conditions" />
        <Spill job={job} name="Cautions" rows={7} columns={5} />
        <p>
          {cautions.length - 1} rows in all. They go to the crew and to whoever grants the permit;{' '}
          <F name="BURN.JOB.SHEET" /> puts them on one page with lines to sign. None of this says that the job is safe.
        </p>
      </>,
    ],
    [
      'load',
      'What to load',
      <>
        <p>
          The plans add up to {figure(job.under(load, 'sum of plans', 'oxygen'))} scf. Loading just that would fall
          short in {figure(job.under(load, 'sum falls short', 'oxygen'))} cases of a hundred: the six pins share one
          crew and one gas, so what makes one dear makes all dear. <F name="BURN.JOB.STOCK" /> gives what suffices for
          everything together in nine jobs of ten.
        </p>
        <Spill job={job} name="Load" rows={16} />
        <p>
          So {figure(job.under(load, 'amount', 'cylinders'))} cylinders go on the truck where the plans add up to{' '}
          {figure(job.under(load, 'sum of plans', 'cylinders'))}.
        </p>
      </>,
    ],
    [
      'quote',
      'The quote',
      <>
        <p>
          Prices are the estimator’s own cells. <F name="BURN.JOB.COST" /> multiplies them with what is loaded, and with
          the days and the waiting of the schedule below.
        </p>
        <TypedCells rows={PRICES} name="Prices" />
        <Spill job={job} name="Quote" rows={24} />
        <p>
          The last line, {showCell(price[0] ?? null)}, is quoted at {money(price[4] ?? null)}, for all that is loaded;
          what the job uses would come to between {money(price[5] ?? null)} and {money(price[6] ?? null)} in eight cases
          of ten. That spread is for the estimator, not for the customer.
        </p>
      </>,
    ],
    [
      'shifts',
      'The shifts',
      <>
        <p>
          <F name="BURN.JOB.SCHEDULE" /> puts the pins in order: one cools while the next is burnt, and the last rod
          goes out early enough for the fire watch to end within the shift of 10 h.
        </p>
        <Spill job={job} name="Shifts" rows={14} />
        <p>
          One crew needs {whole(Number(job.under(shifts, 'shift', shifts.length - 2)))}{' '}
          {Number(job.under(shifts, 'shift', shifts.length - 2)) === 1 ? 'shift' : 'shifts'}; the whole is done at{' '}
          {showCell(job.under(shifts, 'done', shifts.length - 2))} of the last.
        </p>
      </>,
    ],
    [
      'log',
      'Afterwards: how good was the estimate?',
      <>
        <p>The crew wrote down what each pin took. All six came out; the sheet asks how the estimate did.</p>
        <TypedCells rows={LOG} name="Log" />
        <Spill job={job} name="Score" />
        <p>
          Oxygen came to {figure(job.under(score, 'noted over estimated', 'oxygen'))} times the estimate.{' '}
          <F name="BURN.LOG.SCORE" /> says of it: {showCell(job.under(score, 'verdict', 'oxygen'))}. With six pins of
          one job it can say little more.
        </p>
      </>,
    ],
    [
      'fit',
      'What the log teaches',
      <>
        <p>
          <F name="BURN.LOG.FIT" /> moves the assumptions as far as six pins can move them, and no farther.
        </p>
        <Spill job={job} name="Fit" rows={10} columns={6} />
        <p>
          {fittedRows} rows of assumptions, ready to be used as <code>assume</code>; below them each pin beside the fit.
          The next list, say one pin of 4-1/2 by 14 in, is planned with them:
        </p>
        <Spill job={job} name="Next" address="B1" columns={15} />
        <Spill job={job} name="Next" address="B4" columns={15} />
        <p>
          Its oxygen goes from {figure(job.under(before, 'oxygen', 0))} to {figure(job.under(after, 'oxygen', 0))} scf,
          and low and high come from {figure(job.width('Next', 'B1'))} scf apart to {figure(job.width('Next', 'B4'))}.
          The crew’s own figures have replaced a part of common practice.
        </p>
      </>,
    ],
  ];
  return (
    <>
      <nav aria-label="On this page">
        <ol class="on-page">
          {parts.map(([id, heading]) => (
            <li>
              <a href={`#${id}`}>{heading}</a>
            </li>
          ))}
        </ol>
      </nav>
      {parts.map(([id, heading, content]) => (
        <Part id={id} heading={heading}>
          {content}
        </Part>
      ))}
    </>
  );
}

/** Names typed in the first column, formulas with their values in the second. */
function Pairs({ job, name, rows }: { readonly job: Job; readonly name: string; readonly rows: number }) {
  const lines = Array.from({ length: rows }, (_, r): readonly ShownCell[] => [
    { value: job.spill(name, `A${r + 1}`)[0]?.[0] ?? null, is: 'typed' },
    { value: job.spill(name, `B${r + 1}`)[0]?.[0] ?? null, is: 'holds' },
    { value: ` ${job.formula(name, `B${r + 1}`)}`, is: 'label' },
  ]);
  return (
    <SheetTable
      rows={lines}
      row={0}
      column={0}
      caption={`Sheet ${name}; the formula of each figure stands beside it`}
    />
  );
}

function Beside({ job }: { readonly job: Job }) {
  const rows = HOSES.map(([bore], r): readonly ShownCell[] => [
    { value: bore, is: 'typed' },
    { value: job.spill('Hose', 'B1')[r]?.[0] ?? null, ...(r === 0 ? { is: 'holds' as const } : {}) },
  ]);
  return (
    <>
      <code class="formula">{job.formula('Hose', 'B1')}</code>
      <SheetTable rows={rows} row={0} column={0} caption="Sheet Hose: bores typed, settings in psi from B1" />
    </>
  );
}
