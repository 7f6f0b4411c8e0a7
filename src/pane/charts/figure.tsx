import type { ComponentChildren } from 'preact';
import { Picture } from '../parts/picture.tsx';
import { DataTable, type TableRow } from './data-table.tsx';
import type { Tick, Told } from './told.ts';

/** A plot in its frame: the drawing, the keys to it, its words, and its figures folded below. */
export function Figure({
  plot: { name, title, caption, formula },
  drawn,
  keys,
  headings,
  rows,
  children,
}: {
  readonly plot: Told;
  readonly drawn: { readonly width: number; readonly height: number; readonly description: string };
  readonly keys?: ComponentChildren;
  readonly headings: readonly string[];
  readonly rows: readonly TableRow[];
  readonly children: ComponentChildren;
}) {
  const words = (
    <>
      {keys}
      <p>
        <strong>{title}.</strong> {caption}
        {formula !== undefined && (
          <>
            {' '}
            Drawn from <code>{formula}</code>.
          </>
        )}
      </p>
      <DataTable title={title} headings={headings} rows={rows} />
    </>
  );
  return (
    <Picture name={name} {...drawn} title={title} caption={words}>
      <g aria-hidden="true">{children}</g>
    </Picture>
  );
}

/** An axis along the foot of a plot with its name; `top` is where lines of the grid begin, none where it is left out. */
export function FootAxis({
  ticks,
  foot,
  middle,
  label,
  top,
}: {
  readonly ticks: readonly Tick[];
  readonly foot: number;
  readonly middle: number;
  readonly label: string;
  readonly top?: number;
}) {
  return (
    <>
      {ticks.map(({ at }) =>
        top === undefined ? (
          <path key={at} class="plot-tick" d={`M${at} ${foot}v4`} />
        ) : (
          <path key={at} class="plot-grid" d={`M${at} ${top}V${foot}`} />
        ),
      )}
      {ticks.map(({ at, text }) => (
        <text key={at} x={at} y={foot + 16} text-anchor="middle">
          {text}
        </text>
      ))}
      <text class="plot-title" x={middle} y={foot + 33} text-anchor="middle">
        {label}
      </text>
    </>
  );
}

/** The name before a row, its lines about the middle of it. */
export const RowName = ({
  lines,
  x,
  y,
}: {
  readonly lines: readonly string[];
  readonly x: number;
  readonly y: number;
}) => (
  <text class="plot-name" text-anchor="end">
    {lines.map((line, i) => (
      <tspan key={i} x={x} y={y + 4 + 12 * (i - (lines.length - 1) / 2)}>
        {line}
      </tspan>
    ))}
  </text>
);
