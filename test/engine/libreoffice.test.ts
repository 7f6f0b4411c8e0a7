/** Ordinary formulas against LibreOffice Calc, all in one conversion. `npx tsx test/engine/compare-with-libreoffice.ts` lists what differs. */
import { beforeAll, describe, expect, it } from 'vitest';
import { ARRAYS, DIFFERENCES, FORMULAS } from './compared-formulas.ts';
import { compared, SOFFICE, type Compared } from './compare-with-libreoffice.ts';

describe.skipIf(!SOFFICE)('ordinary formulas', () => {
  let all: ReadonlyMap<string, Compared>;
  beforeAll(async () => {
    all = new Map((await compared()).map((c) => [c.formula, c]));
  });
  const told = ({ here, there }: Compared): string => `${JSON.stringify(here)}, there ${JSON.stringify(there)}`;

  it('are each named once, and so is what differs', () => {
    expect(new Set([...FORMULAS, ...ARRAYS]).size).toBe(FORMULAS.length + ARRAYS.length);
    for (const formula of Object.keys(DIFFERENCES)) expect([...FORMULAS, ...ARRAYS]).toContain(formula);
  });
  it.each([...FORMULAS, ...ARRAYS].filter((formula) => DIFFERENCES[formula] === undefined))(
    '%s comes out as in LibreOffice',
    (formula) => {
      const found = all.get(formula)!;
      expect(found.agree, told(found)).toBe(true);
    },
  );
  it.each(Object.entries(DIFFERENCES))('%s differs: %s', (formula) => {
    const found = all.get(formula)!;
    expect(found.agree, told(found)).toBe(false);
  });
});
