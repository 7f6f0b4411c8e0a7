import type { Basis } from '../core/basis.ts';
import type { CalcError } from '../core/errors.ts';
import { CHANNELS, type LogJob } from '../core/job/log-job.ts';
import * as messages from '../core/messages.ts';
import { OPERATION_IDS, operationOf, type OperationId } from '../core/operations/all.ts';
import { cylinderContent } from '../core/oxygen/cylinder-content.ts';
import type { QuantityName } from '../core/units/quantities.ts';
import { showQuantity } from '../core/units/show-quantity.ts';
import { isBlankOrZero } from './cell.ts';
import { parameterLabel, type QuantityKind } from './declaration.ts';
import { readRangeCell } from './read-cell.ts';
import { sizeRow } from './read-items.ts';
import {
  cellUnder,
  quantityUnder,
  readRows,
  readTable,
  type Cells,
  type Heading,
  type TableRow,
} from './read-table.ts';

/** Every size of every operation, by its label. */
const SIZES: readonly string[] = [...new Set(OPERATION_IDS.flatMap((id) => operationOf(id).order))];

/** Columns of a log by every name they may be headed by. */
export const LOG_COLUMNS: Readonly<Record<string, readonly string[]>> = {
  job: ['job', 'no.', 'no', 'number'],
  name: ['name', 'pin', 'item', 'where'],
  operation: ['operation'],
  ...Object.fromEntries(SIZES.map((name) => [name, [parameterLabel(name), ...(name === 'hole' ? ['bore'] : [])]])),
  rod: ['rod'],
  material: ['material'],
  'rods used': ['rods used', 'rods'],
  'oxygen used': ['oxygen used', 'oxygen'],
  'gauge before': ['gauge before', 'pressure before', 'cylinder before'],
  'gauge after': ['gauge after', 'pressure after', 'cylinder after'],
  temperature: ['temperature', 'temperature before', 'cylinder temperature'],
  'temperature after': ['temperature after'],
  cylinders: ['cylinders', 'cylinders read'],
  'burning minutes': ['burning minutes', 'burn minutes', 'burning time', 'burn time', 'burning', 'burn'],
  'crew minutes': ['crew minutes', 'crew time', 'crew'],
};

const positive = (quantity: QuantityName): QuantityKind => ({ kind: 'quantity', quantity, above: 0 });
const atLeastNothing = (quantity: QuantityName): QuantityKind => ({ kind: 'quantity', quantity, min: 0 });

/**
 * Finished jobs of a log: a heading row names the columns, any figure may be blank, rows below it are jobs.
 *
 * Oxygen used comes from its own column, else from the gauge before and after with the temperature of the gas, through
 * the real gas, for `cylinders` cylinders of the assumed water volume read together. A row without sizes is passed over,
 * one without any figure is sized and counts for nothing.
 */
export function readLog(
  cells: Cells,
  basis: Basis,
): { readonly jobs: readonly LogJob[]; readonly bad: readonly CalcError[] } {
  const filled = readTable('log', cells, LOG_COLUMNS, []).filter((row) =>
    SIZES.some((name) => !isBlankOrZero(cellUnder(row, name))),
  );
  if (filled.length === 0) return { jobs: [], bad: [] };
  const { good, bad } = readRows(
    'log',
    filled,
    (r) => r.row,
    (r) => logJob(r, basis),
  );
  return { jobs: good, bad };
}

function logJob(row: TableRow, basis: Basis): LogJob {
  const { system } = basis.a;
  const word = readRangeCell(
    cellUnder(row, 'operation'),
    'operation',
    { kind: 'choice', choices: OPERATION_IDS },
    system,
  ) as OperationId | undefined;
  const operation = operationOf(word ?? 'PIN');
  const headings = new Map<string, Heading>([...row.columns].map(([name, { heading }]) => [name, heading]));
  const sizing = sizeRow(operation, (name) => cellUnder(row, name), headings, basis);
  const [rods, oxygen, burning, crew] = [
    quantityUnder(row, 'rods used', positive('count'), system),
    quantityUnder(row, 'oxygen used', positive('oxygen'), system) ?? oxygenByGauge(row, basis),
    quantityUnder(row, 'burning minutes', positive('time'), system),
    quantityUnder(row, 'crew minutes', positive('time'), system),
  ];
  if (burning !== undefined && crew !== undefined && burning > crew) {
    throw messages.tooHigh(
      'burning minutes',
      showQuantity(burning, 'time', system),
      `the crew minutes of ${showQuantity(crew, 'time', system)}`,
    );
  }
  const label =
    [cellUnder(row, 'job'), cellUnder(row, 'name')]
      .flatMap((c) => ((typeof c === 'number' || typeof c === 'string') && !isBlankOrZero(c) ? [String(c).trim()] : []))
      .find((text) => text !== '') ?? `row ${row.row}`;
  return {
    row: row.row,
    label,
    operation,
    sizing,
    noted: { rods, oxygen, burning, crew } satisfies Record<(typeof CHANNELS)[number], number | undefined>,
  };
}

/** Oxygen [kg] that left the cylinders between two readings; undefined where one of them is missing. */
function oxygenByGauge(row: TableRow, { a }: Basis): number | undefined {
  const { system } = a;
  const before = quantityUnder(row, 'gauge before', positive('pressure'), system);
  const after = quantityUnder(row, 'gauge after', atLeastNothing('pressure'), system);
  if (before === undefined || after === undefined) return undefined;
  const temperature: QuantityKind = { kind: 'quantity', quantity: 'temperature' };
  const warm = quantityUnder(row, 'temperature', temperature, system) ?? a.value('gas temperature');
  const settled = quantityUnder(row, 'temperature after', temperature, system) ?? warm;
  const cylinders = quantityUnder(row, 'cylinders', { ...positive('count'), whole: true }, system) ?? 1;
  const air = a.value('air pressure');
  const volume = cylinders * a.value('cylinder volume');
  const used = cylinderContent(volume, before + air, warm) - cylinderContent(volume, after + air, settled);
  if (!(used > 0))
    throw messages.mustBeLess(
      'gauge after',
      showQuantity(after, 'pressure', system),
      `gauge before, ${showQuantity(before, 'pressure', system)}, at these temperatures`,
    );
  return used;
}
