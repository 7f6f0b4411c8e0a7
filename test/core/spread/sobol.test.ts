import { describe, expect, it } from 'vitest';
import { CalcError } from '../../../src/core/errors.ts';
import { seeded } from '../../../src/core/spread/seeded.ts';
import { SOBOL_DIMENSIONS, sobolColumn } from '../../../src/core/spread/sobol.ts';

// SciPy 1.17.1, scipy.stats.qmc.Sobol(64, scramble=False), points 777 and 1000 times 2^30.
const POINT_777 = [
  743440384, 1005584384, 175112192, 294649856, 682622976, 382730240, 204472320, 818937856, 374341632, 347078656,
  800063488, 747634688, 412090368, 508559360, 611319808, 552599552, 433061888, 927989760, 397410304, 808452096,
  254803968, 292552704, 1016070144, 516947968, 370147328, 156237824, 63963136, 837812224, 68157440, 118489088,
  581959680, 965738496, 120586240, 3145728, 865075200, 1016070144, 495976448, 376438784, 368050176, 384827392,
  774897664, 286261248, 1018167296, 430964736, 344981504, 162529280, 403701760, 34603008, 833617920, 1022361600,
  89128960, 38797312, 661651456, 760217600, 743440384, 978321408, 382730240, 693108736, 860880896, 592445440, 550502400,
  525336576, 147849216, 458227712,
];
const POINT_1000 = [
  235929600, 103809024, 556793856, 726663168, 300941312, 974127104, 49283072, 965738496, 537919488, 74448896, 91226112,
  273678336, 173015040, 412090368, 154140672, 397410304, 772800512, 370147328, 1064304640, 779091968, 560988160,
  590348288, 1020264448, 579862528, 625999872, 974127104, 42991616, 1051721728, 63963136, 365953024, 158334976,
  156237824, 317718528, 636485632, 860880896, 827326464, 911212544, 892338176, 330301440, 514850816, 980418560,
  273678336, 1030750208, 753926144, 902823936, 99614720, 936378368, 986710016, 1072693248, 514850816, 378535936,
  554696704, 808452096, 470810624, 135266304, 957349888, 487587840, 84934656, 948961280, 613416960, 479199232,
  646971392, 277872640, 479199232,
];

const all = Array.from({ length: SOBOL_DIMENSIONS }, (_, d) => d);

/** Number of distinct cells hit when each coordinate is cut into 2^bits intervals. */
function cells(columns: readonly Float64Array[], bits: readonly number[]): number {
  const hit = new Set<number>();
  const count = columns[0]?.length ?? 0;
  for (let i = 0; i < count; i++) {
    let cell = 0;
    columns.forEach(
      (column, k) => (cell = cell * 2 ** (bits[k] ?? 0) + Math.floor((column[i] ?? NaN) * 2 ** (bits[k] ?? 0))),
    );
    hit.add(cell);
  }
  return hit.size;
}

describe('Sobol points without scramble', () => {
  it('begin as published', () => {
    // First two coordinates, as in the tests of SciPy (test_qmc.py).
    expect([...sobolColumn(0, 8)]).toEqual([0, 0.5, 0.75, 0.25, 0.375, 0.875, 0.625, 0.125]);
    expect([...sobolColumn(1, 8)]).toEqual([0, 0.5, 0.25, 0.75, 0.375, 0.875, 0.125, 0.625]);
  });

  it('agree with an independent program in all 64 dimensions', () => {
    const columns = all.map((d) => sobolColumn(d, 1001));
    expect(columns.map((c) => (c[777] ?? NaN) * 2 ** 30)).toEqual(POINT_777);
    expect(columns.map((c) => (c[1000] ?? NaN) * 2 ** 30)).toEqual(POINT_1000);
  });

  it('hit each of the 2^16 corners of 16 dimensions once (property A of Sobol)', () => {
    // Joe and Kuo 2008: their numbers keep property A in every leading set of dimensions.
    const columns = all.slice(0, 16).map((d) => sobolColumn(d, 2 ** 16));
    expect(cells(columns, new Array<number>(16).fill(1))).toBe(2 ** 16);
  });
});

describe.each([undefined, 1, 20240601])('Sobol points with seed %s', (seed) => {
  it('put one point in each of n intervals on every axis', () => {
    for (const n of [2, 16, 256, 1024])
      for (const d of all) expect(cells([sobolColumn(d, n, seed)], [Math.log2(n)])).toBe(n);
  });

  it('put one point in each box of the first two axes, whatever its shape', () => {
    const columns = [sobolColumn(0, 256, seed), sobolColumn(1, 256, seed)];
    for (let k = 0; k <= 8; k++) expect(cells(columns, [k, 8 - k])).toBe(256);
  });

  it('are without repetition and inside 0 to 1', () => {
    for (const d of [0, 15, 63]) {
      const column = sobolColumn(d, 4096, seed);
      expect(new Set(column).size).toBe(4096);
      expect(column.every((x) => x < 1 && (seed === undefined ? x >= 0 : x > 0))).toBe(true);
    }
  });
});

describe('scramble', () => {
  it('repeats with the seed, differs without it and between axes', () => {
    expect(sobolColumn(3, 64, 9)).toEqual(sobolColumn(3, 64, 9));
    expect(sobolColumn(3, 64, 9)).not.toEqual(sobolColumn(3, 64, 10));
    expect(sobolColumn(0, 64, 9)).not.toEqual(sobolColumn(1, 64, 9));
  });

  it('keeps the first points when more are asked for', () => {
    expect(sobolColumn(5, 4096, 3).slice(0, 100)).toEqual(sobolColumn(5, 100, 3));
  });

  it('makes each point uniform over seeds', () => {
    const n = 4000;
    for (const [d, i] of [
      [0, 0],
      [2, 1],
      [7, 5],
      [63, 30],
    ] as const) {
      const sorted = Array.from({ length: n }, (_, s) => sobolColumn(d, i + 1, s)[i] ?? NaN).sort((a, b) => a - b);
      const distance = Math.max(...sorted.map((x, k) => Math.abs(x - (k + 0.5) / n)));
      expect(distance * Math.sqrt(n)).toBeLessThan(1.95); // Kolmogorov-Smirnov, 0.1 % point
    }
  });

  it('leaves pairs of axes uncorrelated', () => {
    const n = 1024;
    const columns = all.slice(0, 24).map((d) => sobolColumn(d, n, 77));
    for (let a = 0; a < 24; a++) {
      for (let b = a + 1; b < 24; b++) {
        let sum = 0;
        for (let i = 0; i < n; i++) sum += ((columns[a]?.[i] ?? NaN) - 0.5) * ((columns[b]?.[i] ?? NaN) - 0.5);
        // Random draws would have a standard error of 0.031.
        expect(Math.abs((12 * sum) / n)).toBeLessThan(0.05);
      }
    }
  });
});

describe('averages over Sobol points', () => {
  // Product of (1 + (x - 1/2)/k), mean exactly 1.
  const error = (columns: readonly ArrayLike<number>[], n: number): number => {
    let sum = 0;
    for (let i = 0; i < n; i++)
      sum += columns.reduce((product, c, k) => product * (1 + ((c[i] ?? NaN) - 0.5) / (k + 1)), 1);
    return sum / n - 1;
  };
  const rms = (of: (seed: number) => number): number => {
    const seeds = 20;
    let sum = 0;
    for (let s = 1; s <= seeds; s++) sum += of(s) ** 2;
    return Math.sqrt(sum / seeds);
  };

  it('settle at least ten times closer than plain draws at 1024 points in 16 dimensions', () => {
    const n = 1024;
    const sobol = rms((s) =>
      error(
        all.slice(0, 16).map((d) => sobolColumn(d, n, s)),
        n,
      ),
    );
    const plain = rms((s) => {
      const { uniform } = seeded(s);
      return error(
        all.slice(0, 16).map(() => Array.from({ length: n }, uniform)),
        n,
      );
    });
    expect(sobol).toBeLessThan(plain / 10);
  });

  it('settle faster than the square root of the number', () => {
    const at = (n: number): number =>
      rms((s) =>
        error(
          all.slice(0, 8).map((d) => sobolColumn(d, n, s)),
          n,
        ),
      );
    expect(at(64) / at(4096)).toBeGreaterThan(2 * Math.sqrt(4096 / 64));
  });
});

describe('arguments', () => {
  it.each([
    [-1, 8],
    [64, 8],
    [1.5, 8],
    [0, 0],
    [0, 1.5],
    [0, 2 ** 24 + 1],
    [NaN, 8],
    [0, NaN],
  ])('dimension %d with %d points is refused', (d, n) => {
    expect(() => sobolColumn(d, n)).toThrow(CalcError);
  });
});
