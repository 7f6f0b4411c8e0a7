/** Calls of single plans that come faster than they are answered, as a host hands them over. */
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { hostCall } from '../../src/addin/associate.ts';
import { Gathered } from '../../src/addin/gathered.ts';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { planList } from '../../src/catalogue/plan-list.ts';
import { hostFunction } from '../../src/sheet/as-host-function.ts';
import { call, type Paused } from '../../src/sheet/call.ts';
import type { Argument, Cell, HostFunction } from '../../src/sheet/host-function.ts';
import { LONG_LISTS } from '../../src/sheet/long-lists.ts';
import { RowsAlike } from '../core/operations/rows-alike.ts';
import { PlayedPage } from './played-page.ts';

type Rows = readonly (readonly Cell[])[];

/** Twice a number, a millisecond each; a list of them notes what it was given, and leaves out what is negative. */
class Doubling {
  readonly page = new PlayedPage();
  readonly lists: (readonly Argument[])[] = [];
  readonly alone: Cell[] = [];
  readonly f: HostFunction;
  readonly gathered: Gathered<Rows>;

  constructor(inList?: HostFunction['inList']) {
    const { page, lists } = this;
    const parameter = (name: string, more = {}) => ({ name, summary: '', optional: false, example: '1', ...more });
    this.f = {
      name: 'BURN.TWICE',
      summary: '',
      parameters: [
        parameter('number'),
        parameter('rod', { optional: true }),
        parameter('assume', { optional: true, whole: true, apart: true }),
      ],
      call: () => [[]],
      inList:
        inList ??
        function* (list) {
          lists.push(list);
          for (const [at, [number]] of (list[0] as Rows).entries()) {
            page.time++;
            yield typeof number === 'number' && number >= 0 ? [at, [[2 * number]]] : undefined;
          }
        },
    };
    this.gathered = new Gathered(this.f, (args, rows) => this.result(args, rows), page.turns);
  }

  private *result([number]: readonly Argument[], rows?: Rows): Paused<Rows> {
    if (rows) return rows;
    yield;
    this.alone.push(number as Cell);
    return [[`alone ${String(number)}`]];
  }

  add(args: readonly Argument[], taken: { onCanceled?: () => void } = {}): Promise<Rows | undefined> | undefined {
    return this.gathered.add(args, taken);
  }

  wait(args: readonly Argument[], taken: { onCanceled?: () => void } = {}): Promise<Rows | undefined> {
    const promised = this.add(args, taken);
    if (!promised) throw new Error('it does not wait');
    return promised;
  }

  /** Uses this turn of the page up. */
  fill(): void {
    this.page.turns.isFull();
    this.page.time += 40;
  }

  async answers(...promised: readonly Promise<Rows | undefined>[]): Promise<readonly unknown[]> {
    for (let i = 0; i < 5; i++) this.page.turn();
    return (await Promise.all(promised)).map((rows) => rows?.[0]?.[0]);
  }
}

describe('calls of single items', () => {
  it('are not gathered while the turn has time: who asks alone waits for nothing', () => {
    expect(new Doubling().add([1, undefined, undefined])).toBeUndefined();
  });

  it('that wait for the next turn are worked out as one list, each given its own; what is the same for all stands once', async () => {
    const twice = new Doubling();
    twice.fill();
    const assume = (): Rows => [['stub', 3]];
    const all = [1, 2, 3].map((n) => twice.wait([[[n]], [['3/8']], assume()]));
    expect(twice.lists).toEqual([]);
    expect(await twice.answers(...all)).toEqual([2, 4, 6]);
    expect(twice.lists).toEqual([[[[1], [2], [3]], '3/8', assume()]]);
  });

  it('are apart where assumptions differ, or arguments are left out; they answer in the order they came', async () => {
    const twice = new Doubling();
    twice.fill();
    const [three, four]: Rows[] = [[['stub', 3]], [['stub', 4]]];
    const all = [
      twice.wait([1, undefined, three]),
      twice.wait([2, undefined, four]),
      twice.wait([3, undefined, three]),
      twice.wait([4, '3/8', four]),
      twice.wait([5, undefined, four]),
      twice.wait([6, null, four]),
    ];
    expect(await twice.answers(...all)).toEqual([2, 4, 6, 8, 10, 12]);
    expect(twice.lists).toEqual([
      [[[1], [3]], undefined, three],
      [[[2], [5]], undefined, four],
      [[[4], [6]], [['3/8'], [null]], four],
    ]);
  });

  it('are asked by themselves where their list has no row for them, and where nobody else waits', async () => {
    const twice = new Doubling();
    twice.fill();
    const all = [1, -2, 3].map((n) => twice.wait([n, undefined, undefined]));
    expect(await twice.answers(...all)).toEqual([2, 'alone -2', 6]);
    twice.fill();
    expect(await twice.answers(twice.wait([7, undefined, undefined]))).toEqual(['alone 7']);
    expect(twice.lists).toHaveLength(1);
  });

  it('are asked by themselves where their list fails half-way', async () => {
    const twice = new Doubling(function* () {
      yield [0, [['first']]];
      throw new Error('no more');
    });
    twice.fill();
    expect(await twice.answers(...[1, 2].map((n) => twice.wait([n, undefined, undefined])))).toEqual([
      'first',
      'alone 2',
    ]);
  });

  it('never wait with others where they are a list, a blank, an error or a truth value', () => {
    const twice = new Doubling();
    twice.fill();
    for (const number of [[[1], [2]], [[1, 2]], [], null, true, { error: '#N/A', message: '' }])
      expect(twice.add([number, undefined, undefined])).toBeUndefined();
    expect(twice.add([1, [[null]], undefined])).toBeInstanceOf(Promise);
  });

  it('that the host takes back drop out, and a list that nobody wants stops', async () => {
    const twice = new Doubling();
    twice.fill();
    const taken = Array.from({ length: 200 }, (): { onCanceled?: () => void } => ({}));
    const all = taken.map((each, n) => twice.wait([n, undefined, undefined], each));
    taken[1]!.onCanceled!();
    twice.page.turn();
    expect(twice.lists[0]![0]).toHaveLength(199);
    const begun = twice.page.time;
    for (const each of taken) each.onCanceled!();
    for (let i = 0; i < 5; i++) twice.page.turn();
    expect(twice.page.time).toBe(begun + 5 * 4);
    const answers = await Promise.all(all);
    expect(answers[0]).toEqual([[0]]);
    expect(answers[1]).toBeUndefined();
    expect(answers.at(-1)).toBeUndefined();

    twice.fill();
    const gone: { onCanceled?: () => void } = {};
    void twice.wait([1, undefined, undefined], gone);
    gone.onCanceled!();
    expect(await twice.answers(...[2, 3].map((n) => twice.wait([n, undefined, undefined])))).toEqual([4, 6]);
  });

  it('go on as one list while others are answered, and wait a little for the pane', () => {
    const twice = new Doubling();
    twice.fill();
    for (let n = 0; n < 500; n++) void twice.add([n, undefined, undefined]);
    twice.page.turn();
    expect(twice.page.turns.run(twice.page.steps('short', 3))).toBeInstanceOf(Promise);
    expect(twice.page.turn()).toEqual({ short: 3 });
    twice.page.turns.giveWay();
    const before = twice.page.time;
    twice.page.turn();
    expect(twice.page.time).toBe(before + 4);
  });
});

const FEW: Rows = [
  ['name', 'value', 'low', 'high', 'unit'],
  ['crew price', 190, 150, 230, null],
  ['stub', 4, null, null, null],
  [null, null, null, null, null],
];
const OTHER: Rows = [
  ['name', 'value'],
  ['flow factor', 1.05],
];
/** No two alike. */
const between = (low: number, high: number, i: number, step: number): number => low + (high - low) * ((i * step) % 1);
const [GOLDEN, PLASTIC] = [0.618033988749895, 0.754877666246693];

interface Asked {
  readonly id: string;
  readonly args: readonly unknown[];
  readonly addresses?: readonly (string | null)[];
}

/** A recalculation: mostly pins, with some of everything else among them. */
function asked(i: number): Asked {
  const pin = [[[between(2, 6.8, i, GOLDEN)]], [[between(5, 24, i, PLASTIC)]]];
  const rest = [null, null, null];
  const assume = i % 3 === 0 ? OTHER : FEW;
  switch (i % 50) {
    case 3:
      return { id: 'PIN', args: [[['wide']], pin[1], ...rest, assume] };
    case 5:
      return { id: 'PIN', args: [[['']], [['']], ...rest, assume] };
    case 7:
      return { id: 'PIN', args: [[[0]], pin[1], ...rest, assume], addresses: ['A1', 'B1', null, null, null, 'E1:I4'] };
    case 9:
      return { id: 'PIN', args: [pin[0], [[-4]], ...rest, assume] };
    case 11:
      return { id: 'PIN', args: [[['4 in']], [['250 mm']], ...rest, assume] };
    case 13:
      return { id: 'PIN', args: [[[{ code: '#DIV/0!' }]], pin[1], ...rest, assume] };
    case 15:
      return { id: 'PIN', args: [...pin, null, [['no such rod']], null, assume] };
    case 17:
      return { id: 'PIN', args: [...pin, null, [['3/8 x 36']], [[i % 100 === 17 ? '' : 'stainless steel']], assume] };
    case 19:
      return { id: 'PIN', args: [...pin, ...rest, null] };
    case 21:
      return { id: 'PIN', args: [...pin, ...rest, [['name'], ['no such assumption']]] };
    case 23:
      return { id: 'HOLE', args: [[[between(0.8, 2, i, GOLDEN)]], [[between(2, 20, i, PLASTIC)]], null, null, assume] };
    case 25:
      return { id: 'CUT', args: [[[between(0.5, 4, i, GOLDEN)]], [[24]], null, null, assume] };
    case 27:
      return { id: 'PIN', args: [[[4], [5]], [[10]], ...rest, assume] };
    case 29:
      // Wider than any hose feeds, so that a figure of the row is an error.
      return { id: 'PIN', args: [[[11.5]], [[60 + i / 100]], ...rest, assume] };
    default:
      return { id: 'PIN', args: [...pin, ...rest, assume] };
  }
}

class HostError extends Error {
  constructor(
    readonly code: string,
    message: string,
  ) {
    super(message);
  }
}

describe('a recalculation of 3,000 mixed plans', () => {
  const before = { ...LONG_LISTS };
  beforeAll(() => {
    vi.stubGlobal('CustomFunctions', {
      Error: HostError,
      ErrorCode: { notAvailable: '#N/A', invalidValue: '#VALUE!' },
    });
    LONG_LISTS.work = planList;
  });
  afterAll(() => {
    vi.unstubAllGlobals();
    delete LONG_LISTS.work;
    Object.assign(LONG_LISTS, before);
  });

  it('gives each cell what it gives by itself, but for what a long list reads between points', async () => {
    const count = 3000;
    const taken = 1234;
    const called = new Map<string, ReturnType<typeof hostCall>>();
    let inList = 0;
    for (const id of ['PIN', 'HOLE', 'CUT']) {
      const f = hostFunction(findFunction(`BURN.${id}.PLAN`)!);
      const counted: HostFunction = {
        ...f,
        *inList(list) {
          for (const made of f.inList!(list)) {
            if (made) inList++;
            yield made;
          }
        },
      };
      called.set(id, hostCall(counted));
    }
    const outcome = async (made: () => unknown): Promise<unknown> => {
      try {
        return await made();
      } catch (e) {
        return e;
      }
    };
    const all = await Promise.all(
      Array.from({ length: count }, (_, i) => {
        const { id, args, addresses } = asked(i);
        const invocation: { parameterAddresses: unknown; onCanceled?: () => void } = {
          parameterAddresses: addresses ?? null,
        };
        const result = outcome(() => called.get(id)!(...structuredClone(args), invocation));
        if (i === taken) invocation.onCanceled!();
        return result;
      }),
    );
    expect(inList).toBeGreaterThan(2000);

    const alike = new RowsAlike(false);
    // Spread over the whole, and all that is out of the ordinary.
    for (let i = 0; i < count; i++) {
      if (i % 50 >= 30 && i % 15 > 0) continue;
      const { id, args, addresses } = asked(i);
      const found = all[i];
      const where = `${id} ${i}`;
      if (i === taken) {
        expect(found).toBeInstanceOf(HostError);
        continue;
      }
      const alone = call(findFunction(`BURN.${id}.PLAN`)!, asHandedOver(args, addresses));
      const [heading, row] = alone;
      if (alone.length !== 2) {
        expect(found, where).toEqual(
          alone.length === 1 ? shown(alone[0]![0]!) : alone.map((cells) => cells.map(shown)),
        );
        continue;
      }
      const rows = found as readonly (readonly unknown[])[];
      expect(rows, where).toHaveLength(2);
      expect(rows[0], where).toEqual(heading);
      if (row!.some((cell) => typeof cell === 'object')) expect(rows[1], where).toEqual(row!.map(shown));
      else alike.compare(id, where, rows[1]!, row!.map(shown) as Cell[]);
    }
    expect(alike.read).toBeGreaterThan(300);
    alike.check();
  });
});

/** A cell as the host is given it. */
function shown(cell: Cell): unknown {
  if (cell === null) return '';
  if (typeof cell !== 'object') return cell;
  return new HostError(cell.error === '#N/A' ? '#N/A' : '#VALUE!', cell.message);
}

function asHandedOver(args: readonly unknown[], addresses?: readonly (string | null)[]): readonly Argument[] {
  return args.map((arg, k) =>
    arg === null
      ? undefined
      : (arg as readonly (readonly unknown[])[]).map((row) =>
          row.map((cell): Cell => {
            if (cell === '' || (cell === 0 && addresses?.[k])) return null;
            return typeof cell === 'object' && cell !== null
              ? { error: (cell as { code: string }).code, message: '' }
              : (cell as Cell);
          }),
        ),
  );
}
