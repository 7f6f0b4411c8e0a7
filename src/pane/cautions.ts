import type { Declaration } from '../catalogue/declaration.ts';

/** A caution as the pane shows it. */
export interface Caution {
  readonly text: string;
  readonly severity: string;
  readonly action: string;
  /** Keys in the register of sources. */
  readonly sources: readonly string[];
}

export function cautionsOf(_d: Declaration, _values: Readonly<Record<string, unknown>> | undefined): readonly Caution[] {
  return [];
}
