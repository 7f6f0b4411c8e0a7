/** Heat flux leaving a surface [W/m2] and its slope [W/m2 K], over the surface temperature [K]. */
export interface FluxLaw {
  flux(surface: number): number;
  slope(surface: number): number;
  /** `lose` of this law, where it has a quicker way. */
  lose?(cells: Losing, part: number): void;
}

/** Cells that lose heat at the ends, each by its share [m]. */
export interface Losing {
  /** Temperatures [K], of both surfaces before and behind. */
  readonly T: Float64Array;
  readonly share: Float64Array;
  /** Heat lost [W/m], and how it grows with the temperature [W/m K]; a falling law counts as a flat one. */
  readonly lost: Float64Array;
  readonly slope: Float64Array;
}

/** Adds what cells lose by a law that holds for a part of their ends. */
export function lose(law: FluxLaw, cells: Losing, part = 1): void {
  if (law.lose) law.lose(cells, part);
  else {
    const { T, share, lost, slope } = cells;
    for (let i = 1; i < T.length - 1; i++) {
      const by = part * share[i]!;
      lost[i] = lost[i]! + by * law.flux(T[i]!);
      slope[i] = slope[i]! + by * Math.max(0, law.slope(T[i]!));
    }
  }
}

/** No heat passes. */
export const INSULATED: FluxLaw = { flux: () => 0, slope: () => 0 };

/**
 * Newton's law of cooling: q = h (T - ambient).
 *
 * @example constantFilm(10, 293.15).flux(393.15) // 1000
 */
export function constantFilm(coefficient: number, ambient: number): FluxLaw {
  return { flux: (surface) => coefficient * (surface - ambient), slope: () => coefficient };
}

/** See `tabulated`. One class for all tables, so that the loops that read them are compiled once for all. */
class Tabulated implements FluxLaw {
  private readonly law: (surface: number) => number;
  private readonly from: number;
  private readonly step: number;
  private readonly last: number;
  private readonly table: Float64Array;

  constructor(law: (surface: number) => number, from: number, to: number, step: number) {
    this.law = law;
    this.from = from;
    this.step = step;
    this.last = Math.ceil((to - from) / step) - 1;
    this.table = new Float64Array(this.last + 2).fill(NaN);
  }

  flux(surface: number): number {
    const i = this.cell(surface);
    return this.table[i]! + ((this.table[i + 1]! - this.table[i]!) / this.step) * (surface - this.from - i * this.step);
  }

  slope(surface: number): number {
    const i = this.cell(surface);
    return (this.table[i + 1]! - this.table[i]!) / this.step;
  }

  lose({ T, share, lost, slope }: Losing, part: number): void {
    const { table, from, step, last } = this;
    for (let i = 1; i < T.length - 1; i++) {
      const t = T[i]!;
      const by = part * share[i]!;
      // As `cell`, without a call for each.
      const at = (t - from) / step;
      const j = at > 0 ? (at < last ? at | 0 : last) : 0;
      let rise = (table[j + 1]! - table[j]!) / step;
      if (rise !== rise) {
        // Only NaN differs from itself.
        this.cell(t);
        rise = (table[j + 1]! - table[j]!) / step;
      }
      lost[i] = lost[i]! + by * (table[j]! + rise * (t - from - j * step));
      if (rise > 0) slope[i] = slope[i]! + by * rise;
    }
  }

  /** Place in the table, both of its ends worked out. */
  private cell(surface: number): number {
    const i = Math.min(this.last, Math.max(0, Math.floor((surface - this.from) / this.step)));
    // Only NaN differs from itself.
    if (this.table[i] !== this.table[i]) this.fill(i);
    if (this.table[i + 1] !== this.table[i + 1]) this.fill(i + 1);
    return i;
  }

  private fill(i: number): void {
    this.table[i] = this.law(this.from + i * this.step);
  }
}

/**
 * A law read from a table with equal steps, so that a costly correlation is worked out once a pin, and only where a wall gets to.
 * Straight lines between points; the end slopes go on outside.
 */
export const tabulated = (law: (surface: number) => number, from: number, to: number, step: number): FluxLaw =>
  new Tabulated(law, from, to, step);

/** One law up to a wall temperature and another from there. */
class Switched implements FluxLaw {
  private readonly limit: number;
  private readonly below: FluxLaw;
  private readonly above: FluxLaw;

  constructor(limit: number, below: FluxLaw, above: FluxLaw) {
    this.limit = limit;
    this.below = below;
    this.above = above;
  }

  flux(surface: number): number {
    return surface < this.limit ? this.below.flux(surface) : this.above.flux(surface);
  }

  slope(surface: number): number {
    return surface < this.limit ? this.below.slope(surface) : this.above.slope(surface);
  }
}

/** One law below a wall temperature [K], another from there on; it may jump between. */
export const switched = (limit: number, below: FluxLaw, above: FluxLaw): FluxLaw => new Switched(limit, below, above);

/** See `mixed`. */
class Mixed implements FluxLaw {
  private readonly share: number;
  private readonly one: FluxLaw;
  private readonly other: FluxLaw;

  constructor(share: number, one: FluxLaw, other: FluxLaw) {
    this.share = share;
    this.one = one;
    this.other = other;
  }

  flux(surface: number): number {
    return this.share * this.one.flux(surface) + (1 - this.share) * this.other.flux(surface);
  }

  slope(surface: number): number {
    return this.share * this.one.slope(surface) + (1 - this.share) * this.other.slope(surface);
  }

  lose(cells: Losing, part: number): void {
    lose(this.one, cells, part * this.share);
    lose(this.other, cells, part * (1 - this.share));
  }
}

/** A surface of which a share follows one law and the rest another. */
export const mixed = (share: number, one: FluxLaw, other: FluxLaw): FluxLaw => new Mixed(share, one, other);
