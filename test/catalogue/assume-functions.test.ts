import { describe, expect, it } from 'vitest';
import { Assumptions } from '../../src/core/assumptions/assumptions.ts';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { isCellError, type Cell } from '../../src/catalogue/cell.ts';
import { OPERATION_IDS, operationOf } from '../../src/core/operations/all.ts';
import { call } from '../../src/sheet/call.ts';
import type { Argument } from '../../src/sheet/host-function.ts';

const table = (name: string, ...args: readonly Argument[]): readonly (readonly Cell[])[] =>
  call(findFunction(name)!, args);
const value = (name: string, ...args: readonly Argument[]): Cell => table(name, ...args)[0]?.[0] ?? null;
const column = (rows: readonly (readonly Cell[])[], heading: string): readonly Cell[] => {
  const at = rows[0]?.indexOf(heading) ?? -1;
  return rows.slice(1).map((row) => row[at] ?? null);
};

/** What is said of a value of which nothing is said: why, by, date, source. */
const UNSAID = ['no reason given', null, null, null];

describe('BURN.ASSUME.DIFF', () => {
  const diff = (...rows: readonly (readonly Cell[])[]) => table('BURN.ASSUME.DIFF', rows);

  it('lists what departs from the defaults, in the order of the listing, and by how much', () => {
    const rows = diff(
      ['name', 'value', 'low', 'high', 'unit'],
      ['idle oxygen share', 0.1, 0.05, 0.2, ''],
      ['stub', 4, 4, 4, 'in'],
      ['slag temperature', 2100, 1980, 2230, 'K'],
    );
    expect(rows).toEqual([
      [
        ...[
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
        ...['why', 'by', 'date', 'source'],
      ],
      ['stub', 4, 4, 4, 'in', 'your value', 3, 2.5, 3.5, 1, expect.closeTo(100 / 3, 9), ...UNSAID],
      [
        'idle oxygen share',
        0.1,
        0.05,
        0.2,
        '',
        'your value',
        0.08,
        0.045,
        0.115,
        expect.closeTo(0.02, 12),
        expect.closeTo(25, 9),
        ...UNSAID,
      ],
    ]);
  });

  it('counts a changed range or a changed word as a departure', () => {
    expect(column(diff(['name', 'value', 'low', 'high'], ['stub', 3, 2, 4]), 'change')).toEqual([
      expect.closeTo(0, 12),
    ]);
    expect(diff(['coupled rods', 'yes'])[1]).toEqual([
      'coupled rods',
      'yes',
      null,
      null,
      null,
      'your value',
      Assumptions.defaults().word('coupled rods'),
      null,
      null,
      null,
      null,
      ...UNSAID,
    ]);
  });

  it('says why, by whom, when and from what, and where nothing is said', () => {
    const rows = diff(
      ['name', 'value', 'unit', 'why', 'by', 'date', 'source'],
      // 46211 is 8 July 2026 as sheets count days (ECMA-376-1:2016, 18.17.4.1).
      ['stub', 4, 'in', 'measured on ten stubs', 'R. Vale', 46211, 'tape, job 12'],
      ['burning duty', 0.6, null, null, null, null, null],
      ['position', 'overhead', null, 'under the boom', null, 'last week', null],
    );
    const said = ['why', 'by', 'date', 'source'].map((heading) => column(rows, heading));
    const of = (name: string): readonly unknown[] => said.map((c) => c[column(rows, 'name').indexOf(name)]);
    expect(of('stub')).toEqual(['measured on ten stubs', 'R. Vale', '2026-07-08', 'tape, job 12']);
    expect(of('burning duty')).toEqual(UNSAID);
    expect(of('position')).toEqual(['under the boom', null, 'last week', null]);
    // Its own output says the same again.
    expect(diff(...rows)).toEqual(rows);
  });

  it("takes a listing's own source, left beside a changed value, for no reason of that value", () => {
    const [heading = [], line = []] = table('BURN.ASSUMED', 'leftover pressure');
    const edited = [heading, line.map((cell, i) => (heading[i] === 'value' ? (line[2] as number) : cell))];
    expect(column(diff(...edited), 'source')).toEqual([null]);
    expect(column(diff(...edited), 'why')).toEqual(['no reason given']);
  });

  it('shows SI units where the rows ask for them, and gives no share of a temperature', () => {
    const rows = diff(['units', 'SI'], ['stub', 100], ['gas temperature', 20]);
    expect(rows.find((r) => r[0] === 'stub')?.slice(0, 5)).toEqual([
      'stub',
      expect.closeTo(100, 9),
      expect.closeTo(83.3333, 3),
      expect.closeTo(116.6667, 3),
      'mm',
    ]);
    expect(rows.find((r) => r[0] === 'gas temperature')?.slice(9, 11)).toEqual([
      expect.closeTo(20 - (70 - 32) / 1.8, 9),
      null,
    ]);
  });

  it('works as assume as it stands', () => {
    const rows: readonly (readonly Cell[])[] = [
      ['stub', 4.5],
      ['idle oxygen share', 0.15],
      ['coupled rods', 'yes'],
      ['gas temperature', 40],
    ];
    expect(value('BURN.PIN.OXYGEN', 5, 20, undefined, undefined, undefined, diff(...rows))).toBeCloseTo(
      value('BURN.PIN.OXYGEN', 5, 20, undefined, undefined, undefined, rows) as number,
      9,
    );
    expect(diff(...diff(...rows))).toEqual(
      diff(...rows).map((row) =>
        row.map((cell) => (typeof cell === 'number' ? (expect.closeTo(cell, 9) as unknown) : cell)),
      ),
    );
  });

  it('says so where nothing departs, and where there is no range or a bad row', () => {
    expect(diff(['stub', 3])[1]?.[0]).toBe('nothing departs from the defaults');
    expect(table('BURN.ASSUME.DIFF', table('BURN.ASSUMED'))[1]?.[0]).toBe('nothing departs from the defaults');
    expect(value('BURN.ASSUME.DIFF')).toEqual({ error: '#VALUE!', message: 'assume is missing' });
    expect(value('BURN.ASSUME.DIFF', [['stubb', 3]])).toMatchObject({
      error: '#N/A',
      message: expect.stringContaining('nearest: stub') as string,
    });
  });
});

describe('BURN.ASSUME.EFFECT', () => {
  const effect = (operation: string, sizes: readonly (readonly Cell[])[], assume?: Argument) =>
    table('BURN.ASSUME.EFFECT', operation, sizes, assume);
  const pin = effect('PIN', [[4, 10]]);

  it('gives what the sizing functions give with that one row, at low and at high', () => {
    const rows = pin;
    const functions: Readonly<Record<string, string>> = {
      oxygen: 'BURN.PIN.OXYGEN',
      rods: 'BURN.PIN.RODS',
      'crew time': 'BURN.PIN.TIME',
    };
    const [low, high, name, result] = ['low', 'high', 'assumption', 'result'].map((h) => column(rows, h)) as [
      readonly Cell[],
      readonly Cell[],
      readonly Cell[],
      readonly Cell[],
    ];
    for (const i of [0, 3, 9, 21, 30, 36]) {
      const unit = column(rows, 'unit of the assumption')[i] ?? null;
      const withRow = (cell: Cell): Cell =>
        value(functions[result[i] as string]!, 4, 10, undefined, undefined, undefined, [
          ['name', 'value', 'unit'],
          [name[i] ?? null, cell, unit],
        ]);
      expect(column(rows, 'at low')[i], JSON.stringify(name[i])).toBeCloseTo(withRow(low[i] ?? null) as number, 6);
      expect(column(rows, 'at high')[i], JSON.stringify(name[i])).toBeCloseTo(withRow(high[i] ?? null) as number, 6);
      expect(column(rows, 'as assumed')[i]).toBe(value(functions[result[i] as string]!, 4, 10));
    }
  });

  it('ranks each result by its swing, with changes as the bars of a chart', () => {
    const rows = pin;
    for (const result of ['oxygen', 'rods', 'crew time']) {
      const own = rows.slice(1).filter((r) => r[0] === result);
      expect(own.length).toBeGreaterThan(3);
      expect(own.map((r) => r[1])).toEqual(own.map((_, i) => i + 1));
      const swing = own.map((r) => {
        const [a, b, c] = [r[5], r[6], r[7]] as [number, number, number];
        return Math.max(a, b, c) - Math.min(a, b, c);
      });
      expect([...swing].sort((x, y) => y - x)).toEqual(swing);
      for (const r of own) {
        expect(r[3]).toBeCloseTo((r[5] as number) - (r[6] as number), 9);
        expect(r[4]).toBeCloseTo((r[7] as number) - (r[6] as number), 9);
      }
    }
  });

  it('finds the factor of the burning first for oxygen, and leaves out what changes nothing', () => {
    const rows = pin;
    expect(rows[1]?.slice(0, 3)).toEqual(['oxygen', 1, 'oxygen burnt share']);
    const names = column(rows, 'assumption');
    expect(names).not.toContain('bar oxygen burnt share');
    expect(names).not.toContain('ends worked');
    const oxygen = rows.filter((r) => r[0] === 'oxygen').map((r) => r[2]);
    expect(oxygen).not.toContain('set-up time');
    expect(rows.filter((r) => r[0] === 'crew time').map((r) => r[2])).toContain('set-up time');
  });

  it('leaves nothing out that would change oxygen, rods or crew time', () => {
    const listed = new Set(column(effect('HOLE', [[1.5, 6]]), 'assumption'));
    for (const row of table('BURN.ASSUMED').slice(1)) {
      const [name, , low, high, unit] = row;
      if (typeof low !== 'number' || typeof high !== 'number' || low === high || listed.has(name ?? null)) continue;
      for (const at of [low, high]) {
        const assume = [
          ['name', 'value', 'unit'],
          [name ?? null, at, unit ?? null],
        ];
        for (const f of ['OXYGEN', 'RODS', 'TIME'])
          expect(
            value(`BURN.HOLE.${f}`, 1.5, 6, undefined, undefined, assume),
            `${JSON.stringify(name)} ${f}`,
          ).toBeCloseTo(value(`BURN.HOLE.${f}`, 1.5, 6) as number, 6);
      }
    }
  });

  it('takes the range a row of assume gives, and none where it is narrowed to nothing', () => {
    const wide = effect(
      'PIN',
      [[4, 10]],
      [
        ['name', 'value', 'low', 'high'],
        ['lighting time', 5, 1, 60],
      ],
    );
    expect(wide.find((r) => r[2] === 'lighting time')?.slice(9, 13)).toEqual([
      expect.closeTo(1, 9),
      expect.closeTo(5, 9),
      expect.closeTo(60, 9),
      's',
    ]);
    const none = effect(
      'PIN',
      [[4, 10]],
      [
        ['name', 'value', 'low', 'high'],
        ['lighting time', 5, 5, 5],
      ],
    );
    expect(column(none, 'assumption')).not.toContain('lighting time');
  });

  it('reads one item as a row, a column or under headings, with rod and material', () => {
    const plain = effect('PIN', [[4, 10, 2.5]]);
    expect(effect('PIN', [[4], [10], [2.5]])).toEqual(plain);
    expect(
      effect('PIN', [
        ['length', 'diameter', 'hole'],
        [10, 4, 2.5],
      ]),
    ).toEqual(plain);
    expect(column(effect('PIN', [[4, 10, null, '1/4 x 36']]), 'as assumed')[0]).toBe(
      value('BURN.PIN.OXYGEN', 4, 10, undefined, '1/4 x 36'),
    );
  });

  it('says why where an extreme has no solution, and puts it first', () => {
    const rows = effect(
      'PIN',
      [[4, 10]],
      [
        ['name', 'value', 'low', 'high'],
        ['heat lost share', 0.3, 0.2, 0.95],
      ],
    );
    expect(rows[1]).toEqual([
      'oxygen',
      1,
      'heat lost share',
      expect.any(Number),
      null,
      expect.any(Number),
      expect.any(Number),
      expect.objectContaining({ error: '#N/A' }),
      'scf',
      0.2,
      0.3,
      0.95,
      '',
      expect.any(Number),
      expect.any(Number),
      expect.stringMatching(/^at high: /),
    ]);
  });

  it('shares out what is uncertain among what is drawn', () => {
    const rows = effect('PIN', [[4, 10]], [['oxygen purity', 99, 98.5, 99.5]]);
    const shares = rows
      .slice(1)
      .filter((r) => r[0] === 'oxygen')
      .map((r) => ({ name: r[2], first: r[13], total: r[14] }));
    const drawn = shares.filter(({ first }) => typeof first === 'number');
    expect(drawn.length).toBeGreaterThan(8);
    // The bore and the access are decided, not drawn.
    expect(shares.find(({ name }) => name === 'bore ratio')).toMatchObject({ first: null, total: null });
    const sum = drawn.reduce((all, { first }) => all + (first as number), 0);
    // What the item's own scatter brings in is left; each share is off by chance.
    expect(sum).toBeGreaterThan(0.6);
    expect(sum).toBeLessThan(1.1);
    const [most] = [...drawn].sort((x, y) => (y.first as number) - (x.first as number));
    expect(most?.name).toBe('oxygen burnt share');
    for (const { first, total } of drawn) expect(total as number).toBeGreaterThan((first as number) - 0.1);
  });

  it.each([
    ['CUT', [2, 12], 'kerf width'],
    ['GOUGE', [1, 0.5, 12], 'groove overcut'],
    ['BREACH', [12, 2], 'concrete heat to melt'],
  ])('gives %s of %j its share of what that operation alone is drawn from: %s', (id, sizes, name) => {
    const row = effect(id, [sizes]).find((r) => r[0] === 'oxygen' && r[2] === name);
    expect(Math.abs(row?.[3] as number)).toBeGreaterThan(0.02 * (row?.[6] as number));
    expect(row?.[13] as number).toBeGreaterThan(0.02);
    expect(row?.[14] as number).toBeGreaterThan(0.02);
  });

  it('gives SI where the rows ask for it', () => {
    const si = effect('PIN', [[100, 250]], [['units', 'SI']]);
    const us = effect('PIN', [['100 mm', '250 mm']]);
    expect(column(si, 'assumption').slice(0, 5)).toEqual(column(us, 'assumption').slice(0, 5));
    expect(si[1]?.[8]).toBe('m3');
    expect((si[1]?.[6] as number) / (us[1]?.[6] as number)).toBeCloseTo(0.0375521146 / 1.3543637, 9);
  });

  it.each(OPERATION_IDS)('works for %s', (id) => {
    const operation = operationOf(id);
    const sizes = operation.order
      .filter((name) => !operation.sizes[name]?.optional)
      .map((name) => Number(operation.sizes[name]?.example));
    const rows = effect(id, [sizes]);
    expect(rows.length).toBeGreaterThan(10);
    expect(rows.flat().filter(isCellError)).toEqual([]);
  });

  it('takes one item, of a known operation, with good sizes', () => {
    const message = (...args: Parameters<typeof effect>): string =>
      (effect(...args)[0]?.[0] as { message: string }).message;
    expect(
      message('PIN', [
        [4, 10],
        [3, 8],
      ]),
    ).toBe('sizes holds 2 items; this function takes one: give one row');
    expect(message('PINN', [[4, 10]])).toContain('must be one of PIN, HOLE');
    expect(message('PIN', [[-4, 10]])).toContain('diameter is -4 in');
    expect(message('PIN', [[null, null]])).toContain('holds no row to work on');
  });
});
