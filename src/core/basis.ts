import type { Assumptions } from './assumptions/assumptions.ts';
import type { NumberName } from './assumptions/registry.ts';

/**
 * What all items of one call share: the assumptions in force, and a memory of costly intermediate results so
 * that a list of a thousand pins solves each rod and pressure once. Calls with the same assumptions may share one: nothing
 * in it depends on what was asked before.
 */
export class Basis {
  readonly a: Assumptions;
  private readonly kept: Map<string, unknown>;
  private readonly readers = new Map<string, unknown>();

  constructor(a: Assumptions, kept = new Map<string, unknown>()) {
    this.a = a;
    this.kept = kept;
  }

  /**
   * Something that reads assumptions as it goes, kept for this basis alone: a basis on other assumptions makes its own, and
   * what it asks for counts for whoever asks it.
   */
  readonly reading = <T>(key: string, make: () => T): T => {
    const kept = this.readers.get(key);
    if (kept !== undefined) return kept as T;
    const made = make();
    this.readers.set(key, made);
    return made;
  };

  /** How many values are kept. */
  get size(): number {
    return this.kept.size;
  }

  /** The value kept under a key, made at its first use. The key names everything the value depends on besides assumptions, and these are asked for within `make`. */
  readonly once = <T>(key: string, make: () => T): T => {
    const kept = this.kept.get(key);
    if (kept !== undefined) return kept as T;
    const made = make();
    this.kept.set(key, made);
    return made;
  };

  /** A basis on the same assumptions that takes over what is kept, but for keys that begin with one of these. */
  apart(...beginnings: readonly string[]): Basis {
    return new Basis(
      this.a,
      new Map([...this.kept].filter(([key]) => !beginnings.some((beginning) => key.startsWith(beginning)))),
    );
  }
}

/** A basis that notes which assumptions each value rests on, for a search that changes them one at a time. */
export class NotingBasis extends Basis {
  private readonly values = new Map<string, unknown>();
  private readonly rests = new Map<string, ReadonlySet<NumberName>>();
  /** What was asked for so far by all that is being made, the innermost last. */
  private readonly open: Set<NumberName>[];

  constructor(a: Assumptions) {
    const open = [new Set<NumberName>()];
    super(a.noting((name) => void open.at(-1)?.add(name)));
    this.open = open;
  }

  /** Made anew each time: what it asks for counts for each value that is made from it. */
  override readonly reading = <T>(_key: string, make: () => T): T => make();

  /** Every assumption asked for so far. */
  get asked(): ReadonlySet<NumberName> {
    return this.open[0] ?? new Set();
  }

  override readonly once = <T>(key: string, make: () => T): T => {
    if (!this.rests.has(key)) {
      const asked = new Set<NumberName>();
      this.open.push(asked);
      try {
        this.values.set(key, make());
        this.rests.set(key, asked);
      } finally {
        this.open.pop();
        // Asked for even where it failed.
        for (const name of asked) this.open.at(-1)?.add(name);
      }
    }
    for (const name of this.rests.get(key) ?? []) this.open.at(-1)?.add(name);
    return this.values.get(key) as T;
  };

  /** A basis on assumptions in which one is changed: it takes over what does not rest on that one. */
  changed(name: NumberName, a: Assumptions): Basis {
    const rests = this.rests;
    return new Basis(a, new Map([...this.values].filter(([key]) => !rests.get(key)?.has(name))));
  }
}
