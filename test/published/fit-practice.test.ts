import { describe, expect, it } from 'vitest';
import { gripOf, SHORT_TON } from '../core/fit/physics.ts';

// Common practice, no source: a pin of 4 in, 10 in long, that 60 short tons could not move came out with 30 after its core
// was burnt out and it had cooled. All assumptions are the defaults; none was set to meet this.
describe('a 4 in by 10 in pin that 60 tons did not move', () => {
  it.each(['air', 'water'] as const)(
    'takes a force after burning and cooling with %s whose low and high enclose 30 tons',
    (method) => {
      const { after } = gripOf({ tons: 60, method });
      expect(after.low).toBeLessThan(30 * SHORT_TON);
      expect(after.high).toBeGreaterThan(30 * SHORT_TON);
    },
  );

  it('gives 30 tons a fair chance, neither sure nor hopeless', () => {
    const chance = gripOf({ tons: 60 }).chance(30 * SHORT_TON).value;
    expect(chance).toBeGreaterThan(0.2);
    expect(chance).toBeLessThan(0.8);
  });

  it('takes less after burning than before in every level', () => {
    const { before, after } = gripOf({ tons: 60 });
    for (const level of ['low', 'likely', 'high'] as const) expect(after[level]).toBeLessThan(before[level]);
  });
});
