import { describe, expect, it } from 'vitest';
import { readAssume } from '../../../src/catalogue/read-assume.ts';
import { showAssumption, showRanged } from '../../../src/core/assumptions/show-assumption.ts';

describe('an assumption as it is read', () => {
  const a = readAssume([
    ['name', 'value', 'low', 'high', 'unit'],
    ['stub', 3.4, 3, 4.123456, 'in'],
    ['crews', 2, null, null, null],
    ['position', 'overhead', null, null, null],
  ]);

  it('has its value, its range, and its unit once', () => {
    expect(showAssumption('stub', a)).toBe('3.4 (3 to 4.1235) in');
    expect(showAssumption('burning duty', a)).toBe('0.7 (0.62 to 0.8)');
  });

  it('has no range where it is certain, and is a word where it is a choice', () => {
    expect(showAssumption('crews', a)).toBe('2');
    expect(showAssumption('position', a)).toBe('overhead');
    expect(showRanged({ value: 14, low: 14, high: 14, unit: 'psi' })).toBe('14 psi');
  });

  it('is in the unit in which it is typed', () => {
    const metric = readAssume([
      ['units', 'SI'],
      ['stub', '100 mm'],
    ]);
    expect(showAssumption('stub', metric)).toMatch(/^100 \([\d.]+ to [\d.]+\) mm$/);
  });
});
