import type { Argument, Cell, HostFunction } from '../../src/sheet/host-function.ts';

const isError = (cell: Argument): cell is Extract<Cell, { error: string }> =>
  typeof cell === 'object' && cell !== null && 'error' in cell;
const rows = (argument: Argument): readonly (readonly Cell[])[] =>
  Array.isArray(argument) ? (argument as readonly (readonly Cell[])[]) : [[(argument ?? null) as Cell]];
const bad = (error: string, message: string): Cell => ({ error, message });
const parameter = (name: string, optional = false) => ({ name, summary: `what ${name} is`, optional, example: '1' });

/** Functions invented for the tests of the adapters; they mean nothing. */
export const inventedFunctions: readonly HostFunction[] = [
  {
    name: 'BURN.ECHO',
    summary: 'Says what it was called with',
    parameters: 'abcdefgh'.split('').map((name) => parameter(name, true)),
    call: (args) => [[JSON.stringify(args.map((a) => (a === undefined ? 'omitted' : a)))]],
  },
  {
    name: 'BURN.DOUBLE',
    summary: 'Doubles each number; a blank stays blank, a text and a negative fail alone',
    parameters: [parameter('x')],
    call: ([x]) =>
      rows(x).map((row) =>
        row.map((cell) => {
          if (cell === null || isError(cell)) return cell;
          if (typeof cell !== 'number') return bad('#VALUE!', `x is "${String(cell)}"; must be a number`);
          return cell < 0 ? bad('#N/A', `x is ${cell}; must be 0 or more`) : 2 * cell;
        }),
      ),
  },
  {
    name: 'BURN.TABLE',
    summary: 'A heading and some rows',
    parameters: [parameter('count'), parameter('columns', true)],
    call: ([count, columns]) =>
      [['item', 'value'], ...Array.from({ length: Number(count) }, (_, i): Cell[] => [`row ${i + 1}`, i + 1])].map(
        (row) => (columns === undefined ? row : row.slice(0, Number(columns))),
      ),
  },
  {
    name: 'BURN.SEEN.SIZE',
    summary: 'Rows and columns of a range',
    parameters: [parameter('range')],
    call: ([range]) => [[`${rows(range).length} x ${rows(range)[0]?.length ?? 0}`]],
  },
  {
    name: 'BURN.KINDS',
    summary: 'One of each kind of value',
    parameters: [],
    call: () => [[1.5, 'text', true, null, bad('#VALUE!', 'a reason'), Number.POSITIVE_INFINITY]],
  },
  {
    name: 'BURN.THROWS',
    summary: 'Breaks its promise',
    parameters: [parameter('x', true)],
    call: () => {
      throw new TypeError('not so');
    },
  },
];
