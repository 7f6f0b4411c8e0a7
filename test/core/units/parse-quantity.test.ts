import { describe, expect, it } from 'vitest';
import { fromSi, knownUnit, parseQuantity, readQuantityText, toSi } from '../../../src/core/units/parse-quantity.ts';
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
    ['1\'-2"', 14 * INCH],
    ['1\' - 2½"', 14.5 * INCH],
    ['1 ft 2', 14 * INCH],
    ['1’ 2 3/8”', 14.375 * INCH],
    ['2 ft. 6 in.', 30 * INCH],
    ['Ø90', 90 * INCH],
    ['⌀ 90 mm', 0.09],
    ['90 mm dia.', 0.09],
    ['3 1/2 in dia', 3.5 * INCH],
    ['90 dia mm', 0.09],
    ['3-1/2 dia. in', 3.5 * INCH],
    ['diameter 3-1/2', 3.5 * INCH],
    ['7/8"', 0.875 * INCH],
    ['７／８＂', 0.875 * INCH],
    ['１００ｍｍ', 0.1],
    ['4–1/2″', 4.5 * INCH],
    ['100㎜', 0.1],
    ['\u20607\u00a0mm', 0.007],
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
    expect(parseQuantity('2 in 6', 'distance')).toBeUndefined();
    expect(parseQuantity('2 m 6', 'distance')).toBeUndefined();
    expect(parseQuantity('1h30min', 'time')).toBeCloseTo(5400, 9);
    expect(parseQuantity('1 h 30', 'time')).toBeCloseTo(5400, 9);
    expect(parseQuantity('20 ℃', 'temperature')).toBeCloseTo(293.15, 9);
  });

  it('reads the longest unit that fits, whole words only, and squares and cubes as they are written', () => {
    expect(parseQuantity('1 bar abs', 'pressure')).toBeCloseTo(1e5 - 101325, 6);
    expect(parseQuantity('1 barn', 'pressure')).toBeUndefined();
    expect(parseQuantity('1 in²', 'area')).toBeCloseTo(INCH ** 2, 15);
    expect(parseQuantity('1 ft³', 'volume')).toBeCloseTo(0.3048 ** 3, 15);
    expect(parseQuantity('1⅔ ft', 'length')).toBeCloseTo((5 / 3) * 0.3048, 12);
  });
});

describe('a text that is no quantity', () => {
  it.each([
    ['60 mmm', 'unknown unit', 'mmm', ['mm']],
    ['12 inhes', 'unknown unit', 'inhes', ['inches']],
    ['4 kg', 'unknown unit', 'kg', []],
    ['3 in thick', 'unknown unit', 'thick', []],
    ['60 x 200', 'left over', 'x 200', []],
    ['4 in 3', 'left over', '3', []],
    ['4 in -3 in', 'left over', '-3 in', []],
    ['2 m.5 m', 'left over', 'm.5 m', []],
    ['90 ±0.5', 'left over', '±0.5', []],
    ['4,5', 'comma', ',5', []],
    ['1.234,5', 'comma', ',5', []],
    ['wide', 'no number', 'wide', []],
    ['1/0', 'no number', '1/0', []],
  ] as const)('%s says what is wrong with it: %s', (text, problem, part, nearest) => {
    expect(readQuantityText(text, 'length')).toEqual({ problem, part, nearest });
  });
});

describe('a thousand texts as people write lengths', () => {
  // Its own generator, so that a failure can be told again by its number.
  let state = 12345;
  const random = (): number => (state = (state * 48271) % 2147483647) / 2147483647;
  const of = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
  const fullwidth = (text: string): string =>
    text.replace(/[!-~]/g, (c) => String.fromCharCode(c.charCodeAt(0) + 0xfee0));
  const dash = (): string => of(['-', '\u2010', '\u2011', '\u2013', '\u2014', '\uff0d']);

  /** A number in some writing, with its value. */
  const number = (): readonly [string, number] => {
    const whole = Math.floor(random() * 40) + 1;
    const [sign, over, under] = of([
      ['½', 1, 2],
      ['⅜', 3, 8],
      ['⅞', 7, 8],
      ['¼', 1, 4],
    ] as const);
    const decimals = whole + Math.floor(random() * 1000) / 1000;
    return of([
      [String(whole), whole],
      [String(decimals), decimals],
      [`${whole}${of([' ', dash(), ` ${dash()} `])}${over}/${under}`, whole + over / under],
      [`${whole}${sign}`, whole + over / under],
      [`${over}⁄${under}`, over / under],
    ] as const);
  };
  const INCHES = ['in', '"', '″', '”', ' in.', ' inches', ' IN', "''"];
  const FEET = ["'", '′', '’', ' ft', ' ft.', ' feet'];
  /** A whole text, with its value in metres. */
  const text = (): readonly [string, number] => {
    const [n, x] = number();
    const [m, y] = number();
    const feet = Math.floor(random() * 20) + 1;
    const [plain, si] = of([
      [n, x * INCH],
      [`${n}${of(INCHES)}`, x * INCH],
      [`${n}${of([' ', ''])}${of(['mm', 'MM', 'mm.', '㎜'])}`, x * 1e-3],
      [`${feet}${of(FEET)}${of([' ', dash(), ` ${dash()} `])}${m}${of(INCHES)}`, (12 * feet + y) * INCH],
      [`${feet}${of(FEET)} ${m}`, (12 * feet + y) * INCH],
    ] as const);
    const dia = of([plain, plain, `Ø${plain}`, `⌀ ${plain}`, `dia. ${plain}`, `${plain} dia`, `${plain} DIA.`]);
    return [of([dia, dia, fullwidth(dia), `  ${dia}\u00a0`]), si];
  };

  it('are read as meant', () => {
    for (let i = 0; i < 1000; i++) {
      const [written, si] = text();
      const read = readQuantityText(written, 'length');
      expect('si' in read && Math.abs(read.si - si) < 1e-12, `${i}: ${written} is ${JSON.stringify(read)}`).toBe(true);
    }
  });

  it('are refused with the part named where a word that is no unit follows', () => {
    for (let i = 0; i < 1000; i++) {
      const [written] = text();
      const word = `q${String.fromCharCode(97 + Math.floor(random() * 26))}z`;
      const read = readQuantityText(`${written.trim()} ${word}`, 'length');
      expect(read, `${i}: ${written} ${word}`).toHaveProperty('part');
      expect('part' in read && read.part.includes(word), `${i}: ${written} ${word} ${JSON.stringify(read)}`).toBe(true);
    }
  });

  it('are read the same when they are written out again', () => {
    for (let i = 0; i < 1000; i++) {
      const si = text()[1];
      for (const unit of ['in', 'mm', 'ft', 'm'] as const)
        expect(parseQuantity(`${fromSi(si, 'length', 'US', unit)} ${unit}`, 'length')).toBeCloseTo(si, 12);
    }
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
