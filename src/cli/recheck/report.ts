import { counted } from '../../core/units/counted.ts';
import { sheetPrefix } from '../../files/xlsx/address.ts';
import type { Renamed } from '../../files/xlsx/host-names.ts';
import { printable, printableJson } from '../printable.ts';
import type { CheckedCell, Recheck } from './recheck.ts';
import { showChange, showValue } from './show-value.ts';

/** Lines of one kind shown without --all. */
const MOST_SHOWN = 40;

export function countOf({ cells }: Recheck, status: CheckedCell['status']): number {
  return cells.filter((c) => c.status === status).length;
}

export interface Reported {
  readonly all?: boolean;
  readonly allFormulas?: boolean;
  /** Formulas that got the host's names, where that was asked for. */
  readonly renamed?: readonly Renamed[] | undefined;
}

/** The recheck as lines for a person; what the workbook brings along cannot act on the terminal. */
export function reportLines(
  name: string,
  result: Recheck,
  { all = false, allFormulas = false, renamed }: Reported = {},
): readonly string[] {
  const keptCells = result.cells.filter((c) => c.status === 'kept');
  const most = all ? Infinity : MOST_SHOWN;
  const lines = [
    `${name}: ${counted(result.formulas, 'formula')} with BURN functions, ${counted(result.cells.length, 'cell')}`,
    ...versionLines(result),
    ...(renamed
      ? [
          `renamed ${renamed.length} for the spreadsheet host`,
          ...shortened(
            renamed.map((r) => `  ${r.place}  =${r.before} -> ${r.after}${r.spills ? ', which spills now' : ''}`),
            most,
          ),
        ]
      : []),
    ...(result.macros ? ['It carries macros, which were not run.'] : []),
    `same    ${countOf(result, 'same')}`,
    `moved   ${countOf(result, 'moved')}`,
    ...shortened(result.cells.filter((c) => c.status === 'moved').map(movedLine), most),
    `broken  ${countOf(result, 'broken')}`,
    ...shortened(result.cells.filter((c) => c.status === 'broken').map(brokenLine), most),
    ...(keptCells.length > 0
      ? [
          `kept    ${keptCells.length}, with the saved value, since they are not calculated here as in the host`,
          ...shortened(keptCells.map(brokenLine), most),
        ]
      : []),
    ...section(
      `${counted(result.others.length, 'cell')} of the sheet's own formulas came out differently (${allFormulas ? 'written too with --write' : '--write leaves them as saved, unless --all-formulas is given'}):`,
      result.others.map((o) => `  ${o.place}  ${showChange(o.before, o.after)}`),
      most,
    ),
    ...section(
      `${counted(result.kept.length, 'formula')} of the sheet's own kept the saved value, since it is not calculated here as in the host:`,
      result.kept.map((k) => `  ${k.place}  ${k.why}`),
      most,
    ),
  ];
  return lines.map(printable);
}

function versionLines({ versions, version, notTurnedBack, otherAssumptions }: Recheck): readonly string[] {
  const saved = [...new Set(versions.map((v) => v.version))];
  const first = versions[0];
  const before =
    saved.length === 0
      ? 'no BURN.VERSION in it says with which version it was calculated'
      : `calculated with ${saved.join(' and ')}${first && saved.length === 1 ? ` (${first.place})` : ''}`;
  return [
    `${before}; rechecked with ${version}`,
    ...otherAssumptions.map(
      ({ place, departures }) =>
        `${place}  same version, other assumptions: ${departures.length === 0 ? 'none departs from the defaults now' : departures.join(', ')}`,
    ),
    ...notTurnedBack.map((what) => `cannot be turned back: ${what}`),
  ];
}

const placeOf = (c: CheckedCell): string => `${sheetPrefix(c.sheet)}${c.cell}`;

function movedLine(c: CheckedCell): string {
  return `  ${placeOf(c)}  ${showChange(c.before, c.after)}  ${c.why?.kind ?? 'unknown'}: ${c.why?.text ?? ''}`;
}

function brokenLine(c: CheckedCell): string {
  return `  ${placeOf(c)}  was ${showValue(c.before)}  ${c.message ?? ''}`;
}

function section(heading: string, lines: readonly string[], most: number): readonly string[] {
  return lines.length === 0 ? [] : [heading, ...shortened(lines, most)];
}

function shortened(lines: readonly string[], most: number): readonly string[] {
  const more = lines.length - most;
  return more > 0 ? [...lines.slice(0, most), `  and ${more} more (--all shows them)`] : lines;
}

/** The recheck as one object for programs. */
export function reportJson(name: string, result: Recheck, renamed?: readonly Renamed[]): string {
  const { cells, formulas, versions, version, otherAssumptions, notTurnedBack, others, kept, macros } = result;
  const counts = {
    same: countOf(result, 'same'),
    moved: countOf(result, 'moved'),
    broken: countOf(result, 'broken'),
    kept: countOf(result, 'kept'),
  };
  const told = {
    file: name,
    version,
    versions,
    otherAssumptions,
    notTurnedBack,
    formulas,
    counts,
    cells,
    others,
    kept,
    macros,
  };
  return printableJson(renamed ? { ...told, renamed } : told);
}
