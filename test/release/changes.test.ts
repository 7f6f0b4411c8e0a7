import { describe, expect, it } from 'vitest';
import { FIRST_VERSION, type Change } from '../../src/core/assumptions/history.ts';
import { numberAssumption } from '../../src/core/assumptions/registry.ts';
import { changes, changesText } from '../../src/release/changes.ts';

const INVENTED: readonly Change[] = [
  { version: '2031.02.03', replaced: [{ name: 'idle oxygen share', value: 0.5, low: 0.4 }], calculation: [] },
  { version: '2031.05.06', replaced: [], calculation: ['pipes are rougher', 'a rod was added'] },
];

describe('the list of changes', () => {
  it('has the newest version first, defaults with their old and new ranges, the rest in words', () => {
    const { value, low, high } = numberAssumption('idle oxygen share');
    expect(changes(INVENTED)).toEqual([
      { version: '2031.05.06', changes: ['pipes are rougher', 'a rod was added'] },
      {
        version: '2031.02.03',
        changes: [`default of idle oxygen share: 0.5 (0.4 to ${high}), now ${value} (${low} to ${high})`],
      },
      { version: FIRST_VERSION, changes: ['the first version'] },
    ]);
  });

  it('is a text with a chapter for each version', () => {
    expect(changesText(INVENTED)).toMatch(
      /2031\.05\.06\n {2}- pipes are rougher\n {2}- a rod was added\n\n2031\.02\.03\n {2}- default of idle/,
    );
  });
});
