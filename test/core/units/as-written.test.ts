/** Numbers as a person would write them. */
import { describe, expect, it } from 'vitest';
import { asWritten, toFigures, writtenFromSi } from '../../../src/core/units/as-written.ts';
import { QUANTITIES, type Quantity, type QuantityName } from '../../../src/core/units/quantities.ts';
import { fromSi, toSi } from '../../../src/core/units/parse-quantity.ts';

describe('a number as written', () => {
  it('loses what only its binary form adds', () => {
    expect(asWritten(11.999999999999998)).toBe(12);
    expect(asWritten(0.1 + 0.2)).toBe(0.3);
    expect(asWritten(-2.9999999999999996)).toBe(-3);
    expect(asWritten(1.1 * 3)).toBe(3.3);
    expect(asWritten(1e-7 * 3)).toBe(3e-7);
    expect(asWritten(4.35e20 / 1e6 / 1e-2)).toBe(4.35e16);
  });

  it('stays where a person could not have written it', () => {
    for (const x of [1 / 3, Math.PI, 121.75487798313944, 2 / 7e9, 1e-300 / 3, -Math.E * 1e40])
      expect(asWritten(x)).toBe(x);
    // Thirteen figures, or twelve and more than the last bits.
    for (const x of [1.234567890123, 12 + 1e-12, 5 - 1e-13]) expect(asWritten(x)).toBe(x);
    for (const x of [0, -7, 1e300, Infinity, -Infinity, NaN, Number.MIN_VALUE]) expect(asWritten(x)).toBe(x);
  });

  it('is what was given in any unit, in the unit it was given in', () => {
    const given = [0.1, 0.3, 0.375, 0.57, 1.1, 2.4, 3, 11.3, 12, 33.7, 70, 105.9, 999.99, 123456.789];
    for (const [name, { units }] of Object.entries(QUANTITIES) as [QuantityName, Quantity][])
      for (const unit of Object.keys(units))
        for (const x of given)
          for (const sign of [1, -1])
            expect(writtenFromSi(toSi(sign * x, name, 'US', unit), name, 'US', unit), `${x} ${unit}`).toBe(sign * x);
  });

  it('is nothing where a temperature is the zero of its scale', () => {
    // 0 F and 0 C come back as the last bits of 459.67 and 273.15.
    const zero = fromSi(toSi(0, 'temperature', 'US'), 'temperature', 'US');
    expect(Math.abs(zero)).toBeLessThan(1e-12);
    expect(writtenFromSi(toSi(0, 'temperature', 'US'), 'temperature', 'US')).toBe(0);
    expect(writtenFromSi(toSi(-0.3, 'temperature', 'SI'), 'temperature', 'SI')).toBe(-0.3);
  });
});

describe('a number to so many figures', () => {
  it('is the same as when it is written out', () => {
    const numbers = [0, -3.14159, 1e-9 / 3, 2e9 / 3, Infinity, NaN, 0.001, 999999.4, 1e6, 12.345, 0.5, 2.5, 99.995];
    for (let power = -4; power < 7; power++)
      for (let i = 1; i < 400; i++) {
        const x = 10 ** power * (1 + ((i * 0.618033988749895) % 1) * 9);
        // Halves of the last figure too, and what stands right beside them and beside powers of ten.
        for (const digits of [2, 3, 4, 6]) numbers.push(x, Number(`${Number(x.toPrecision(digits))}5`));
      }
    for (let power = -3; power < 7; power++)
      for (const ulps of [-2, -1, 0, 1, 2]) numbers.push(10 ** power * (1 + ulps * Number.EPSILON));
    for (const digits of [1, 2, 3, 4, 6])
      expect(numbers.filter((x) => !Object.is(toFigures(x, digits), Number(x.toPrecision(digits))))).toEqual([]);
  });
});
