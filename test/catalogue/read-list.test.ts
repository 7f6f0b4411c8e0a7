import { describe, expect, it } from 'vitest';
import type { Cell } from '../../src/catalogue/cell.ts';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { readList } from '../../src/catalogue/read-list.ts';
import { Assumptions } from '../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../src/core/basis.ts';
import type { JobList } from '../../src/core/job/job-list.ts';
import { OPERATION_IDS, operationOf } from '../../src/core/operations/all.ts';
import { call } from '../../src/sheet/call.ts';

const INCH = 0.0254;
const read = (...rows: readonly (readonly Cell[])[]): JobList => readList(rows, new Basis(Assumptions.defaults()));
const problems = (list: JobList): readonly string[] => list.bad.map(({ problem }) => problem.message);

describe('the columns of a job list', () => {
  it('are known by the words of the trade, in any order, case and spacing', () => {
    for (const headings of [
      ['Mark', 'Qty', 'Dia', 'Len'],
      ['TAG', 'No. off', 'DIA.', 'LENGTH'],
      ['  Item ', 'qty.', 'Ø', 'lg'],
      ['pin', 'Pcs', 'Pin dia', 'Pin length'],
      ['Description', 'quantity', 'O.D.', 'L'],
      ['where', 'OFF', 'diam', 'long'],
    ]) {
      const { items, remarks } = read(headings, ['Boom foot', 2, 5, 18]);
      expect(items, headings.join()).toMatchObject([{ mark: 'Boom foot', quantity: 2 }]);
      expect(items[0]!.sized.planned).toMatchObject({ diameter: 5 * INCH, length: 18 * INCH });
      expect(remarks).toEqual([]);
    }
    const { items } = read(['Len', 'Bore', 'Mark', 'Ø'], [18, 2, 'a', 5]);
    expect(items[0]!.sized.planned).toMatchObject({ diameter: 5 * INCH, length: 18 * INCH, hole: 2 * INCH });
  });

  it('give their units, with or without a comma; several words there are a remark', () => {
    for (const [diameter, length] of [
      ['Ø (mm)', 'Length, mm'],
      ['dia mm', 'LEN [mm]'],
      ['Pin dia (mm)', 'length mm'],
    ] as const) {
      const { items } = read([diameter, length], [100, '10 in']);
      expect(items[0]!.sized.planned).toMatchObject({ diameter: 0.1, length: 10 * INCH });
    }
    expect(read(['dia', 'length', 'Bore, if not as planned'], [4, 10, 2]).items[0]!.sized.planned['hole']).toBeCloseTo(
      2 * INCH,
      12,
    );
    expect(() => read(['dia', 'length, mmm'], [4, 10])).toThrow('heading "length, mmm" gives the unit "mmm"');
  });

  it('that are not known are left alone and named once, with the nearest', () => {
    const { items, remarks } = read(
      ['mark', 'diametr', 'dia', 'length', 'colour'],
      ['a', 1, 4, 10, 'red'],
      ['b', 1, 3, 8, ''],
    );
    expect(items).toHaveLength(2);
    expect(remarks).toEqual([
      { kind: 'not read', text: expect.stringMatching(/^column "diametr" is not read; nearest: diameter/) as string },
      { kind: 'not read', text: expect.stringMatching(/^column "colour" is not read; nearest: /) as string },
    ]);
  });

  it('headed by an assumption act for their row alone', () => {
    const { items, remarks } = read(
      ['mark', 'dia', 'length', 'position', 'Burning duty', 'access length, in', 'day length', 'ends'],
      ['a', 4, 10, 'overhead', null, 20, 6, null],
      ['b', 4, 10, null, 0.5, null, null, 'both'],
      ['c', 4, 10, null, null, null, null, null],
    );
    const [a, b, c] = items.map(({ basis }) => basis.a);
    expect([a!.word('position'), b!.word('position'), c!.word('position')]).toEqual(['overhead', 'flat', 'flat']);
    expect([a!.value('burning duty'), b!.value('burning duty')]).toEqual([0.7, 0.5]);
    expect(a!.value('access length')).toBeCloseTo(20 * INCH, 12);
    expect([a!.value('ends worked'), b!.value('ends worked')]).toEqual([1, 2]);
    expect(c!.departures()).toEqual([]);
    expect(remarks).toEqual([
      { kind: 'not read', text: 'column "day length" is not read: it holds for the whole job; give it in assume' },
    ]);
  });

  it('take back for a row what assume says for all', () => {
    const overhead = new Basis(Assumptions.from([{ name: 'position', word: 'overhead' }]));
    const { items } = readList(
      [
        ['dia', 'length', 'position'],
        [4, 10, 'flat'],
        [4, 10, null],
      ],
      overhead,
    );
    expect(items.map(({ basis }) => basis.a.word('position'))).toEqual(['flat', 'overhead']);
  });

  it('of one kind are told apart, but for marks and notes: which is read; two of one assumption are refused', () => {
    const row = ['a', 4, 10, 'indoors', 'confined', 'stainless', 'carbon steel', 'here', 'look'];
    const headings = ['mark', 'dia', 'length', 'condition', 'hazards', 'grade', 'material', 'where', 'remark'];
    const { items, remarks } = read(headings, row);
    expect(items[0]!.sized.material.name).toBe('carbon steel');
    expect(remarks.map(({ text }) => text)).toEqual([
      'column "hazards" is not read: another like it is',
      'column "grade" is not read: another like it is',
    ]);
    expect(() => read(['dia', 'length', 'bushing wall', 'Bushing wall'], [4, 10, 0.5, 0.25])).toThrow(
      'list has two columns headed "Bushing wall"; keep one of them',
    );
  });

  it('hold conditions that figures do not go by, which is told, and some that they do', () => {
    const heading = ['mark', 'dia', 'length', 'condition', 'water depth', 'position', 'access'];
    const { items, remarks } = read(
      heading,
      ['a', 4, 10, 'underwater 30 ft', null, null, null],
      ['b', 4, 10, 'confined, overhead, tight', null, null, 'tight'],
      ['c', 4, 10, 'underwater 30 ft', 30, null, null],
      ['d', 4, 10, 'overhead', null, 'overhead', null],
    );
    const [under, over] = ['underwater', 'overhead'].map((name) => `${name} brings cautions only: its figures need a `);
    expect(remarks).toEqual([
      { kind: 'to ask', text: `a: ${under}column water depth` },
      { kind: 'to ask', text: `b: ${over}column position` },
    ]);
    expect(items.map(({ notes }) => notes.length)).toEqual([1, 1, 0, 0]);
    // The same words, and not the same work.
    const [dry, , wet] = items;
    expect(wet!.sized.oxygen).toBeGreaterThan(1.05 * dry!.sized.oxygen);
  });

  it('name conditions, materials and rods', () => {
    const { items } = read(
      ['dia', 'length', 'Material', 'Rod', 'Conditions'],
      [4, 10, 'stainless steel', '1/4 x 24', 'confined; height 30 ft'],
    );
    expect(items[0]).toMatchObject({
      sized: { name: '1/4 x 24', material: { name: 'stainless steel' } },
      conditions: [{ name: 'confined' }, { name: 'height' }],
    });
  });

  it('serve every operation: each of its sizes has a word', () => {
    for (const id of OPERATION_IDS) {
      const { order, sizes } = operationOf(id);
      const { items } = read(
        ['op', ...order.map((n) => n.toUpperCase())],
        [id.toLowerCase(), ...order.map((name) => (sizes[name]!.optional ? null : sizes[name]!.example))],
      );
      expect(items[0]?.sized.operation.id, id).toBe(id);
    }
  });
});

describe('the rows of a job list', () => {
  it('fail alone, named by their mark, or by their place where they have none', () => {
    const list = read(
      ['mark', 'dia', 'length', 'material'],
      ['Boom foot, left', 5, null, null],
      ['Boom foot, right', 5, 18, null],
      [null, 'wide', 18, null],
      ['Stick', 5, 18, 'wood'],
      ['Bucket', 0, 18, null],
      ['Tooth', { error: '#DIV/0!', message: '' }, 18, null],
    );
    expect(list.items.map(({ mark }) => mark)).toEqual(['Boom foot, right']);
    expect(problems(list)).toEqual([
      'Boom foot, left: length is blank or zero; must be more than 0',
      expect.stringMatching(/^list row 4: diameter is "wide"/),
      expect.stringMatching(/^Stick: material "wood" is not in the register; nearest: /),
      'Bucket: diameter is blank or zero; must be more than 0',
      'Tooth: diameter holds the error #DIV/0!; mend that cell first',
    ]);
  });

  it('are pins where only sizes of a pin are given, and say so where others are', () => {
    const list = read(
      ['mark', 'op', 'dia', 'length', 'thk'],
      ['a', null, 4, 10, null],
      ['b', null, null, 24, 1],
      ['c', 'gouge', 4, 10, null],
      ['d', 'melt', 4, 10, null],
    );
    expect(list.items.map(({ sized }) => sized.operation.id)).toEqual(['PIN']);
    expect(problems(list)).toEqual([
      'b: operation is blank; only pins go without, and thickness is no size of a pin',
      'c: list has no column "width", which GOUGE needs',
      expect.stringMatching(/^d: operation "melt" is not in the register; nearest: /),
    ]);
    const words = read(
      ['op', 'dia', 'length', 'thk', 'hole', 'depth'],
      ['cutting', null, 24, 1, null, null],
      ['pierce', null, null, null, 1, 6],
      ['bolts', 1, null, null, null, null],
    );
    expect(words.items.map(({ sized }) => sized.operation.id)).toEqual(['CUT', 'HOLE', 'STUD']);
  });

  it('have one piece, or as many as a number or a few words say', () => {
    const { items, bad } = read(
      ['mark', 'qty', 'dia', 'length'],
      ...([null, 3, '4 off', '2x', 'x 5', '6 pcs', 0, 1.5, -2, 'few'] as const).map((q, i): Cell[] => [
        `p${i}`,
        q,
        4,
        10,
      ]),
    );
    expect(items.map(({ quantity }) => quantity)).toEqual([1, 3, 4, 2, 5, 6, 1]);
    for (const at of [0, 6]) expect(items[at]!.notes).toEqual(['quantity is blank or zero: 1 is taken']);
    expect(read(['dia', 'length'], [4, 10]).items[0]!.notes).toEqual([]);
    // A row that was struck out with a 0 is counted all the same: whoever adds the list up hears of it.
    expect(read(['mark', 'qty', 'dia', 'length'], ['a', 2, 4, 10], ['b', 0, 4, 10]).remarks).toEqual([
      { kind: 'to ask', text: 'b: quantity is blank or zero: 1 is taken' },
    ]);
    expect(read(['mark', 'dia', 'length'], ['a', 4, 10]).remarks).toEqual([]);
    expect(bad.map(({ mark }) => mark)).toEqual(['p7', 'p8', 'p9']);
    // A count is the studs of one place, and pieces of anything else: studs by their quantity are as many places, which is told.
    const apart = read(['op', 'dia', 'qty'], ['stud', 1, 3]).items[0]!;
    expect(apart.notes).toEqual(['each is set up by itself; under count, all at once']);
    expect(apart.question).toBe(apart.notes[0]);
    expect(read(['op', 'dia', 'count', 'qty'], ['stud', 1, 3, 2], ['stud', 1, null, 1]).remarks).toEqual([]);
    expect(read(['dia', 'length', 'count'], [4, 10, 3]).items[0]!.quantity).toBe(3);
    expect(read(['op', 'dia', 'count'], ['stud', 1, 3]).items[0]!.quantity).toBe(1);
  });

  it('may stand below titles, blank rows and a further heading row', () => {
    const { items, rows } = read(
      ['Overhaul of a dragline', null, null],
      [null, null, null],
      ['mark', 'dia', 'length'],
      ['a', 4, 10],
      [null, null, null],
      ['length', 'dia', 'mark'],
      [8, 3, 'b'],
    );
    expect(items.map(({ mark, row }) => [mark, row])).toEqual([
      ['a', 4],
      ['b', 7],
    ]);
    expect(rows).toHaveLength(7);
  });
});

describe('a range without a heading row', () => {
  it('is diameter and length of pins where it has two columns, and is asked for a heading otherwise', () => {
    expect(read([4, 10], ['3-1/2', '250 mm']).items.map(({ sized }) => sized.operation.id)).toEqual(['PIN', 'PIN']);
    for (const rows of [[[4, 10, 2]], [['a', 4, 10]], [['a', 'b']], [[null]]] as const)
      expect(() => read(...rows)).toThrow('list has no heading row; it needs one such as mark, quantity, diameter');
  });

  it('may have a size twice only once', () => {
    expect(() => read(['dia', 'Ø', 'length'], [4, 4, 10])).toThrow('list has two columns headed "Ø"; keep one of them');
  });
});

describe('sizes of a row that look to be in the wrong unit', () => {
  const note = (...rows: readonly (readonly Cell[])[]): string =>
    String(call(findFunction('BURN.JOB.PLAN')!, [rows])[1]?.at(-1));
  const question = 'diameter 60 in is out of the usual: if mm was meant, write 60 mm';

  it('are asked about where they stand without a unit', () => {
    expect(note(['dia', 'length'], [60, 200])).toMatch(new RegExp(`^${question}`));
    expect(note(['dia', 'length'], ['60', '200 mm'])).toMatch(new RegExp(`^${question}`));
    expect(note(['dia', 'length'], [60, 400])).not.toContain('out of the usual');
  });

  const FUNCTIONS = ['PLAN', 'STOCK', 'SCHEDULE', 'COST', 'SHEET', 'BASIS', 'REPORT'] as const;
  const all = (...rows: readonly (readonly Cell[])[]): readonly string[] =>
    FUNCTIONS.map((name) =>
      call(findFunction(`BURN.JOB.${name}`)!, [rows, ...(name === 'COST' ? [[['crew', 150]]] : [])])
        .flat()
        .join('|'),
    );

  it('are asked about wherever the list is added up, by the mark', () => {
    const rows: Cell[][] = [
      ['mark', 'dia', 'length'],
      ['A', 4, 10],
      ['Swing lever', 60, 200],
    ];
    all(...rows).forEach((text, i) => expect(text, FUNCTIONS[i]).toContain(`Swing lever: ${question}`));
    expect(call(findFunction('BURN.CAUTIONS')!, [rows]).flat()).toContain(`Swing lever: ${question}`);
  });

  it('are told by the first of many', () => {
    const rows: Cell[][] = [
      ['mark', 'dia', 'length'],
      ['A', 4, 10],
      ...['b', 'c', 'd', 'e'].map((mark): Cell[] => [mark, 60, 200]),
    ];
    all(...rows).forEach((text, i) => expect(text, FUNCTIONS[i]).toContain(`4 rows, the first b: ${question}`));
  });

  it('are taken as they stand where they or their heading name the unit', () => {
    for (const rows of [
      [
        ['dia', 'length'],
        ['60 in', '200 in'],
      ],
      [
        ['dia, in', 'length (in)'],
        [60, 200],
      ],
      [
        ['dia mm', 'length mm'],
        [60, 200],
      ],
    ])
      expect(note(...rows)).not.toContain('out of the usual');
  });
});

describe('BURN.JOB.PLAN', () => {
  const plan = (...rows: readonly (readonly Cell[])[]): readonly (readonly Cell[])[] =>
    call(findFunction('BURN.JOB.PLAN')!, [rows]);
  const under = (table: readonly (readonly Cell[])[], heading: string): readonly Cell[] => {
    const at = table[0]!.findIndex((h) => String(h).split(',')[0] === heading);
    return table.slice(1).map((row) => row[at] ?? null);
  };

  it('has a row beside each row of the list, and says in its total what it leaves out', () => {
    const table = plan(
      ['mark', 'qty', 'dia', 'length', 'colour'],
      ['a', 2, 4, 10, 'red'],
      [null, null, null, null, null],
      ['b', 1, 4, null, null],
      ['c', 1, 3, 8, null],
      [null, null, null, null, null],
    );
    expect(under(table, 'mark')).toEqual(['a', null, 'b', 'c', '2 of 3 rows, 3 pieces; the others are left out']);
    expect(under(table, 'item')).toEqual([1, null, 2, 3, 'total']);
    expect(under(table, 'note').at(-1)).toMatch(
      /left out: b: length is blank or zero; must be more than 0; column "colour" is not read; nearest: /,
    );
    expect(under(table, 'note')[2]).toBe('b: length is blank or zero; must be more than 0');
  });

  it('gives of one piece what the plan of its operation gives', () => {
    const one = plan(['mark', 'operation', 'thk', 'length'], ['Rib', 'CUT', 2, 24]);
    const alone = call(findFunction('BURN.CUT.PLAN')!, [2, 24]);
    for (const heading of alone[0]!.slice(1)) {
      const name = String(heading).split(',')[0]!;
      expect(under(one, name)[0], name).toEqual(under(alone, name)[0]);
    }
  });

  it('multiplies by the pieces, whose range is narrower than so many times that of one', () => {
    const [four, one] = [plan(['qty', 'dia', 'length'], [4, 4, 10]), plan(['qty', 'dia', 'length'], [1, 4, 10])];
    for (const name of ['rods', 'oxygen', 'burning', 'crew', 'removed'])
      expect(under(four, name)[0], name).toBeCloseTo(4 * (under(one, name)[0] as number), 9);
    for (const name of ['tip pressure', 'flow', 'cooling', 'ram', 'regulator setting'])
      expect(under(four, name)[0], name).toBe(under(one, name)[0]);
    expect(under(four, 'oxygen high')[0]).toBeLessThan(4 * (under(one, 'oxygen high')[0] as number));
    expect(under(four, 'oxygen low')[0]).toBeGreaterThan(4 * (under(one, 'oxygen low')[0] as number));
  });

  it('counts cylinders down the list, with what the last of them still serves', () => {
    const table = plan(...Array.from({ length: 6 }, (): Cell[] => [5, 16]));
    const opened = under(table, 'cylinders so far') as number[];
    const left = under(table, 'left in cylinder') as number[];
    const oxygen = under(table, 'oxygen') as number[];
    opened.forEach((n, i) => i > 0 && expect(n).toBeGreaterThanOrEqual(opened[i - 1]!));
    expect(opened.at(-1)).toBe(opened.at(-2));
    const content = (left[0]! + oxygen[0]!) / opened[0]!;
    for (let i = 1, sum = oxygen[0]!; i < 6; i++) {
      sum += oxygen[i]!;
      expect(opened[i]! * content - sum).toBeCloseTo(left[i]!, 6);
    }
  });

  it('can be handed to BURN.CAUTIONS as the plan of an operation can', () => {
    const table = plan(['dia', 'length', 'material', 'condition'], [4, 10, 'stainless steel', 'confined']);
    const cautions = call(findFunction('BURN.CAUTIONS')!, ['PIN', undefined, table]).flat();
    expect(cautions).toContain('stainless steel');
    expect(cautions.filter((c) => c === 'left out')).toEqual([]);
  });
});
