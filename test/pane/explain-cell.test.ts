import { describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { PLAN_COLUMNS } from '../../src/catalogue/plan-line.ts';
import { REGISTRY } from '../../src/core/assumptions/registry.ts';
import { findSource } from '../../src/core/sources/register.ts';
import { call } from '../../src/sheet/call.ts';
import { isKnown, readSelectedCell, type ReadCell } from '../../src/pane/explain-cell.ts';
import { explainItem } from '../../src/pane/explain-item.ts';
import type { Explained } from '../../src/pane/explained.ts';
import { selectedItem, type ReadCall } from '../../src/pane/read-call.ts';
import type { SelectedCell } from '../../src/pane/port.ts';
import { reader, selected, type Cells } from './memory-sheet.ts';

const LIST = [
  [3.5, 10],
  [null, null],
  ['wide', 10],
  ['100 mm', 12],
] as const;
const cells: Cells = {
  A5: 3.5,
  B5: 10,
  A9: 'wide',
  R5: 'no such rod',
  'A5:A8': LIST.map(([d]) => [d]),
  'B5:B8': LIST.map(([, l]) => [l]),
  'A5:A7': LIST.slice(0, 3).map(([d]) => [d]),
  'Assumptions!A1:B3': [
    ['name', 'value'],
    ['stub', 4],
    ['burning duty', 0.5],
  ],
  Metric: [
    ['units', 'SI'],
    ['stub', 80],
  ],
};

const read = (cell: SelectedCell): Promise<ReadCell> => readSelectedCell(cell, { read: reader(cells) });
async function explained(cell: SelectedCell, at = 0, item?: number): Promise<Explained> {
  const known = (await read(cell)).calls[at] as ReadCall;
  expect(isKnown(known)).toBe(true);
  return explainItem(known, item ?? selectedItem(known, cell), cell);
}
const valueOf = (name: string, ...args: Parameters<typeof call>[1]): number =>
  call(findFunction(name)!, args)[0]?.[0] as number;

describe('the explanation of a cell', () => {
  it('gives each argument as it stands, as read and as taken', async () => {
    const { arguments: all } = await explained(selected('=BURN.PIN.OXYGEN(A5,"10 in",,"3/8 x 36")'));
    expect(all.map((a) => [a.label, a.text, a.came, a.taken])).toEqual([
      ['diameter', 'A5', '3.5', '3.5 in'],
      ['length', '"10 in"', '10 in', '10 in'],
      ['hole', '', undefined, undefined],
      ['rod', '"3/8 x 36"', '3/8 x 36', '3/8 x 36'],
      ['material', '', undefined, undefined],
      ['assume', '', undefined, undefined],
    ]);
  });

  it('gives the result with its unit, and the working up to it', async () => {
    const e = await explained(selected('=BURN.PIN.OXYGEN(A5,B5)'));
    const expected = valueOf('BURN.PIN.OXYGEN', 3.5, 10);
    const [headings = [], row = []] = call(findFunction('BURN.PIN.PLAN')!, [3.5, 10]);
    const range = ['oxygen low, scf', 'oxygen high, scf'].map((heading) => row[headings.indexOf(heading)]);
    expect(e.outcome).toEqual({ kind: 'value', value: expected, unit: 'scf', range });
    expect(e.steps.length).toBeGreaterThan(20);
    expect(e.result).toBe('O');
    expect(e.values).toMatchObject({ diameter: 3.5 * 0.0254, length: 10 * 0.0254 });
  });

  it('asks about sizes that look to be in the wrong unit', async () => {
    expect((await explained(selected('=BURN.PIN.RODS(60,200)'))).question).toBe(
      'diameter 60 in is out of the usual: if mm was meant, write 60 mm',
    );
    expect((await explained(selected('=BURN.PIN.RODS(A5,B5)'))).question).toBe('');
    expect((await explained(selected('=BURN.ROD.FLOW("3/8",80)'))).question).toBe('');
  });

  it('shows what came with a decimal comma as it is taken', async () => {
    const { arguments: all } = await explained(selected('=BURN.PIN.OXYGEN("3,5",10,,,,{"decimal mark","comma"})'));
    expect([all[0]?.text, all[0]?.taken]).toEqual(['"3,5"', '3.5 in']);
  });

  it('marks another step for another function of the same working', async () => {
    expect((await explained(selected('=BURN.PIN.TIME(A5,B5)'))).result).toBe('t_crew');
    expect((await explained(selected('=BURN.PIN.RODS(A5,B5)'))).result).toBe('N');
  });

  it('cites for every step a source that the register knows', async () => {
    for (const { source } of (await explained(selected('=BURN.PIN.OXYGEN(A5,B5)'))).steps)
      if (source !== '') expect(findSource(source), source).toBeDefined();
  });

  it('is the same through a reference as through a constant', async () => {
    const [a, b] = [
      await explained(selected('=BURN.PIN.OXYGEN(A5,B5)')),
      await explained(selected('=BURN.PIN.OXYGEN(3.5,10)')),
    ];
    expect(a.steps).toEqual(b.steps);
    expect(a.outcome).toEqual(b.outcome);
  });

  it('finds nothing of ours in another formula, and the nearest names of a misspelt function', async () => {
    expect((await read(selected('=SUM(A5:A8)'))).calls).toEqual([]);
    const [misspelt] = (await read(selected('=BURN.PIN.OXIGEN(A5,B5)'))).calls;
    expect(misspelt).toMatchObject({
      problem: expect.stringMatching(/^There is no function BURN\.PIN\.OXIGEN\. Nearest: BURN\.PIN\.OXYGEN/) as string,
    });
  });

  it('keeps calls inside one another apart', async () => {
    const cell = selected('=BURN.PIN.RODS(A5,B5,BURN.PIN.HOLE(A5))*2');
    const outer = await explained(cell, 0);
    expect(outer.arguments[2]).toMatchObject({ text: 'BURN.PIN.HOLE(A5)', taken: '2.1 in' });
    expect((await explained(cell, 1)).outcome).toMatchObject({ kind: 'value', unit: 'in' });
  });
});

describe('an error in a cell', () => {
  it('is given with its message, which some sheets drop', async () => {
    const e = await explained(selected('=BURN.PIN.OXYGEN(A9,B5)', { value: { error: '#VALUE!', message: '' } }));
    expect(e.outcome).toMatchObject({
      kind: 'error',
      error: '#VALUE!',
      message: expect.stringMatching(/^diameter is "wide"/) as string,
    });
    expect(e.note).toBeUndefined();
    expect(e.arguments[0]).toMatchObject({ came: 'wide', taken: undefined });
  });

  it('is given for an unknown name and for ranges that do not fit', async () => {
    expect((await explained(selected('=BURN.PIN.OXYGEN(A5,B5,,R5)'))).outcome).toMatchObject({
      kind: 'error',
      error: '#N/A',
    });
    const unequal = await explained(selected('=BURN.PIN.OXYGEN(A5:A7,B5:B8)'));
    expect(unequal.outcome).toMatchObject({
      kind: 'error',
      message: expect.stringContaining('diameter is 3 rows by 1 column and length is 4 rows') as string,
    });
    expect(unequal.items).toBe(1);
  });

  it("of the sheet's own is put into words", async () => {
    const e = await explained(selected('=BURN.PIN.PLAN(A5,B5)', { value: { error: '#SPILL!', message: '' } }));
    expect(e.note).toMatch(/^The cell shows #SPILL!: the result needs more cells/);
  });

  it('says which argument the pane could not read, and works nothing out', async () => {
    const e = await explained(selected('=BURN.PIN.OXYGEN(MAX(A5:A8),B5)'));
    expect(e.outcome).toEqual({ kind: 'unread' });
    expect(e.arguments[0]?.problem).toContain('put it in a cell of its own');
    expect(e.arguments[1]).toMatchObject({ text: 'B5', taken: '10 in' });
    expect(e.steps).toEqual([]);
  });
});

describe('a cell of a spill', () => {
  const formula = '=BURN.PIN.OXYGEN(A5:A8,B5:B8)';
  const spilt = (row: number, column = 0, f = formula): SelectedCell =>
    selected('', { address: 'Z99', spill: { from: 'D5', formula: f, row, column } });

  it('is explained for its own item', async () => {
    const e = await explained(spilt(3));
    expect([e.item, e.items]).toEqual([3, 4]);
    expect(e.arguments[0]).toMatchObject({ text: 'A5:A8', came: '100 mm', taken: '3.93701 in' });
    expect(e.outcome).toMatchObject({ value: valueOf('BURN.PIN.OXYGEN', '100 mm', 12) });
  });

  it('says what a bad and a blank item are', async () => {
    expect((await explained(spilt(2))).outcome).toMatchObject({
      kind: 'error',
      message: expect.stringContaining('wide') as string,
    });
    const blank = await explained(spilt(1));
    expect(blank.outcome).toEqual({ kind: 'blank' });
    expect(blank.steps).toEqual([]);
  });

  it('reads references from the cell that holds the formula', async () => {
    const asked: string[] = [];
    await readSelectedCell(spilt(0), { read: (...args) => (asked.push(args.join(' ')), reader(cells)(...args)) });
    expect(asked).toEqual(['A5:A8 Pins D5', 'B5:B8 Pins D5']);
  });

  it('of a plan is the row of its item, the selected column marked; the heading stands for the first', async () => {
    const plan = '=BURN.PIN.PLAN(A5:A8,B5:B8)';
    const rows = call(findFunction('BURN.PIN.PLAN')!, [cells['A5:A8'], cells['B5:B8']]);
    const column = rows[0]?.indexOf('oxygen, scf') ?? -1;
    const e = await explained(spilt(4, column, plan));
    expect(e.item).toBe(3);
    expect(e.outcome.kind === 'row' && e.outcome.lines.map((l) => [l.heading, l.value])).toEqual(
      rows[0]?.map((h, i) => [h, rows[4]?.[i]]),
    );
    expect(e.outcome.kind === 'row' && e.outcome.lines.filter((l) => l.selected).map((l) => l.heading)).toEqual([
      'oxygen, scf',
    ]);
    expect(e.result).toBe('O');
    expect((await explained(spilt(0, column, plan))).item).toBe(0);
    expect((await explained(spilt(3, column, plan))).outcome).toMatchObject({ kind: 'error' });
    expect((await explained(spilt(2, column, plan))).outcome).toEqual({ kind: 'blank' });
  });

  it('of a plan has the working of its column alone, and of that what the function of the same value has', async () => {
    const plan = '=BURN.PIN.PLAN(A5:A8,B5:B8)';
    const headings = PLAN_COLUMNS.map((c) => c.heading as string);
    const at = (heading: string): Promise<Explained> => explained(spilt(1, headings.indexOf(heading), plan));
    const whole = await explained(selected(plan));
    for (const [heading, formula] of [
      ['rods', '=BURN.PIN.RODS(A5,B5)'],
      ['oxygen', '=BURN.PIN.OXYGEN(A5,B5)'],
      ['burning', '=BURN.PIN.BURN(A5,B5)'],
      ['crew', '=BURN.PIN.TIME(A5,B5)'],
      ['tip pressure', '=BURN.PIN.PRESSURE(A5,B5)'],
    ] as const) {
      const [column, own] = [await at(heading), await explained(selected(formula))];
      expect(column.steps, heading).toEqual(own.steps);
      expect([column.result, column.assumptions], heading).toEqual([own.result, own.assumptions]);
      expect(column.steps.length).toBeLessThan(whole.steps.length);
    }
    const symbols = async (heading: string): Promise<readonly string[]> =>
      (await at(heading)).steps.map((s) => s.symbol);
    for (const [heading, step] of [
      ['regulator setting', 'p_reg'],
      ['ram', 'R_ram'],
      ['removed', 'M'],
      ['flow', 'm'],
      ['cooling', 't_cool'],
    ] as const) {
      expect((await at(heading)).result, heading).toBe(step);
      expect((await symbols(heading)).at(-1), heading).toBe(step);
    }
    expect(await symbols('oxygen')).not.toContain('t_cool');
    // Low and high are drawn, not steps.
    expect((await at('oxygen low')).result).toBeUndefined();
    expect(whole.result).toBeUndefined();
  });

  it('of a row by a column is found by row and column', async () => {
    const e = await explained(spilt(1, 2, '=BURN.PIN.RODS({3;4},{8,9,10})'));
    expect([e.item, e.items, e.arguments[0]?.taken, e.arguments[1]?.taken]).toEqual([5, 6, '4 in', '10 in']);
  });

  it('of a larger formula cannot be placed; the item is then chosen', async () => {
    const cell = spilt(3, 0, `${formula}*2`);
    expect((await explained(cell)).item).toBe(0);
    expect((await explained(cell, 0, 3)).arguments[0]?.came).toBe('100 mm');
  });
});

describe('the assumptions of a cell', () => {
  it('are those its calculation asked for, with their ranges', async () => {
    const e = await explained(selected('=BURN.PIN.HOLE(A5)'));
    expect(e.assumptions.map((a) => a.name)).toEqual(['bore ratio']);
    const ratio = REGISTRY.find((a) => a.name === 'bore ratio');
    expect(e.assumptions[0]).toMatchObject({
      value: ratio?.value,
      low: (ratio as { low: number }).low,
      kind: 'common practice',
      source: 'common practice',
    });
  });

  it('include what only the choice of a rod asks for', async () => {
    const names = (await explained(selected('=BURN.PIN.OXYGEN(A5,B5)'))).assumptions.map((a) => a.name);
    expect(names).toEqual(expect.arrayContaining(['access length', 'supply flow', 'stub', 'material']));
  });

  it("show the user's own values and their kind", async () => {
    const e = await explained(selected('=BURN.PIN.RODS(A5,B5,,,,Assumptions!A1:B3)'));
    expect(e.assumptions.find((a) => a.name === 'stub')).toMatchObject({
      value: 4,
      unit: 'in',
      kind: 'your value',
      source: 'no reason given',
    });
    expect(e.arguments.at(-1)).toMatchObject({
      label: 'assume',
      text: 'Assumptions!A1:B3',
      came: '3 rows by 2 columns',
    });
    expect(e.outcome).toMatchObject({
      value: valueOf('BURN.PIN.RODS', 3.5, 10, undefined, undefined, undefined, cells['Assumptions!A1:B3'] as never),
    });
  });

  it('follow the units of the call', async () => {
    const e = await explained(selected('=BURN.PIN.HOLE(90,Metric)'));
    expect(e.system).toBe('SI');
    expect(e.outcome).toMatchObject({ kind: 'value', unit: 'mm' });
    const rods = await explained(selected('=BURN.PIN.RODS(90,250,,,,Metric)'));
    expect(rods.assumptions.find((a) => a.name === 'stub')).toMatchObject({ value: 80, unit: 'mm' });
  });
});

describe('what is said of the value the cell shows', () => {
  const value = valueOf('BURN.PIN.OXYGEN', 3.5, 10);
  const noteOf = async (
    more: Partial<SelectedCell>,
    formula = '=BURN.PIN.OXYGEN(A5,B5)',
  ): Promise<string | undefined> => (await explained(selected(formula, more))).note;

  it('is nothing where the formula gives it', async () => {
    expect(await noteOf({ value })).toBeUndefined();
    expect(await noteOf({ value: value * (1 + 1e-12) })).toBeUndefined();
  });

  it('is that it is not what the formula gives now', async () => {
    expect(await noteOf({ value: 12 })).toMatch(
      /^The cell shows 12; its formula gives \d.* now\. Recalculate the sheet\.$/,
    );
    expect(await noteOf({ value: { error: '#VALUE!', message: '' } })).toMatch(
      /^The cell shows #VALUE!; its formula gives/,
    );
  });

  it('is nothing where the call is a part of the formula', async () => {
    expect(await noteOf({ value: 12 }, '=BURN.PIN.OXYGEN(A5,B5)*2')).toBeUndefined();
  });
});

describe('a row of a job plan', () => {
  const JOB: Cells = {
    'A1:E6': [
      ['mark', 'qty', 'dia', 'length', 'position'],
      ['Boom foot', 1, 5, 18, null],
      ['Lock pin', 4, 1.5, 6, 'overhead'],
      [null, null, null, null, null],
      ['Stick', 1, 4, null, null],
      ['Cap', 1, 3.5, 10, null],
    ],
  };
  const at = async (row: number, heading: string): Promise<Explained> => {
    const plan = call(findFunction('BURN.JOB.PLAN')!, [JOB['A1:E6']]);
    const column = plan[0]!.findIndex((h) => String(h).split(',')[0] === heading);
    const cell = selected('', {
      value: plan[row]![column]!,
      spill: { from: 'G1', formula: '=BURN.JOB.PLAN(A1:E6)', row, column },
    });
    const known = (await readSelectedCell(cell, { read: reader(JOB) })).calls[0] as ReadCall;
    return explainItem(known, selectedItem(known, cell), cell);
  };

  it('is explained as the plan of its operation is: the working of its column, its own cautions and assumptions', async () => {
    const e = await at(1, 'oxygen');
    const own = (await readSelectedCell(selected('=BURN.PIN.OXYGEN(5,18)'), { read: reader({}) })).calls[0] as ReadCall;
    const single = explainItem(own, 0, selected('=BURN.PIN.OXYGEN(5,18)'));
    expect(e.outcome.kind).toBe('row');
    expect(e.outcome.kind === 'row' && e.outcome.lines.find((l) => l.selected)?.heading).toBe('oxygen, scf');
    expect(e.result).toBe('O');
    expect(e.steps.map((s) => [s.symbol, s.value])).toEqual(single.steps.map((s) => [s.symbol, s.value]));
    expect(e.assumptions).toEqual(single.assumptions);
    expect(e.note).toBeUndefined();
    expect(e.family).toBe('PIN');
  });

  it('has the cautions of its own row alone', async () => {
    const keys = async (row: number): Promise<readonly string[]> => (await at(row, 'rods')).cautions.map((c) => c.key);
    const [first, second] = [await keys(1), await keys(2)];
    expect(second.filter((key) => !first.includes(key))).toContain('slag from overhead');
    expect(first).not.toContain('slag from overhead');
  });

  it('says that the working is of one piece where the row is for several', async () => {
    expect((await at(2, 'rods')).note).toContain('for all 4');
  });

  it('keeps its place over blank rows, and says why a row failed', async () => {
    const last = await at(5, 'rods');
    expect(last.outcome.kind === 'row' && last.outcome.lines[1]?.value).toBe('Cap');
    expect(last.stepValue('D')).toBeCloseTo(3.5 * 0.0254, 9);
    const bad = await at(4, 'note');
    expect(bad.outcome.kind === 'row' && bad.outcome.lines.at(-1)?.value).toContain('Stick: length is blank');
    expect(bad.steps).toEqual([]);
    // The total is of no single item.
    expect((await at(6, 'rods')).steps).toEqual([]);
  });
});
