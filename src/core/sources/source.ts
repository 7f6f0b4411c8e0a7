/** Something outside the project that a figure rests on. */
export interface Source {
  /** Short key used by assumptions, steps, cautions and functions, e.g. `en 1993-1-2`. */
  readonly key: string;
  /** Full citation: authors or body, title, where published. */
  readonly citation: string;
  /** Edition or year. */
  readonly edition: string;
  /** What it was used for here, in one sentence. */
  readonly usedFor: string;
}
