import { parseA1Ref } from '@borgar/fx';

/** Cells of a reference, counted from 0; whole columns and rows are open at their ends. */
export interface Area {
  readonly sheet: string;
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
  /** Whether its first and last row stay as they are where the formula is filled down. */
  readonly stays: readonly [top: boolean, bottom: boolean];
}

/** The cells that a reference on a sheet names; undefined for names, tables and spills of unknown size. */
export function areaOf(reference: string, sheet: string): Area | undefined {
  const parsed = /[[#]/.test(reference) ? undefined : parseA1Ref(reference);
  if (!parsed || 'name' in parsed) return undefined;
  const { top, left, bottom, right, $top, $bottom } = parsed.range;
  return {
    sheet: parsed.context?.[0] ?? sheet,
    top: top ?? 0,
    left: left ?? 0,
    bottom: bottom ?? Infinity,
    right: right ?? Infinity,
    stays: [$top === true || top == null, $bottom === true || bottom == null],
  };
}

/** The area where the formula is filled down by so many rows. */
export const movedDown = (area: Area, by: number): Area => ({
  ...area,
  top: area.top + (area.stays[0] ? 0 : by),
  bottom: area.bottom + (area.stays[1] ? 0 : by),
});
