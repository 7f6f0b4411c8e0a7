import { describe, expect, it } from 'vitest';
import manifest from '../../package.json' with { type: 'json' };
import { CALCULATION_VERSION } from '../../src/core/version.ts';
import { compareReleases, RELEASE_VERSION } from '../../src/release/version.ts';

describe('the name of a release', () => {
  it('holds the version of the program and that of the calculation', () => {
    expect(RELEASE_VERSION).toBe(`${manifest.version}-${CALCULATION_VERSION}`);
    expect(RELEASE_VERSION).toMatch(/^\d+\.\d+\.\d+-\d{4}\.\d{2}\.\d{2}$/);
  });

  it('orders releases number by number, the program before the calculation', () => {
    const inOrder = [
      '0.1.0-2026.11.29',
      '0.1.0-2027.01.02',
      '0.2.0-2027.01.02',
      '0.10.0-2026.12.01',
      '1.0.0-2026.12.01',
    ];
    expect([...inOrder].reverse().sort(compareReleases)).toEqual(inOrder);
    expect(compareReleases('0.1.0-2026.11.29', '0.1.0-2026.11.29')).toBe(0);
  });
});
