import { useRef, useState } from 'preact/hooks';
import { PlotFigure } from '../charts/plot-figure.tsx';
import type { Explained } from '../explained.ts';
import { printAlone } from '../parts/print.ts';
import { picturesOf } from '../pictures.ts';
import type { CellSection } from '../section.ts';

function Pictures({ explained }: { readonly explained: Explained }) {
  const all = useRef<HTMLDivElement>(null);
  const [said, say] = useState('');
  return (
    <>
      <div ref={all}>
        {picturesOf(explained).map((of) => (
          <PlotFigure key={of.plot.name} of={of} />
        ))}
      </div>
      <p>
        <button
          type="button"
          onClick={() => {
            if (!all.current) return;
            void printAlone(all.current).then((printed) => say(printed ? '' : 'This window cannot print.'));
          }}
        >
          Print with the figures
        </button>{' '}
        <span role="status">{said}</span>
      </p>
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
