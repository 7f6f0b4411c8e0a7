import type { Assumptions } from './assumptions/assumptions.ts';

/**
 * What all items of one call share: the assumptions in force, and a memory of costly intermediate results so
 * that a list of a thousand pins solves each rod and pressure once. It lives as long as the call.
 */
export class Basis {
  readonly a: Assumptions;
  private readonly kept = new Map<string, unknown>();

  constructor(a: Assumptions) {
    this.a = a;
  }

  /** The value kept under a key, made at its first use. The key must name everything the value depends on. */
  readonly once = <T>(key: string, make: () => T): T => {
    if (this.kept.has(key)) return this.kept.get(key) as T;
    const made = make();
    this.kept.set(key, made);
    return made;
  };
}
