import type { PanePlot } from '../pictures.ts';
import { BarFigure } from './bar-figure.tsx';
import { LineFigure } from './line-figure.tsx';
import { RowFigure } from './row-figure.tsx';
import { ShiftsFigure } from './shifts-figure.tsx';

/** One picture with its words and its table. */
export function PlotFigure({ of }: { readonly of: PanePlot }) {
  switch (of.kind) {
    case 'rows':
      return <RowFigure plot={of.plot} />;
    case 'bars':
      return <BarFigure plot={of.plot} />;
    case 'lines':
      return <LineFigure plot={of.plot} />;
    case 'shifts':
      return <ShiftsFigure plot={of.plot} />;
  }
}
