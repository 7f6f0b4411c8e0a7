import { findSource } from '../../../src/core/sources/register.ts';
import { describe, expect, it } from 'vitest';
import { EXPOSURE_ASSUMPTIONS } from '../../../src/core/assumptions/exposure.ts';
import { LIMITS } from '../../../src/core/safety/limits.ts';
import { NOISE_RULES, DOUBLE_PROTECTION } from '../../../src/core/safety/noise-rules.ts';
import { FIRE_WATCH_RULES } from '../../../src/core/safety/fire-watch.ts';
import { FIRE_CHECKS } from '../../../src/core/safety/fire-checks.ts';
import { PPE } from '../../../src/core/safety/ppe.ts';
import { CAUTIONS } from '../../../src/core/safety/cautions.ts';
import { EXPOSURE_SOURCES } from '../../../src/core/sources/exposure.ts';
import { GENERAL_SOURCES } from '../../../src/core/sources/general.ts';
import { QUANTITIES } from '../../../src/core/units/quantities.ts';

const known = new Set<string>([...EXPOSURE_SOURCES, ...GENERAL_SOURCES].map((s) => s.key));

describe('exposure assumptions', () => {
  it('have a value between low and high, and these between the physical limits', () => {
    for (const a of EXPOSURE_ASSUMPTIONS) {
      expect(a.min, a.name).toBeLessThanOrEqual(a.low);
      expect(a.low, a.name).toBeLessThanOrEqual(a.value);
      expect(a.value, a.name).toBeLessThanOrEqual(a.high);
      expect(a.high, a.name).toBeLessThanOrEqual(a.max);
    }
  });

  it('use a unit of their quantity and names of their own', () => {
    for (const a of EXPOSURE_ASSUMPTIONS) expect(Object.keys(QUANTITIES[a.quantity].units), a.name).toContain(a.unit);
    expect(new Set(EXPOSURE_ASSUMPTIONS.map((a) => a.name)).size).toBe(EXPOSURE_ASSUMPTIONS.length);
  });
});

describe('sources of the exposure functions', () => {
  it('stand in the register once each', () => {
    expect(known.size).toBe(EXPOSURE_SOURCES.length + GENERAL_SOURCES.length);
  });

  it('are known for every assumption, limit, rule, check and caution', () => {
    const used = [
      ...EXPOSURE_ASSUMPTIONS.map((a) => a.source),
      ...Object.values(LIMITS).map((l) => l.source),
      ...NOISE_RULES.map((r) => r.source),
      ...Object.values(DOUBLE_PROTECTION).map((d) => d.source),
      ...FIRE_WATCH_RULES.map((r) => r.source),
      ...FIRE_CHECKS.map((c) => c.source),
      ...PPE.map((p) => p.source),
      ...CAUTIONS.flatMap((c) => [c.source, ...(c.also ?? [])]),
    ];
    // A caution may lean on a source of another room, as on that of steel in the cold.
    expect(used.filter((key) => findSource(key) === undefined)).toEqual([]);
  });

  it('are used, each of them, by something', () => {
    const inSteps = ['iupac atomic weights', 'schiller naumann', 'astm b258', 'nbs handbook 100', 'osha 1910.133'];
    const used = new Set<string>([
      ...inSteps,
      ...CAUTIONS.flatMap((c) => c.also ?? []),
      ...[
        ...EXPOSURE_ASSUMPTIONS,
        ...Object.values(LIMITS),
        ...NOISE_RULES,
        ...Object.values(DOUBLE_PROTECTION),
        ...FIRE_WATCH_RULES,
        ...FIRE_CHECKS,
        ...PPE,
        ...CAUTIONS,
      ].map((x) => x.source),
    ]);
    expect(EXPOSURE_SOURCES.map((s) => s.key).filter((key) => !used.has(key))).toEqual([]);
  });
});
