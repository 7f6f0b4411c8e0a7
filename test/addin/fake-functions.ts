/** Stands in for the catalogue, so that the adapter's behaviour shows by itself. */
import type { Cell, HostFunction } from '../../src/sheet/host-function.ts';

const parameter = (name: string, optional = false): HostFunction['parameters'][number] => ({
  name,
  summary: `the ${name}`,
  optional,
  example: '1',
});

export const hostFunctions: readonly HostFunction[] = [
  {
    name: 'BURN.ARGUMENTS',
    summary: 'What arrived, as text',
    parameters: [parameter('first'), parameter('second', true), parameter('third', true)],
    call: (args) => [
      [JSON.stringify(args, (_, value: unknown) => value ?? null)],
      [args.map((a) => typeof a).join(' ')],
    ],
  },
  {
    name: 'BURN.ROW.HALVES',
    summary: 'Half of each number; negative numbers fail, texts fail otherwise, blanks stay blank',
    parameters: [parameter('numbers')],
    call: ([cells]) => (cells as readonly (readonly Cell[])[]).map((row) => row.map(half)),
  },
  {
    name: 'BURN.ROW.ZEROS',
    summary: 'What arrived where a 0 cannot be meant, as text',
    parameters: [{ ...parameter('first'), zeroIsBlank: true }],
    call: ([cells]) => [[JSON.stringify(cells)]],
  },
  {
    name: 'BURN.ROW.COUNT',
    summary: 'How many rows',
    parameters: [parameter('cells')],
    call: ([cells]) => [[(cells as readonly unknown[]).length]],
  },
];

function half(cell: Cell): Cell {
  if (cell === null) return null;
  if (typeof cell === 'object') return { error: cell.error, message: `came in as ${cell.error}` };
  if (typeof cell !== 'number') return { error: '#N/A', message: `"${String(cell)}" is unknown` };
  return cell < 0 ? { error: '#VALUE!', message: `${cell} is negative` } : cell / 2;
}
