import { BarFigure } from '../charts/bar-figure.tsx';
import { RowFigure } from '../charts/row-figure.tsx';
import type { Explained } from '../explained.ts';
import { picturesOf } from '../pictures.ts';
import type { CellSection } from '../section.ts';

function Pictures({ explained }: { readonly explained: Explained }) {
  return (
    <>
      {picturesOf(explained).map((p) =>
        p.kind === 'rows' ? (
          <RowFigure key={p.plot.name} plot={p.plot} />
        ) : (
          <BarFigure key={p.plot.name} plot={p.plot} />
        ),
      )}
    </>
  );
}

/** What the table of a cell says, drawn. */
export const PICTURES: CellSection = {
  id: 'pictures',
  heading: 'Drawn',
  shows: (explained) => picturesOf(explained).length > 0,
  Component: Pictures,
};
