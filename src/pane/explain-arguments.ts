import { isBlankCell, type Cell } from '../catalogue/cell.ts';
import type { Declaration, Kind } from '../catalogue/declaration.ts';
import type { Material } from '../core/burn/materials.ts';
import { rodName, type RodChoice } from '../core/burn/rods.ts';
import { CalcError } from '../core/errors.ts';
import type { CylinderChoice } from '../core/oxygen/cylinder-sizes.ts';
import { showQuantity } from '../core/units/show-quantity.ts';
import type { UnitSystem } from '../core/units/quantities.ts';
import { asGrid, cellAt, shapeOf, shapeText, type Grid } from '../sheet/broadcast.ts';
import { hostFunction } from '../sheet/as-host-function.ts';
import { readCell } from '../catalogue/read-cell.ts';
import type { ExplainedArgument } from './explained.ts';
import type { ReadOperand } from './resolve-operands.ts';
import { showCell } from './show-cell.ts';

/** Each argument of the call with what came for one item, at `row` and `column` of the spill, and how it was taken. */
export function explainArguments(
  d: Declaration,
  operands: readonly ReadOperand[],
  row: number,
  column: number,
  system: UnitSystem,
): readonly ExplainedArgument[] {
  const kinds = Object.values(d.parameters).map((p) => p.kind);
  return hostFunction(d).parameters.map(({ name, summary }, i) => {
    const operand = operands[i];
    const text = operand?.operand.text ?? '';
    if (operand?.problem !== undefined)
      return { label: name, summary, text, came: undefined, taken: undefined, problem: operand.problem };
    const grid = asGrid(operand?.argument);
    const kind = kinds[i];
    if (!grid || (!kind && isOneBlank(grid))) return { label: name, summary, text, came: undefined, taken: undefined };
    if (!kind || kind.kind === 'cells')
      return { label: name, summary, text, came: shapeText(shapeOf(grid)), taken: undefined };
    const cell = cellAt(grid, row, column);
    return {
      label: name,
      summary,
      text,
      came: isBlankCell(cell) ? undefined : showCell(cell),
      taken: taken(cell, name, kind, system),
    };
  });
}

const isOneBlank = (grid: Grid): boolean =>
  grid.length === 1 && grid[0]?.length === 1 && isBlankCell(grid[0][0] ?? null);

/** The value with its unit or full name; undefined where the cell is blank or cannot be read: the call's own error says why. */
function taken(cell: Cell, label: string, kind: Kind, system: UnitSystem): string | undefined {
  let value;
  try {
    value = readCell(cell, label, kind, system);
  } catch (e) {
    if (e instanceof CalcError) return undefined;
    throw e;
  }
  if (value === undefined) return undefined;
  if (kind.kind === 'quantity') return showQuantity(value as number, kind.quantity, system);
  if (kind.kind === 'rod') {
    const { rod, length, coupled } = value as RodChoice;
    return rodName(rod, length, coupled);
  }
  if (kind.kind === 'material') return (value as Material).name;
  if (kind.kind === 'cylinder') return showQuantity((value as CylinderChoice).volume, 'capacity', system);
  return typeof value === 'string' ? value : undefined;
}
