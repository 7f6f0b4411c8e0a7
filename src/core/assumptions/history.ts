import { isChoice, type Assumption } from './assumption.ts';
import { REGISTRY } from './registry.ts';

/** A default as it stood before a change; in the unit of the assumption. What is left out did not change. */
export interface Replaced {
  readonly name: string;
  readonly value?: number | string;
  readonly low?: number;
  readonly high?: number;
}

/** What a version changed. */
export interface Change {
  /** Year, month, day: the first version in which the new defaults hold. */
  readonly version: string;
  /** The defaults as they stood before. */
  readonly replaced: readonly Replaced[];
  /** What changed in formulas and registers, in words: that cannot be turned back, only told. */
  readonly calculation: readonly string[];
}

/** The version that the history begins with. */
export const FIRST_VERSION = '2026.11.30';

/**
 * Every change of the calculation since, oldest first, so that the defaults of an older version stay at hand.
 * Before the first release nothing is kept: FIRST_VERSION moves along with CALCULATION_VERSION.
 */
export const HISTORY: readonly Change[] = [];

/** Versions whose defaults are kept, oldest first. */
export function keptVersions(history: readonly Change[] = HISTORY): readonly string[] {
  return [FIRST_VERSION, ...history.map((c) => c.version)];
}

/** The version in force at a date or version such as `2026.11.25` or `2026-11-25`; undefined where none was yet, or the text is no date. */
export function versionAsOf(asked: string, history: readonly Change[] = HISTORY): string | undefined {
  const day = /^(\d{4})[.-](\d{2})[.-](\d{2})$/.exec(asked.trim())?.slice(1).join('.');
  return day === undefined
    ? undefined
    : keptVersions(history)
        .filter((version) => version <= day)
        .at(-1);
}

/** Changes after a version, oldest first. */
export function changesAfter(version: string, history: readonly Change[] = HISTORY): readonly Change[] {
  return history.filter((c) => c.version > version);
}

/** The registry with the defaults of a version: today's, with every later change taken back, newest first. */
export function registryAsOf(version: string, history: readonly Change[] = HISTORY): readonly Assumption[] {
  const before = new Map<string, Assumption>(REGISTRY.map((a) => [a.name, a]));
  for (const change of [...changesAfter(version, history)].reverse()) {
    for (const each of change.replaced) {
      const entry = before.get(each.name);
      if (entry)
        before.set(
          each.name,
          isChoice(entry)
            ? { ...entry, value: String(each.value ?? entry.value) }
            : ({ ...entry, ...each } as Assumption),
        );
    }
  }
  return [...before.values()];
}
