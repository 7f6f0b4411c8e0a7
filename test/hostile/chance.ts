import { seeded } from '../../src/core/spread/seeded.ts';

/** Choices that a seed decides, so that every case can be made again. */
export class Chance {
  private readonly uniform: () => number;

  constructor(seed: number) {
    this.uniform = seeded(seed).uniform;
  }

  /** A whole number from 0 to below `n`. */
  below(n: number): number {
    return Math.floor(this.uniform() * n);
  }

  one<T>(list: readonly T[]): T {
    return list[this.below(list.length)] as T;
  }

  /** Once in `n` times. */
  in(n: number): boolean {
    return this.below(n) === 0;
  }

  times<T>(most: number, make: () => T): T[] {
    return Array.from({ length: 1 + this.below(most) }, make);
  }
}
