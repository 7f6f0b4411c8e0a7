import { changedDefaults } from '../core/assumptions/changed-defaults.ts';
import { FIRST_VERSION, HISTORY, keptVersions, type Change } from '../core/assumptions/history.ts';

/** What a version of the calculation changed, in sentences without a full stop. */
export interface VersionChanges {
  readonly version: string;
  readonly changes: readonly string[];
}

/** Every version of the calculation, the newest first, and what it changed: defaults with their old and new ranges, the rest in words. */
export function changes(history: readonly Change[] = HISTORY): readonly VersionChanges[] {
  const versions = keptVersions(history);
  return versions
    .map((version, i) => {
      const before = versions[i - 1];
      if (before === undefined) return { version, changes: ['the first version'] };
      const defaults = changedDefaults(before, version, history).map(
        (changed) => `default of ${changed.name}: ${changed.before}, now ${changed.after}`,
      );
      const words = history.filter((change) => change.version === version).flatMap((change) => change.calculation);
      return { version, changes: [...defaults, ...words] };
    })
    .reverse();
}

/** The same as a text file. */
export function changesText(history: readonly Change[] = HISTORY): string {
  const chapters = changes(history).map(
    ({ version, changes: list }) => `${version}\n${list.map((change) => `  - ${change}\n`).join('')}`,
  );
  return `What each version of the calculation changed, since ${FIRST_VERSION}. BURN.VERSION shows the version in a cell.\nA change of the pane or of the pages alone moves no figure and is not listed.\n\n${chapters.join('\n')}`;
}
