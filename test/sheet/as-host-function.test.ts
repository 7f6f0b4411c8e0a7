import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../src/catalogue/catalogue.ts';
import { plainUnit } from '../../src/core/units/parse-quantity.ts';
import { hostFunction, withUnit } from '../../src/sheet/as-host-function.ts';

describe('the help on an argument', () => {
  it('has the unit of a plain number after its first clause', () => {
    expect(withUnit('Bore to burn out; planned when left out', { kind: 'quantity', quantity: 'length' })).toBe(
      'Bore to burn out, in; planned when left out',
    );
  });
  it('has it once', () => {
    expect(withUnit('Depth of work, ft; 0 when left out', { kind: 'quantity', quantity: 'distance' })).toBe(
      'Depth of work, ft; 0 when left out',
    );
    expect(withUnit('Minutes of rod burning', { kind: 'quantity', quantity: 'time' })).toBe('Minutes of rod burning');
  });
  it('has none where there is none', () => {
    expect(withUnit('Holes; 1 when left out', { kind: 'quantity', quantity: 'count' })).toBe('Holes; 1 when left out');
    expect(withUnit('Rod, such as 3/8', { kind: 'rod' })).toBe('Rod, such as 3/8');
  });
  it('names the unit for every quantity of every function', () => {
    const words: Readonly<Record<string, string>> = { min: 'minutes', h: 'hours', '%': 'percent|share|chance' };
    for (const d of CATALOGUE) {
      const { parameters } = hostFunction(d);
      Object.values(d.parameters).forEach(({ kind }, i) => {
        const unit = kind.kind === 'quantity' ? plainUnit(kind.quantity, 'US') : '';
        if (unit !== '')
          expect(parameters[i]?.summary, d.name).toMatch(
            new RegExp(`, ${unit}([,;:]|$)${words[unit] === undefined ? '' : `|${words[unit]}`}`, 'i'),
          );
      });
    }
  });
});

describe('a 0 that is taken for a blank cell', () => {
  const takesZero = (d: (typeof CATALOGUE)[number], name: string): boolean | undefined =>
    hostFunction(d).parameters.find((p) => p.name === name)?.zeroIsBlank;
  it('is one that cannot be meant, such as the diameter of a pin', () => {
    const rods = CATALOGUE.find((d) => d.name === 'BURN.PIN.RODS')!;
    expect(takesZero(rods, 'diameter')).toBe(true);
  });
  it('is no temperature: 0 F and 0 C are meant', () => {
    const gauge = CATALOGUE.find((d) => d.name === 'BURN.CYLINDER.GAUGE')!;
    expect(takesZero(gauge, 'temperature')).toBe(false);
  });
});
