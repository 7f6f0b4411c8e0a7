import { counted } from '../../core/units/counted.ts';
import { changedDefaults } from '../../core/assumptions/changed-defaults.ts';
import { changesAfter, HISTORY, versionAsOf } from '../../core/assumptions/history.ts';
import { CALCULATION_VERSION } from '../../core/version.ts';
import { showCell } from '../show-cell.ts';
import type { FormulaCell } from '../unknown-name.ts';
import type { MovedCell, WhatMoves } from './what-moves.ts';

/** Cells named of those that move. */
export const MOST_SHOWN = 40;

export const movedText = ({ sheet, address, before, after }: MovedCell): string =>
  `${sheet} ${address}: ${showCell(before) || 'blank'} → ${showCell(after) || 'blank'}`;

interface Given {
  readonly found: WhatMoves;
  /** The version that the workbook was calculated with, where it tells. */
  readonly since: string | undefined;
}

/** What a version moves: how many cells, which, and what changed since the version before. */
export function Moves({ found: { moved, compared, left }, since }: Given) {
  return (
    <>
      <p>
        {moved.length === 0 ? 'No cell' : counted(moved.length, 'cell')} of {counted(compared, 'formula')} would move
        {moved.length > 0 && ', and what the sheet itself calculates from them'}.
      </p>
      <ul>
        {moved.slice(0, MOST_SHOWN).map((cell) => (
          <li key={`${cell.sheet} ${cell.address}`}>{movedText(cell)}</li>
        ))}
        {moved.length > MOST_SHOWN && <li>{moved.length - MOST_SHOWN} more</li>}
      </ul>
      {left.length > 0 && (
        <p>
          {counted(left.length, 'formula')} could not be compared, since a function is a part of it only, has no result
          there, or reads what the pane cannot: {placesOf(left)}.
        </p>
      )}
      {since !== undefined && <p>{changesSince(since)}</p>}
    </>
  );
}

const placesOf = (cells: readonly FormulaCell[]): string =>
  `${cells
    .slice(0, MOST_SHOWN)
    .map(({ sheet, address }) => `${sheet} ${address}`)
    .join(', ')}${cells.length > MOST_SHOWN ? ' and more' : ''}`;

/** What changed since a version, as far as it is kept. */
export function changesSince(since: string): string {
  const version = versionAsOf(since);
  if (version !== since) return `What changed since ${since} is not kept here.`;
  const defaults = changedDefaults(version, CALCULATION_VERSION, HISTORY).map(
    ({ name, before, after }) => `default of ${name}: ${before}, now ${after}`,
  );
  return `Changed since ${since}: ${[...defaults, ...changesAfter(version).flatMap((c) => c.calculation)].join('; ')}.`;
}
