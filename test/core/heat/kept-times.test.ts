import { describe, expect, it } from 'vitest';
import { Assumptions, type Override } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import { REGISTRY } from '../../../src/core/assumptions/registry.ts';
import * as draws from '../../../src/core/heat/cooling-draws.ts';
import * as table from '../../../src/core/heat/cooling-table.ts';
import { kept, rounded, written } from '../../../src/core/heat/kept.ts';
import * as keptTimes from '../../../src/core/heat/kept-times.ts';
import { solvedKept } from './solved-kept.ts';

describe('cooling times that are kept', () => {
  it('are those that are solved: npm run golden renews them', () => {
    for (const [name, text] of Object.entries(solvedKept()))
      expect(keptTimes[name as keyof typeof keptTimes]).toBe(text);
  });

  it('are within 0.0006 % of what was solved', () => {
    for (const time of [1, 37.2, 600, 86_400, 14 * 86_400]) {
      expect(Math.abs((rounded([time])[0]! + 1) / (time + 1) - 1)).toBeLessThan(6e-6);
      expect(written(rounded([time])[0]!)).toBe(written(time));
    }
    expect([...rounded([0])]).toEqual([0]);
  });

  const { COOLED_IN_AIR_BY } = draws;
  const at = [-5, 24, 1, -8];
  const found = (...rows: readonly Override[]): Float64Array | undefined =>
    kept(keptTimes.KEPT_TABLE, table.KEPT, at, 1, COOLED_IN_AIR_BY, new Basis(Assumptions.from(rows)));

  it('rest on no assumption besides those that are asked after', () => {
    const solved = (...rows: readonly Override[]): unknown => {
      const basis = new Basis(Assumptions.from(rows));
      return [table.solvedEntry(at, basis), draws.solvedEntry([-1, 12], basis)];
    };
    // A pin with an old bore or a bushing has no place in the table.
    const APART: readonly string[] = [...COOLED_IN_AIR_BY, 'cooling method', 'existing bore', 'bushing wall'];
    const asAssumed = solved();
    for (const entry of REGISTRY) {
      if (APART.includes(entry.name)) continue;
      const changes: readonly Override[] =
        'choices' in entry
          ? entry.choices.map((word) => ({ name: entry.name, word }))
          : [entry.min, entry.max].map((value) => ({ name: entry.name, value, kind: 'your value' }));
      for (const change of changes) expect(solved(change), entry.name).toEqual(asAssumed);
    }
  });

  it('stand for what is as assumed, and for nothing else', () => {
    expect(found()).toEqual(table.solvedEntry(at, new Basis(Assumptions.defaults())));
    expect(found({ name: 'crew price', value: 1e-3, kind: 'your value' })).toEqual(found());
    expect(found({ name: 'cooling method', word: 'water' })).toBeUndefined();
    for (const name of COOLED_IN_AIR_BY) {
      const { value, low, high } = Assumptions.defaults().inForce(name);
      expect(found({ name, value: value * 1.01, kind: 'your value' }), name).toBeUndefined();
      expect(found({ name, value, low, high, kind: 'your value' }), name).toEqual(found());
    }
  });
});
