import { describe, expect, it } from 'vitest';
import { noiseAverage } from '../../src/core/safety/noise-average.ts';
import { noiseDose } from '../../src/core/safety/noise-dose.ts';
import { noiseHours } from '../../src/core/safety/noise-hours.ts';
import { findNoiseRule } from '../../src/core/safety/noise-rules.ts';

const HOUR = 3600;
const osha = findNoiseRule('OSHA');
const niosh = findNoiseRule('NIOSH');
const eu = findNoiseRule('EU');

/** 29 CFR 1910.95, Table G-16, as printed. Its hours are rounded: 92 dBA prints 6, the note's formula gives 6.06. */
const G16: readonly (readonly [number, number])[] = [
  [90, 8],
  [92, 6],
  [95, 4],
  [97, 3],
  [100, 2],
  [102, 1.5],
  [105, 1],
  [110, 0.5],
  [115, 0.25],
];

/** 29 CFR 1910.95, Appendix A, Table G-16a, as printed: every third row and the last. */
const G16A: readonly (readonly [number, number])[] = [
  [80, 32],
  [82, 24.3],
  [85, 16],
  [88, 10.6],
  [91, 7.0],
  [94, 4.6],
  [97, 3.0],
  [100, 2],
  [103, 1.3],
  [106, 0.87],
  [109, 0.57],
  [112, 0.38],
  [115, 0.25],
  [118, 0.16],
  [121, 0.11],
  [124, 0.072],
  [127, 0.047],
  [130, 0.031],
];

/** Rows of noise.csv: formula of Appendix A in hours, and 480 / 2^((L - 85) / 3) in minutes (NIOSH 98-126, 1.1). */
const COMPUTED: readonly (readonly [number, number, number])[] = [
  [80, 32, 1523.905],
  [82, 24.25147, 960],
  [84, 18.37917, 604.7621],
  [86, 13.92881, 380.9763],
  [88, 10.55606, 240],
  [90, 8, 151.1905],
  [92, 6.06287, 95.2441],
  [94, 4.59479, 60],
  [96, 3.4822, 37.7976],
  [98, 2.63902, 23.811],
  [100, 2, 15],
  [102, 1.51572, 9.4494],
  [104, 1.1487, 5.9528],
  [106, 0.87055, 3.75],
  [108, 0.65975, 2.3624],
  [110, 0.5, 1.4882],
  [112, 0.37893, 0.9375],
  [114, 0.28717, 0.5906],
];

/** A printed number is right to half a unit of its last figure, or of a whole hour in Table G-16. */
const lastFigure = (printed: number): number => {
  const decimals = String(printed).split('.')[1]?.length ?? 0;
  return 0.5 * 10 ** -decimals;
};

describe('29 CFR 1910.95', () => {
  it("prints the hours of Table G-16 as the note's formula gives them, rounded", () => {
    for (const [level, hours] of G16)
      expect(Math.abs(noiseHours(level, osha) / HOUR - hours), String(level)).toBeLessThanOrEqual(0.07);
    for (const level of [90, 95, 100, 105, 110, 115]) {
      expect(noiseHours(level, osha) / HOUR).toBeCloseTo(G16.find(([l]) => l === level)?.[1] ?? NaN, 12);
    }
  });

  it('prints Table G-16a to its last figure', () => {
    for (const [level, hours] of G16A) {
      // 82 prints 24.3 where the formula gives 24.25147, which is 24.3 rounded; 118 prints 0.16 for 0.1649.
      expect(Math.abs(noiseHours(level, osha) / HOUR - hours), String(level)).toBeLessThanOrEqual(
        lastFigure(hours) + 1e-9,
      );
    }
  });

  it('gives the averages of Appendix A: 50 percent is 85 dBA, 100 is 90, 200 is 95, 400 is 100', () => {
    for (const [percent, average] of [
      [25, 80],
      [50, 85],
      [100, 90],
      [200, 95],
      [400, 100],
    ] as const)
      expect(noiseAverage(percent / 100, osha)).toBeCloseTo(average, 9);
    // I(2) of the appendix rounds the multiplier to 16.61.
    for (const dose of [0.3, 0.8, 1.7, 5])
      expect(noiseAverage(dose, osha)).toBeCloseTo(16.61 * Math.log10(dose) + 90, 2);
  });

  it('adds tasks as Appendix A, I(1)(ii) does', () => {
    const D = noiseDose(
      [
        { level: 95, time: 1 * HOUR },
        { level: 100, time: 0.5 * HOUR },
        { level: 90, time: 4 * HOUR },
      ],
      osha,
    );
    expect(D).toBeCloseTo(1 / 4 + 0.5 / 2 + 4 / 8, 12);
  });
});

describe('NIOSH 98-126', () => {
  it('gives the minutes of its formula', () => {
    for (const [level, , minutes] of COMPUTED) expect(noiseHours(level, niosh) / 60).toBeCloseTo(minutes, 3);
    for (const [level, hours] of COMPUTED) expect(noiseHours(level, osha) / HOUR).toBeCloseTo(hours, 4);
  });

  it('gives its average within the rounding of its multiplier, 10.0 for 9.966', () => {
    for (const dose of [0.3, 1, 5, 10])
      expect(Math.abs((noiseAverage(dose, niosh) ?? NaN) - (10 * Math.log10(dose) + 85))).toBeLessThan(
        0.035 * Math.abs(Math.log10(dose)) + 1e-9,
      );
  });
});

describe('Directive 2003/10/EC', () => {
  /**
   * Times equivalent to each level as tabulated by the European Commission's scientific committee (SCENIHR 2008,
   * Table 3), which trades 3 dB for a factor of 2 and rounds to whole minutes.
   */
  it('has the equivalent times of its action and limit values', () => {
    const cases: readonly (readonly [number, number, number])[] = [
      [80, 83, 240],
      [80, 92, 30],
      [80, 101, 4],
      [85, 88, 240],
      [85, 97, 30],
      [85, 100, 15],
      [87, 90, 240],
      [87, 99, 30],
      [87, 102, 15],
    ];
    for (const [criterion, level, minutes] of cases) {
      const ours = noiseHours(level, eu, criterion) / 60;
      expect(Math.abs(ours - minutes) / minutes, `${String(level)} dBA to ${String(criterion)}`).toBeLessThan(0.06);
    }
  });
});
