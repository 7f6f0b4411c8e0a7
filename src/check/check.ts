import { isCellError } from '../catalogue/cell.ts';
import { CALCULATION_VERSION } from '../core/version.ts';
import { versionIn } from '../core/version-in.ts';
import { mixedAssumptions } from './assumptions.ts';
import { brokenLines } from './broken-lines.ts';
import { cautionsOfWorkbook, type CautionOfCells } from './cautions.ts';
import { wrongColumns } from './columns.ts';
import { groupsOf, type Group } from './groups.ts';
import { linesOf, type Line } from './lines.ts';
import { LookedAt, type FormulaAt } from './looked-at.ts';
import { cutRanges, slidingRanges } from './ranges.ts';
import { readFormula } from '../formula/read-formula.ts';
import { tiedFormulas } from './tied.ts';
import {
  byPlace,
  keyOf,
  KINDS,
  type CheckedWorkbook,
  type Finding,
  type Place,
  type Recalculated,
} from './workbook.ts';

/** Cells with one formula of ours, and what is wrong in them. */
export interface CheckedFormula {
  readonly cells: readonly Place[];
  /** As it stands in the first of them. */
  readonly formula: string;
  readonly functions: readonly string[];
  readonly errors: number;
}

export interface Check {
  /** Every cell with our functions, a filled column or row as one. */
  readonly formulas: readonly CheckedFormula[];
  readonly findings: readonly Finding[];
  readonly cautions: readonly CautionOfCells[];
}

/**
 * Looks through a workbook: every formula of ours, and those of the sheet's own that have to do with them. `recalculated` is
 * what came of calculating its cells anew, where that was done. What is found is to be looked at; what is not found may be
 * wrong all the same.
 */
export function checkWorkbook(workbook: CheckedWorkbook, recalculated: readonly Recalculated[] = []): Check {
  const look = new LookedAt(workbook);
  const down = linesOf(look.formulas, 'down');
  const groups = groupsOf(look.formulas, down);
  return {
    formulas: groups
      .filter(({ cells }) => cells[0]?.ours)
      .map(({ cells }) => ({
        cells: cells.map(placeOf),
        formula: cells[0]!.told,
        functions: [...new Set(cells[0]!.read.calls.map((c) => c.name))],
        errors: cells.filter((c) => isCellError(c.value)).length,
      })),
    findings: findingsIn(look, down, groups, recalculated),
    cautions: cautionsOfWorkbook(look),
  };
}

/** What is wrong alone, as far as it is found. */
export function findIn(workbook: CheckedWorkbook): readonly Finding[] {
  const look = new LookedAt(workbook);
  const down = linesOf(look.formulas, 'down');
  return findingsIn(look, down, groupsOf(look.formulas, down), []);
}

function findingsIn(
  look: LookedAt,
  down: readonly Line[],
  groups: readonly Group[],
  recalculated: readonly Recalculated[],
): readonly Finding[] {
  const ours = look.formulas.filter((f) => f.ours);
  if (ours.length === 0) return [];
  const tied = tiedFormulas(look);
  const isTied = (f: FormulaAt): boolean => tied.has(f);
  const found = [
    ...told(ours, groups, recalculated),
    ...formulasAsTexts(look.workbook),
    ...brokenLines(look, [...down, ...linesOf(look.formulas, 'across')], isTied),
    ...cutRanges(look, groups, isTied),
    ...slidingRanges(groups),
    ...wrongColumns(look, groups),
    ...mixedAssumptions(look, groups),
    ...olderVersions(ours),
  ];
  return ordered(merged(found, groups));
}

const placeOf = ({ sheet, row, column }: Place): Place => ({ sheet, row, column });

/** Errors and cells that moved, as the recalculation tells them; without one, errors as the cells show them. */
function told(
  ours: readonly FormulaAt[],
  groups: readonly Group[],
  recalculated: readonly Recalculated[],
): readonly Finding[] {
  const known = new Set(recalculated.map(keyOf));
  const shown = ours.flatMap((f): readonly Recalculated[] =>
    isCellError(f.value) && !known.has(keyOf(f))
      ? [{ ...placeOf(f), of: f, is: 'error', text: f.value.message || f.value.error }]
      : [],
  );
  const groupAt = new Map(groups.flatMap((g) => g.cells.map((c): [string, Group] => [keyOf(c), g])));
  const findings = new Map<string, { kind: Finding['kind']; cells: Place[]; text: string }>();
  for (const each of [...recalculated, ...shown]) {
    const group = groupAt.get(keyOf(each.of));
    // Errors of one formula with the same reason are told together; what moved in it, with the reason of the first.
    const key = `${each.is} ${keyOf(group?.cells[0] ?? each.of)} ${each.is === 'error' ? each.text : ''}`;
    const found = findings.get(key);
    if (found) found.cells.push(placeOf(each));
    else findings.set(key, { kind: each.is, cells: [placeOf(each)], text: each.text });
  }
  return [...findings.values()];
}

/** Cells that hold the text of a formula of ours, and calculate nothing. */
function formulasAsTexts({ sheets }: CheckedWorkbook): readonly Finding[] {
  return sheets.flatMap(({ cells }, sheet) =>
    cells.flatMap(({ row, column, value, formula }): readonly Finding[] =>
      formula === undefined &&
      typeof value === 'string' &&
      /^\s*=.*BURN[._].*\)\s*$/i.test(value) &&
      readFormula(value.trim()).calls.length > 0
        ? [{ kind: 'formula as text', cells: [{ sheet, row, column }], text: `${value.trim()} stands there as a text` }]
        : [],
    ),
  );
}

function olderVersions(ours: readonly FormulaAt[]): readonly Finding[] {
  return ours.flatMap((f): readonly Finding[] => {
    const version = f.read.calls.every((c) => c.name === 'BURN.VERSION')
      ? versionIn(typeof f.value === 'string' ? f.value : '')
      : undefined;
    return version === undefined || version === CALCULATION_VERSION
      ? []
      : [
          {
            kind: 'older version',
            cells: [placeOf(f)],
            text: `calculated with ${version}; this is ${CALCULATION_VERSION}`,
          },
        ];
  });
}

/** Findings of one kind about cells of one formula are one. */
function merged(findings: readonly Finding[], groups: readonly Group[]): readonly Finding[] {
  const groupAt = new Map(groups.flatMap((g) => g.cells.map((c): [string, Group] => [keyOf(c), g])));
  const byGroup = new Map<string, { kind: Finding['kind']; cells: Map<string, Place>; text: string }>();
  for (const { kind, cells, text } of findings) {
    const [first] = cells;
    const group = first && groupAt.get(keyOf(first));
    const apart = kind === 'error' || kind === 'moved' ? `${text} ${byGroup.size}` : '';
    const key = `${kind} ${group ? keyOf(group.cells[0]!) : keyOf(first!)} ${apart}`;
    const found = byGroup.get(key) ?? { kind, cells: new Map<string, Place>(), text };
    for (const cell of cells) found.cells.set(keyOf(cell), placeOf(cell));
    byGroup.set(key, found);
  }
  return [...byGroup.values()].map(({ kind, cells, text }) => ({
    kind,
    cells: [...cells.values()].sort(byPlace),
    text,
  }));
}

const ordered = (findings: readonly Finding[]): readonly Finding[] =>
  [...findings].sort((x, y) => byPlace(x.cells[0]!, y.cells[0]!) || KINDS.indexOf(x.kind) - KINDS.indexOf(y.kind));
