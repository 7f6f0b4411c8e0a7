import { describe, expect, it } from 'vitest';
import { Assumptions } from '../../../src/core/assumptions/assumptions.ts';
import { Basis } from '../../../src/core/basis.ts';
import { drawnCylinder } from '../../../src/core/oxygen/drawable-content.ts';
import * as kept from '../../../src/core/oxygen/kept-yield.ts';
import { keptYield } from './solved-yield.ts';

describe('the yield of a cylinder that is kept', () => {
  it('is the one that is solved: npm run golden renews it', () => {
    expect({ ...kept }).toEqual(keptYield());
  });

  it('is that of the cylinder as assumed, and lies next to those of cylinders nearly like it', () => {
    const share = (by: number): number => {
      const value = Assumptions.defaults().value('cylinder volume') * by;
      const a = Assumptions.from([{ name: 'cylinder volume', value, kind: 'your value' }]);
      return drawnCylinder(new Basis(a)).number('share_cyl');
    };
    expect(share(1)).toBe(Number(kept.KEPT_YIELD.split(' ')[1]));
    expect(Math.abs(share(1 + 1e-9) / share(1) - 1)).toBeLessThan(1e-8);
  });
});
