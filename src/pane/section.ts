import type { ComponentType } from 'preact';
import type { Explained } from './explained.ts';

export interface SectionProps {
  readonly explained: Explained;
  /** Shows a source of the register, by key, with its full citation. */
  readonly toSource: (key: string) => void;
}

/** A part of what the pane says of the selected cell. A chart or a drawing is one more of these in sections/index.ts. */
export interface CellSection {
  readonly id: string;
  readonly heading: string;
  readonly shows: (explained: Explained) => boolean;
  readonly Component: ComponentType<SectionProps>;
}
