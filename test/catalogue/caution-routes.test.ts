/** One item, one answer: whatever brings a caution or something to wear brings it on every route, or on none. */
import { describe, expect, it } from 'vitest';
import { findFunction } from '../../src/catalogue/catalogue.ts';
import { isCellError, type Cell } from '../../src/catalogue/cell.ts';
import { MATERIAL_NAMES } from '../../src/core/assumptions/material-names.ts';
import { CAUTIONS } from '../../src/core/safety/cautions.ts';
import { operationOf, OPERATION_IDS, type OperationId } from '../../src/core/operations/all.ts';
import { explainItem } from '../../src/pane/explain-item.ts';
import { readCall } from '../../src/pane/read-call.ts';
import { call } from '../../src/sheet/call.ts';
import type { Argument } from '../../src/sheet/host-function.ts';
import { SharedBases } from '../../src/sheet/shared-bases.ts';
import {
  BY_ASSUMPTION,
  BY_CONDITION,
  BY_MATERIAL,
  BY_OPERATION,
  BY_ROD,
  EVERY,
  WORN_ALWAYS,
  WORN_BY_ASSUMPTION,
  WORN_BY_CONDITION,
  WORN_BY_MATERIAL,
  WORN_BY_OPERATION,
} from '../core/safety/what-must-come-up.ts';
import { selected } from '../pane/memory-sheet.ts';

type Table = readonly (readonly Cell[])[];

/** Sizes that every rod tried here and every material can do. */
const SIZES: Readonly<Record<OperationId, readonly number[]>> = {
  PIN: [8, 10, 5],
  HOLE: [4, 10],
  GOUGE: [1.5, 0.5, 10],
  CUT: [1, 10],
  STUD: [3, 2],
  BREACH: [10, 4, 1],
};
const SHORT = '3/8 x 36';

const declared = (name: string): NonNullable<ReturnType<typeof findFunction>> => {
  const d = findFunction(name);
  if (!d) throw new Error(name);
  return d;
};
/** As in a host: cells share what they have worked out with the same assumptions. */
const shared = new SharedBases();
function cells(name: string, args: readonly Argument[]): Table {
  const results = call(declared(name), args, undefined, shared);
  shared.tidy();
  const failed = results.length === 1 && results[0]?.length === 1 ? results[0][0] : undefined;
  if (failed !== undefined && isCellError(failed)) throw new Error(`${name}: ${failed.message}`);
  return results;
}
/** A column of a table with a heading row, by what stands before the comma. */
const column = (table: Table, heading: string): readonly string[] => {
  const at = table[0]?.findIndex((h) => String(h).split(',')[0] === heading) ?? -1;
  expect(at, heading).toBeGreaterThanOrEqual(0);
  return table.slice(1).map((row) => String(row[at]));
};

const sorted = (texts: Iterable<string>): readonly string[] => [...new Set(texts)].sort();
const keyOf = (title: string): string => CAUTIONS.find((c) => c.title === title)?.key ?? `no caution: ${title}`;

interface Item {
  readonly operation: OperationId;
  readonly material?: string;
  readonly rod?: string;
  readonly conditions?: readonly string[];
  readonly assume?: Argument;
}

const plans = new Map<string, Table>();
/** The conditions of the place are no part of a plan, so that one serves them all. */
function planOf({ operation, rod = SHORT, material, assume }: Item): Table {
  const args = [...SIZES[operation], rod, material, assume];
  const key = `${operation} ${JSON.stringify(args)}`;
  const plan = plans.get(key) ?? cells(`BURN.${operation}.PLAN`, args);
  plans.set(key, plan);
  return plan;
}
/** The item as a job list of one row. */
const listOf = ({ operation, rod = SHORT, material }: Item): Argument => [
  ['operation', ...operationOf(operation).order, 'rod', 'material'],
  [operation, ...SIZES[operation], rod, material ?? null],
];
const list = ({ conditions = [] }: Item): Argument => (conditions.length > 0 ? conditions.map((c) => [c]) : undefined);
const section = (sheet: Table, name: string): Table => {
  const from = sheet.findIndex((row) => row[0] === name);
  const length = sheet.slice(from + 1).findIndex((row) => row[0] !== '');
  return sheet.slice(from, from + 1 + length);
};
const inPane = (name: string, args: readonly Argument[]): readonly string[] => {
  const d = declared(name);
  const read = readCall(
    d,
    `${name}()`,
    true,
    args.map((argument) => ({ operand: { kind: 'reference', text: 'A1' }, argument })),
  );
  return explainItem(read, 0, selected(`=${name}()`)).cautions.map((c) => c.key);
};

/** The named cautions of a plan's cell, and how many more it speaks of. */
function planCell(plan: Table): { readonly named: readonly string[]; readonly more: number } {
  const [cell = ''] = column(plan, 'cautions');
  const more = /; (\d+) more in BURN\.CAUTIONS$/.exec(cell);
  return { named: cell.replace(/;[^;]*$/, '').split(', '), more: Number(more?.[1] ?? 0) };
}

/** The cautions of a sheet: those told in full, and those named in one line. */
function sheetCautions(sheet: Table): readonly string[] {
  return section(sheet, 'Cautions').flatMap(([, what, , note]) =>
    what === 'and with every such job' ? (String(note).split(':')[0] ?? '').split(', ') : [keyOf(String(what))],
  );
}
const sheetWear = (sheet: Table): readonly string[] =>
  section(sheet, 'To wear').map((row) => String(row[3]).replace(/^against /, ''));

/** The cautions of one item by every route there is, those of its own plan first. */
function routes(item: Item, plan: Table, sheet: Table): Readonly<Record<string, readonly string[]>> {
  const { operation, rod = SHORT, material, assume } = item;
  const own = [...SIZES[operation], rod, material, assume];
  const row: Argument = [[...SIZES[operation], rod, material ?? null]];
  const given = list(item);
  const ofRow = [operation, given, row, assume];
  const ofPlan = [operation, given, plan, undefined];
  const titles = (args: readonly Argument[]): readonly string[] =>
    column(cells('BURN.CAUTIONS', args), 'caution').map(keyOf);
  return {
    'BURN.CAUTIONS of the sizes': titles(ofRow),
    'BURN.CAUTIONS of the plan': titles(ofPlan),
    'BURN.CAUTIONS of the list': titles([listOf(item), given, undefined, assume]),
    'BURN.JOB.SHEET of the list': sheetCautions(sheet),
    'pane on BURN.CAUTIONS of the sizes': inPane('BURN.CAUTIONS', ofRow),
    'pane on BURN.CAUTIONS of the plan': inPane('BURN.CAUTIONS', ofPlan),
    'pane on BURN.PPE.LIST': inPane('BURN.PPE.LIST', ofPlan),
    'pane on BURN.JOB.SHEET': inPane('BURN.JOB.SHEET', [listOf(item), given, undefined, assume]),
    // No argument of these says how the place is.
    ...(given === undefined
      ? {
          'pane on PLAN': inPane(`BURN.${operation}.PLAN`, own),
          'pane on OXYGEN': inPane(`BURN.${operation}.OXYGEN`, own),
          'pane on STEPS': inPane(`BURN.${operation}.STEPS`, own),
          'pane on BURN.JOB.PLAN': inPane('BURN.JOB.PLAN', [listOf(item), assume]),
          'pane on BURN.SPREAD': inPane('BURN.SPREAD', [operation, row, 'oxygen', 90, assume]),
        }
      : {}),
  };
}

function expectEverywhere(item: Item, cautions: readonly string[], worn: readonly string[]): void {
  const { operation } = item;
  const all = sorted([...EVERY, ...BY_OPERATION[operation], ...cautions]);
  const plan = planOf(item);
  const sheet = cells('BURN.JOB.SHEET', [listOf(item), list(item), undefined, item.assume]);
  for (const [route, keys] of Object.entries(routes(item, plan, sheet))) expect(sorted(keys), route).toEqual(all);
  const wear = sorted([...WORN_ALWAYS, ...(WORN_BY_OPERATION[operation] ?? []), ...worn]);
  const row: Argument = [[...SIZES[operation], item.rod ?? SHORT, item.material ?? null]];
  for (const [route, args] of [
    ['sizes', [operation, list(item), row, item.assume]],
    ['plan', [operation, list(item), plan]],
    ['list', [listOf(item), list(item), undefined, item.assume]],
  ] as const)
    expect(sorted(column(cells('BURN.PPE.LIST', args), 'against')), `BURN.PPE.LIST of the ${route}`).toEqual(wear);
  expect(sorted(sheetWear(sheet)), 'BURN.JOB.SHEET, to wear').toEqual(wear);

  if (item.conditions === undefined) {
    const { named, more } = planCell(plan);
    expect(
      named.filter((key) => !all.includes(key)),
      'named in the plan',
    ).toEqual([]);
    expect(new Set(named).size + more, 'named in the plan, and more').toBe(all.length);
    for (const c of CAUTIONS)
      if (all.includes(c.key) && c.severity === 'can kill') expect(named, 'named in the plan').toContain(c.key);
    // The others come with the operation alone.
    const alone = column(cells('BURN.CAUTIONS', [operation]), 'caution').map(keyOf);
    const others = all.filter((key) => !named.includes(key));
    expect(others.filter((key) => !alone.includes(key))).toEqual([]);
    expect(others).toHaveLength(more);
  }
}

/** The word of `assume` that names what an operation goes through. */
const materialWord = (operation: OperationId): string => (operation === 'BREACH' ? 'breach material' : 'material');
const steel = (operation: OperationId): Item => ({ operation, material: 'carbon steel' });

describe.each(OPERATION_IDS)('%s has the same cautions and the same to wear on every route', (operation) => {
  it.each(MATERIAL_NAMES)('in %s', (material) => {
    const [cautions, worn] = [BY_MATERIAL[material] ?? [], WORN_BY_MATERIAL[material] ?? []];
    expectEverywhere({ operation, material }, cautions, worn);
    expectEverywhere({ operation, assume: [[materialWord(operation), material]] }, cautions, worn);
  });

  it.each(MATERIAL_NAMES)('in %s by assume, with BURN.CAUTIONS and BURN.PPE.LIST of no item', (material) => {
    const assume: Argument = [[materialWord(operation), material]];
    const args: readonly Argument[] = [operation, undefined, undefined, assume];
    // A bar may be picked for concrete and rock.
    const bar = ['concrete', 'reinforced concrete', 'rock'].includes(material) ? ['long bar'] : [];
    const all = sorted([...EVERY, ...BY_OPERATION[operation], ...(BY_MATERIAL[material] ?? []), ...bar]);
    expect(sorted(column(cells('BURN.CAUTIONS', args), 'caution').map(keyOf))).toEqual(all);
    expect(sorted(inPane('BURN.CAUTIONS', args))).toEqual(all);
    expect(sorted(column(cells('BURN.PPE.LIST', args), 'against'))).toEqual(
      sorted([...WORN_ALWAYS, ...(WORN_BY_OPERATION[operation] ?? []), ...(WORN_BY_MATERIAL[material] ?? [])]),
    );
  });

  it.each(BY_ASSUMPTION)('with %s %s', (name, value, brings) => {
    const assume: Argument = [[name, value]];
    const worn = WORN_BY_ASSUMPTION[`${name} ${value}`] ?? [];
    expectEverywhere({ ...steel(operation), assume }, brings, worn);
    const all = sorted([...EVERY, ...BY_OPERATION[operation], ...brings]);
    const ofNoItem: readonly Argument[] = [
      operation,
      undefined,
      undefined,
      [
        [name, value],
        [materialWord(operation), 'carbon steel'],
      ],
    ];
    expect(sorted(column(cells('BURN.CAUTIONS', ofNoItem), 'caution').map(keyOf))).toEqual(all);
    expect(sorted(column(cells('BURN.PPE.LIST', ofNoItem), 'against'))).toEqual(
      sorted([...WORN_ALWAYS, ...(WORN_BY_OPERATION[operation] ?? []), ...worn]),
    );
  });

  it.each(Object.keys(BY_ROD))('with a rod %s', (rod) => {
    expectEverywhere({ ...steel(operation), rod }, BY_ROD[rod] ?? [], []);
  });

  it.each(Object.keys(BY_CONDITION))('where it is %s', (condition) => {
    expectEverywhere(
      { ...steel(operation), conditions: [condition] },
      BY_CONDITION[condition] ?? [],
      WORN_BY_CONDITION[condition] ?? [],
    );
  });
});
