import { findFunction } from '../catalogue/catalogue.ts';
import type { Declaration } from '../catalogue/declaration.ts';
import { itemsOfCall } from '../catalogue/items-of-call.ts';
import { CalcError } from '../core/errors.ts';
import { cautionsOf, type RaisedCaution } from '../core/safety/cautions.ts';
import type { Item } from '../core/safety/item.ts';
import { givenItem, itemCount } from '../sheet/call.ts';
import { SharedBases } from '../sheet/shared-bases.ts';
import type { Argument } from '../sheet/host-function.ts';
import type { FormulaAt, LookedAt } from './looked-at.ts';
import type { Call } from '../formula/read-formula.ts';
import type { Place } from './workbook.ts';

/** A caution of the whole workbook with the cells whose work brings it up. */
export interface CautionOfCells {
  readonly caution: RaisedCaution;
  readonly cells: readonly Place[];
}

/** Calls, and items of a call, that are looked at one by one; what is beyond them has its function's own cautions. */
const MOST_CALLS = 3_000;
const MOST_ITEMS = 300;

/** The cautions of all work in the workbook, each named once. */
export function cautionsOfWorkbook(look: LookedAt): readonly CautionOfCells[] {
  const known = new Map<string, readonly Item[]>();
  // Most rows of a list say the same.
  const keysOf = new Map<string, readonly string[]>();
  const shared = new SharedBases();
  const cellsOf = new Map<string, Place[]>();
  let calls = 0;
  for (const f of look.formulas) {
    const keys = new Set<string>();
    for (const call of f.read.calls) {
      const args = ++calls > MOST_CALLS ? undefined : argumentsGiven(look, f, call);
      const key = `${call.name} ${JSON.stringify(args)}`;
      const items = known.get(key) ?? itemsOf(call.name, args, shared);
      known.set(key, items);
      const alike = JSON.stringify(items);
      const found = keysOf.get(alike) ?? cautionsOf(items).map((c) => c.key);
      keysOf.set(alike, found);
      for (const each of found) keys.add(each);
    }
    const { sheet, row, column } = f;
    for (const key of keys) {
      const cells = cellsOf.get(key) ?? [];
      cellsOf.set(key, cells);
      cells.push({ sheet, row, column });
    }
  }
  return cautionsOf([...known.values()].flat()).map((caution) => ({ caution, cells: cellsOf.get(caution.key) ?? [] }));
}

function itemsOf(name: string, args: readonly Argument[] | undefined, shared: SharedBases): readonly Item[] {
  const d = findFunction(name);
  // A listing or a version is about no work.
  if (!d || (Object.keys(d.parameters).length === 0 && d.about === undefined)) return [];
  return args === undefined ? itemsOfCall(d) : itemsGiven(d, args, shared);
}

function itemsGiven(d: Declaration, args: readonly Argument[], shared: SharedBases): readonly Item[] {
  const each = (item: number): readonly Item[] => {
    try {
      return itemsOfCall(d, givenItem(d, args, item, shared));
    } catch (e) {
      // A row that fails, or is not filled in yet, says so itself.
      if (e instanceof CalcError) return [];
      throw e;
    }
  };
  try {
    const items = Array.from({ length: Math.min(itemCount(d, args), MOST_ITEMS) }, (_, i) => i).flatMap(each);
    return items.length > 0 ? items : itemsOfCall(d);
  } catch (e) {
    if (e instanceof CalcError) return itemsOfCall(d);
    throw e;
  }
}

/** What the arguments of a call hold; undefined where one is a formula of its own or too large. */
function argumentsGiven(look: LookedAt, f: FormulaAt, call: Call): readonly Argument[] | undefined {
  const given: Argument[] = [];
  for (const argument of call.arguments) {
    if (argument.kind === 'blank') {
      given.push(undefined);
      continue;
    }
    const slot = argument.kind === 'slot' ? f.read.slots[argument.slot] : undefined;
    if (!slot) return undefined;
    if (!slot.reference) {
      if (slot.value === undefined) return undefined;
      given.push(slot.value);
      continue;
    }
    const sheet = look.sheetOf(slot.reference, f);
    const grid = sheet === undefined ? undefined : look.grid(sheet, slot.reference.area);
    if (!grid) return undefined;
    given.push(grid.length === 1 && grid[0]?.length === 1 ? (grid[0][0] ?? null) : grid);
  }
  return given;
}
