import { describe, expect, it } from 'vitest';
import { fromSi, knownUnit, parseQuantity, toSi } from '../../../src/core/units/parse-quantity.ts';
import { QUANTITIES, type QuantityName } from '../../../src/core/units/quantities.ts';

// Exact factors: international inch, foot and pound (1959); SI brochure.
const INCH = 0.0254;

describe('a quantity text', () => {
  it.each([
    ['3/8', 0.375 * INCH],
    ['4-1/2"', 4.5 * INCH],
    ['4 1/2 in', 4.5 * INCH],
    ['4½', 4.5 * INCH],
    ['⅜ in', 0.375 * INCH],
    ['2 ft 6 in', 30 * INCH],
    ['2\' 6-1/2"', 30.5 * INCH],
    ['2\'6"', 30 * INCH],
    ['100 mm', 0.1],
    ['100mm', 0.1],
    ['10 CM', 0.1],
    ['1e2 mm', 0.1],
    ['.5 m', 0.5],
    ['  7 ', 7 * INCH],
    ['-1 in', -INCH],
    ['-3', -3 * INCH],
    ['+3', 3 * INCH],
  ])('reads %s as a length', (text, metres) => {
    expect(parseQuantity(text, 'length')).toBeCloseTo(metres, 12);
  });

  it.each([
    ['pressure', '6 bar', 6e5],
    ['pressure', '100 psig', 689475.7293168361],
    ['pressure', '14.695948775513 psia', 0],
    ['pressure', '1 MPa', 1e6],
    ['temperature', '70 F', 294.2611111],
    ['temperature', '-40 °C', 233.15],
    ['flow', '1 kg/min', 1 / 60],
    ['time', '1 h 30 min', 5400],
    ['force', '10 short tons', 88964.43230521],
    ['capacity', '43 litres', 0.043],
    ['ratio', '30 %', 0.3],
    ['stress', '1 ksi', 6894757.293168361],
    ['massRate', '1 lb/min', 0.45359237 / 60],
  ] as const)('reads a %s of %s', (quantity, text, si) => {
    expect(parseQuantity(text, quantity)).toBeCloseTo(si, 5);
  });

  it.each(['', 'abc', '4 kg', '4 in 3', '4 in -3 in', '2,500', '1/0', 'in', '3 x 4', '--4', '1e999', '2 m.5 m'])(
    'refuses "%s" as a length',
    (text) => {
      expect(parseQuantity(text, 'length')).toBeUndefined();
    },
  );

  it('takes a plain number in the unit of the system', () => {
    expect(parseQuantity('100', 'length', 'SI')).toBeCloseTo(0.1, 12);
    expect(parseQuantity('6', 'pressure', 'SI')).toBeCloseTo(6e5, 6);
  });

  it('turns every unit of every quantity there and back', () => {
    for (const [name, { units }] of Object.entries(QUANTITIES)) {
      for (const unit of Object.keys(units)) {
        const quantity = name as QuantityName;
        expect(fromSi(toSi(12.5, quantity, 'US', unit), quantity, 'US', unit), `${name} ${unit}`).toBeCloseTo(12.5, 9);
        if (unit !== '')
          expect(parseQuantity(`12.5 ${unit}`, quantity), `${name} ${unit}`).toBeCloseTo(
            toSi(12.5, quantity, 'US', unit),
            9,
          );
      }
    }
  });

  it('holds the oxygen mass of a standard cubic foot, 70 F and 14.696 psia, from the reference equation', () => {
    // Schmidt and Wagner 1985 / Stewart et al. 1991 evaluated at 294.261 K, 101325 Pa: 0.0375521 kg.
    expect(parseQuantity('1 scf', 'oxygen')).toBeCloseTo(0.0375521, 7);
  });

  it('takes the sign of the first part for all of them', () => {
    expect(parseQuantity('-2 ft 6 in', 'length')).toBeCloseTo(-30 * INCH, 12);
    expect(parseQuantity('\u22125 C', 'temperature')).toBeCloseTo(268.15, 9);
    expect(parseQuantity('+4 in', 'length')).toBeCloseTo(4 * INCH, 12);
  });

  it('adds up no temperatures, and no part that has no unit', () => {
    expect(parseQuantity('20 C 5 C', 'temperature')).toBeUndefined();
    expect(parseQuantity('2 ft 6', 'distance')).toBeUndefined();
    expect(parseQuantity('1h30min', 'time')).toBeCloseTo(5400, 9);
  });

  it('reads the longest unit that fits, whole words only, and squares and cubes as they are written', () => {
    expect(parseQuantity('1 bar abs', 'pressure')).toBeCloseTo(1e5 - 101325, 6);
    expect(parseQuantity('1 barn', 'pressure')).toBeUndefined();
    expect(parseQuantity('1 in²', 'area')).toBeCloseTo(INCH ** 2, 15);
    expect(parseQuantity('1 ft³', 'volume')).toBeCloseTo(0.3048 ** 3, 15);
    expect(parseQuantity('1⅔ ft', 'length')).toBeCloseTo((5 / 3) * 0.3048, 12);
  });
});

describe('a unit by itself', () => {
  it("is known by the register's own name, another name or in another case", () => {
    expect(['in', 'inches', 'IN', 'MM', '"'].map((unit) => knownUnit(unit, 'length'))).toEqual([
      'in',
      'in',
      'in',
      'mm',
      'in',
    ]);
    expect(knownUnit('MPa', 'pressure')).toBe('MPa');
    expect(knownUnit('psig', 'pressure')).toBe('psi');
    expect(['lb', 'furlong', ''].map((unit) => knownUnit(unit, 'length'))).toEqual([undefined, undefined, undefined]);
  });
});
