import { coolingUnsolved } from '../messages.ts';
import { INSULATED, lose, type FluxLaw, type Losing } from './flux-law.ts';
import { contentAt, type Metal } from './metal.ts';
import { products } from './products.ts';
import type { RadialMesh } from './radial-mesh.ts';

/** A stretch of time with unchanging surroundings. */
export interface Stage {
  /** How long it lasts [s]; the last one may be open-ended. */
  readonly duration: number;
  /** Flux leaving through the bore, negative where it is heated. */
  readonly bore: FluxLaw;
  /** Flux leaving through the outside. */
  readonly outside: FluxLaw;
  /** Flux leaving through each of the two end faces, and the length between them [m]. */
  readonly ends?: { readonly law: FluxLaw; readonly length: number };
  /** Whether `until` is watched in this stage; it is unless this says false. */
  readonly watched?: boolean;
  /** Times the tolerance that a step may be off; 1 where left out. Heat is conserved however many. */
  readonly slack?: number;
  /** No step may take a cell below this [K], the coolest of start and surroundings. */
  readonly coolest?: number;
}

export interface ConductionOptions {
  /** Conductance of every joint between layers [W/m2 K]. */
  readonly contact: number;
  /** Error allowed in one step [K]. */
  readonly tolerance: number;
  /** A fixed step [s] in place of the controlled one. */
  readonly step?: number;
  /** For a large tolerance: steps begin long and grow fast, and the end that is watched for is read between those of its step. */
  readonly hasty?: boolean;
}

/** A moment of the solution. Arrays are reused: copy what is to be kept. */
export interface Moment {
  /** Time from the start [s]. */
  readonly time: number;
  /** Temperatures [K]: bore surface, cells from the inside out, outer surface. */
  readonly temperatures: Float64Array;
  /** Heat taken in through the bore so far [J/m]. */
  readonly throughBore: number;
}

export interface ConductionResult {
  /** Time reached [s]. */
  readonly time: number;
  readonly temperatures: Float64Array;
  readonly steps: number;
  /** True where `until` ended the run. */
  readonly stopped: boolean;
  /** Heat per length [J/m]: held above the start, taken in at the bore, lost outside and at the ends. */
  readonly stored: number;
  readonly throughBore: number;
  readonly throughOutside: number;
  readonly throughEnds: number;
}

export interface Watch {
  /** Called after each accepted step. */
  readonly step?: (moment: Moment) => void;
  /** Ends the run at the first moment this falls to zero in a watched stage; reads the cells, not the surfaces. */
  readonly until?: (temperatures: Float64Array) => number;
}

/**
 * ROS3: stable however stiff (L-stable), third order with two evaluations a step, since the second and the third stage share theirs,
 * and with an error estimate of the second order. A. Sandu, J. G. Verwer, J. G. Blom, E. J. Spee, G. R. Carmichael & F. A. Potra,
 * Atmospheric Environment 31 (1997) 3459; coefficients from memory, their order is tested.
 */
const GAMMA = 0.435866521508459;
const [C21, C31, C32] = [-1.01561710838777, 4.07599564525377, 9.20767942983308];
const [M2, M3] = [6.16979470438282, -0.427722565432186];
const [E1, E2, E3] = [0.5, -2.90795587168055, 0.223540698978116];

/** Error, over the tolerance, reported for a step that overshoots the surroundings by more than rounding [K]. */
const TOO_LONG = 8;
const UNDERSHOOT = 1e-6;
const MOST_STEPS = 200_000;
/** A step refused down to this [s] never settles. */
const SHORTEST_STEP = 1e-12;
/** First step of a stage, over the time in which heat gets through the innermost cell, and powers of the error by which steps grow and shrink. */
const CAREFUL = { first: 4, growth: -1 / 3, shrinkage: -1 / 3 } as const;
/** After a jump of the flux the error goes by less than the step, not by its third power. */
const HASTY = { first: 15, growth: -1, shrinkage: -2 } as const;
/** `until` counts as zero within this share of the tolerance. */
const NEAR = 0.02;

/**
 * Transient heat conduction in concentric rings.
 *
 * rho A dh/dt = sum of 2 pi k (T_j - T_i) / ln(r_j / r_i) - 2 A q_end / L on each cell, in enthalpy form so that the
 * latent peak is conserved, with surface temperatures where q(T_s) meets the conduction to them, and joints in series
 * with 1 / (2 pi r h_contact). Second order in the cell size; in time a linearly implicit method, which needs no iteration, its
 * step chosen from the error of the method one order below, or fixed.
 * start [K], uniform or per cell. Any continuous material; flux laws may jump where a cooling wall passes once; heat along the axis is not in it
 * except through the end faces.
 * Source: finite volumes after Patankar, Numerical Heat Transfer and Fluid Flow (1980), ch. 4; time scheme as named above.
 */
export function radialConduction(
  mesh: RadialMesh,
  metal: Metal,
  start: number | Float64Array,
  stages: readonly Stage[],
  options: ConductionOptions,
  watch: Watch = {},
): ConductionResult {
  const rings = new Conduction(mesh, metal, start, options);
  const { first, growth, shrinkage } = options.hasty ? HASTY : CAREFUL;
  const heatAtStart = rings.heatHeld();
  let time = 0;
  let steps = 0;
  let stopped = false;
  for (const stage of stages) {
    if (stopped || !(stage.duration > 0)) continue;
    rings.begin(stage);
    const until = stage.watched === false ? undefined : watch.until;
    let ahead = until ? until(rings.T) : 1;
    stopped = ahead <= 0;
    const end = time + stage.duration;
    let dt = options.step ?? first * rings.diffusionTime();
    while (time < end && !stopped) {
      if (steps > MOST_STEPS || !(dt > SHORTEST_STEP)) throw coolingUnsolved();
      const left = end - time;
      let trial = Math.min(dt, left);
      // Avoids a sliver of a step at the end of a stage.
      if (trial < left && trial > 0.5 * left) trial = 0.5 * left;
      const error = rings.tryStep(trial);
      if (options.step === undefined && !(error <= 1)) {
        dt = trial * (error < Infinity ? Math.max(0.2, 0.9 * error ** shrinkage) : 0.2);
        continue;
      }
      if (!(error < Infinity)) throw coolingUnsolved();
      if (until) {
        const beyond = until(rings.after);
        const whole = trial;
        stopped = beyond <= 0;
        if (stopped)
          trial = crossing(ahead, trial, beyond, NEAR * options.tolerance, (t) => {
            if (options.hasty) rings.readBetween(t / whole);
            else rings.tryStep(t);
            return until(rings.after);
          });
        ahead = beyond;
      }
      rings.accept(trial);
      time += trial;
      steps++;
      if (time > end - 1e-12 * end) time = end;
      watch.step?.({ time, temperatures: rings.T, throughBore: rings.through[0]! });
      if (options.step === undefined) dt = trial * Math.min(6, Math.max(0.2, 0.9 * Math.max(error, 1e-6) ** growth));
    }
  }
  return {
    time,
    temperatures: rings.T,
    steps,
    stopped,
    stored: rings.heatHeld() - heatAtStart,
    throughBore: rings.through[0]!,
    throughOutside: rings.through[1]!,
    throughEnds: rings.through[2]!,
  };
}

/** Cells at one moment: heat held [J/m], temperature [K], conductivity [W/m K] and heat capacity [J/m K]. */
class Cells implements Losing {
  readonly heat: Float64Array;
  /** With those of both surfaces before and behind. */
  readonly T: Float64Array;
  readonly k: Float64Array;
  readonly capacity: Float64Array;
  /** Heat flowing into each cell [W/m], and conductances to the next one [W/m K]. */
  readonly rate: Float64Array;
  readonly G: Float64Array;
  /** Heat lost by each cell at the ends [W/m], and how it grows with its temperature [W/m K]. */
  readonly lost: Float64Array;
  readonly slope: Float64Array;
  /** Flows through bore, outside and ends [W/m]. */
  readonly flow = new Float64Array(3);

  /** Face area over length by which each cell loses heat at the ends [m]. */
  readonly share: Float64Array;

  constructor(size: number, share: Float64Array) {
    this.share = share;
    this.heat = new Float64Array(size);
    this.T = new Float64Array(size);
    this.k = new Float64Array(size);
    this.capacity = new Float64Array(size);
    this.rate = new Float64Array(size);
    this.G = new Float64Array(size);
    this.lost = new Float64Array(size);
    this.slope = new Float64Array(size);
  }
}

/**
 * Rings that conduct heat: their temperatures, and one step of time after another. What counts cells does nothing else, and what
 * calls it has no loop: so the engine compiles little, and soon. A first cell waits for that.
 */
class Conduction {
  /** Flows through bore, outside and ends summed over time [J/m]: an array, since a number that changes costs an allocation. */
  readonly through = new Float64Array(3);
  /** What the ends of each stage lose more than at the start of the step [W/m]. */
  private readonly ended = new Float64Array(3);
  private now: Cells;
  private readonly middle: Cells;
  private then: Cells;
  private readonly metal: Metal;
  private readonly mesh: RadialMesh;
  private readonly tolerance: number;
  private readonly n: number;
  private readonly perimeterIn: number;
  private readonly perimeterOut: number;
  /** Of the path from each unknown to the next: ln(r_j / r_i) / (2 pi); where a joint lies on it, its resistance and both parts of the logarithm. */
  private readonly path: Float64Array;
  private readonly joint: Float64Array;
  private readonly inside: Float64Array;
  private readonly beyond: Float64Array;
  private readonly mass: Float64Array;
  private readonly pivot: Float64Array;
  /** The stages of a step [K]. */
  private readonly one: Float64Array;
  private readonly two: Float64Array;
  private readonly three: Float64Array;
  private bore: FluxLaw = INSULATED;
  private outside: FluxLaw = INSULATED;
  private ends: FluxLaw | undefined;
  // Not 0: a number that becomes a fraction later would change what compiled code expects.
  private slopeIn = NaN;
  private slopeOut = NaN;
  private allowed = NaN;
  private coolest = -Infinity;

  constructor(mesh: RadialMesh, metal: Metal, start: number | Float64Array, { contact, tolerance }: ConductionOptions) {
    const n = mesh.count;
    const column = (): Float64Array => new Float64Array(n + 2);
    this.mesh = mesh;
    this.metal = metal;
    this.tolerance = tolerance;
    this.n = n;
    this.perimeterIn = 2 * Math.PI * mesh.faces[0]!;
    this.perimeterOut = 2 * Math.PI * mesh.faces[n]!;
    const share = column();
    this.now = new Cells(n + 2, share);
    this.middle = new Cells(n + 2, share);
    this.then = new Cells(n + 2, share);
    this.path = column();
    this.joint = column();
    this.inside = column();
    this.beyond = column();
    this.mass = column();
    this.pivot = column();
    this.one = column();
    this.two = column();
    this.three = column();
    const { heat, T } = this.now;
    for (let i = 0; i <= n; i++) {
      const inner = i === 0 ? mesh.faces[0]! : mesh.middles[i - 1]!;
      this.path[i] =
        inner > 0 ? Math.log((i === n ? mesh.faces[n]! : mesh.middles[i]!) / inner) / (2 * Math.PI) : Infinity;
    }
    for (const cell of mesh.joints) {
      const i = cell + 1;
      const face = mesh.faces[i]!;
      this.joint[i] = 1 / (2 * Math.PI * face * contact);
      this.inside[i] = Math.log(face / mesh.middles[cell]!) / (2 * Math.PI);
      this.beyond[i] = Math.log(mesh.middles[i]! / face) / (2 * Math.PI);
    }
    for (let i = 1; i <= n; i++) {
      this.mass[i] = metal.density * mesh.areas[i - 1]!;
      heat[i] = this.mass[i]! * contentAt(metal, typeof start === 'number' ? start : start[i - 1]!);
    }
    this.read(this.now);
    T[0] = T[1]!;
    T[n + 1] = T[n]!;
  }

  /** Temperatures [K]: bore surface, cells from the inside out, outer surface. */
  get T(): Float64Array {
    return this.now.T;
  }

  /** Temperatures at the end of the step tried last; those of the surfaces are still of its start. */
  get after(): Float64Array {
    return this.then.T;
  }

  /** Heat held by all cells [J/m]. */
  heatHeld(): number {
    return this.now.heat.reduce((sum, h) => sum + h, 0);
  }

  /** Time in which heat gets through the innermost cell [s]. */
  diffusionTime(): number {
    const { mesh, now } = this;
    const thickness = mesh.faces[1]! - mesh.faces[0]!;
    return (thickness ** 2 * now.capacity[1]!) / (now.k[1]! * mesh.areas[0]!);
  }

  /** Surroundings from now on. */
  begin({ bore, outside, ends, slack = 1, coolest = -Infinity }: Stage): void {
    const { n, mesh } = this;
    const { share } = this.now;
    this.bore = bore;
    this.outside = outside;
    this.ends = ends?.law;
    this.allowed = slack * this.tolerance;
    this.coolest = coolest;
    for (let i = 1; i <= n; i++) share[i] = ends ? (2 * mesh.areas[i - 1]!) / ends.length : 0;
    this.look();
  }

  /** Flows of the present temperatures, and how they grow with them. */
  private look(): void {
    const { n, now } = this;
    this.flows(now);
    this.slopeIn = inSeries(now.G[0]!, this.perimeterIn * this.bore.slope(now.T[0]!));
    this.slopeOut = inSeries(now.G[n]!, this.perimeterOut * this.outside.slope(now.T[n + 1]!));
  }

  /** Temperatures, conductivities and capacities of cells by the heat that they hold. */
  private read({ heat, T, k, capacity }: Cells): void {
    const { n, mass } = this;
    const { from, step, temperatures, conductivities } = this.metal;
    const last = temperatures.length - 2;
    for (let i = 1; i <= n; i++) {
      const at = (heat[i]! / mass[i]! - from) / step;
      const j = at > 0 ? (at < last ? Math.floor(at) : last) : 0;
      const low = temperatures[j]!;
      const rise = temperatures[j + 1]! - low;
      const lowest = conductivities[j]!;
      T[i] = low + rise * (at - j);
      k[i] = lowest + (conductivities[j + 1]! - lowest) * (at - j);
      capacity[i] = (mass[i]! * step) / rise;
    }
  }

  /** Heat flowing into each cell that was read; finds the temperatures of the surfaces from their last ones. */
  private flows(cells: Cells): void {
    this.conductances(cells.k, cells.G);
    this.surfaces(cells);
    if (this.ends) this.lose(this.ends, cells);
    this.add(cells);
  }

  /** From each unknown to the next. */
  private conductances(k: Float64Array, G: Float64Array): void {
    const { n, path, joint, inside, beyond } = this;
    G[0] = k[1]! / path[0]!;
    for (let i = 1; i < n; i++) {
      // Each side of a joint has its own temperature, so its own conductivity over half of the path.
      if (joint[i] === 0) G[i] = (k[i]! + k[i + 1]!) / (2 * path[i]!);
      else G[i] = 1 / (inside[i]! / k[i]! + joint[i]! + beyond[i]! / k[i + 1]!);
    }
    G[n] = k[n]! / path[n]!;
  }

  private surfaces({ T, G }: Cells): void {
    const { n } = this;
    T[0] = G[0] === 0 ? T[1]! : surfaceTemperature(this.bore, this.perimeterIn, G[0]!, T[1]!, T[0]!);
    T[n + 1] = surfaceTemperature(this.outside, this.perimeterOut, G[n]!, T[n]!, T[n + 1]!);
  }

  private lose(law: FluxLaw, cells: Cells): void {
    cells.lost.fill(0);
    cells.slope.fill(0);
    lose(law, cells);
  }

  private add({ T, G, lost, rate, flow }: Cells): void {
    const { n } = this;
    let all = 0;
    let before = G[0]! * (T[0]! - T[1]!);
    flow[0] = before;
    for (let i = 1; i <= n; i++) {
      const behind = G[i]! * (T[i]! - T[i + 1]!);
      all += lost[i]!;
      rate[i] = before - behind - lost[i]!;
      before = behind;
    }
    flow[1] = before;
    flow[2] = all;
  }

  /** Sweeps the matrix of capacities and gamma dt times conductances and slopes, once for all stages of a step, and solves it for the first. */
  private sweep(scale: number): void {
    const { n, pivot, one, slopeOut } = this;
    const { G, capacity, slope, rate } = this.now;
    let taken = 0;
    let before = this.slopeIn;
    let x = 0;
    for (let i = 1; i <= n; i++) {
      const behind = i === n ? slopeOut : G[i]!;
      const p = capacity[i]! + scale * (before + behind + slope[i]!) - taken;
      pivot[i] = p;
      x = scale * rate[i]! + scale * before * x;
      one[i] = x;
      x /= p;
      before = behind;
      taken = (scale * behind * scale * behind) / p;
    }
    this.sweepBack(one, scale, x);
  }

  /** Solves the swept system for gamma dt `rate` and so much of the first and the second stage. */
  private solve(x: Float64Array, rate: Float64Array, scale: number, first: number, second: number): void {
    const { n, pivot, one, two } = this;
    const { G, capacity } = this.now;
    let before = 0;
    for (let i = 1; i <= n; i++) {
      before =
        scale * rate[i]! +
        capacity[i]! * (first * one[i]! + second * two[i]!) +
        (i > 1 ? scale * G[i - 1]! * before : 0);
      x[i] = before;
      before /= pivot[i]!;
    }
    this.sweepBack(x, scale, before);
  }

  private sweepBack(x: Float64Array, scale: number, last: number): void {
    const { n, pivot } = this;
    const { G } = this.now;
    let before = last;
    x[n] = before;
    for (let i = n - 1; i >= 1; i--) {
      before = (x[i]! + scale * G[i]! * before) / pivot[i]!;
      x[i] = before;
    }
  }

  /** Cells after so much of the stages; surfaces as they are now. */
  private take(first: number, second: number, third: number, into: Cells): void {
    const { n, one, two, three } = this;
    const { heat: held, capacity, T } = this.now;
    const { heat } = into;
    for (let i = 1; i <= n; i++)
      heat[i] = held[i]! + capacity[i]! * (first * one[i]! + second * two[i]! + third * three[i]!);
    into.T[0] = T[0]!;
    into.T[n + 1] = T[n + 1]!;
  }

  /** Largest error of a cell [K]; `TOO_LONG` tolerances where one gets colder than may be. */
  private error(): number {
    const { n, one, two, three } = this;
    const { T } = this.then;
    // The surfaces hold no heat and may jump when a film of steam breaks: only the cells count.
    let largest = 0;
    const least = this.coolest - UNDERSHOOT;
    for (let i = 1; i <= n; i++) {
      const off = Math.abs(E1 * one[i]! + E2 * two[i]! + E3 * three[i]!);
      // So that NaN is the largest of all.
      if (!(off <= largest)) largest = off;
      if (T[i]! < least) return TOO_LONG * this.allowed;
    }
    return largest;
  }

  /** Tries one step from `T` into `after`; returns its error over the tolerance. */
  tryStep(dt: number): number {
    const { middle, two, three } = this;
    const scale = GAMMA * dt;
    this.sweep(scale);
    this.take(1, 0, 0, middle);
    this.read(middle);
    this.flows(middle);
    this.solve(two, middle.rate, scale, GAMMA * C21, 0);
    this.solve(three, middle.rate, scale, GAMMA * C31, GAMMA * C32);
    this.readBetween(1);
    return this.error() / this.allowed;
  }

  /** Reads `after` so far into the step tried last, 1 at its end. */
  readBetween(share: number): void {
    this.take(share, share * M2, share * M3, this.then);
    this.read(this.then);
  }

  /** Goes on to the end of the step tried last, which was so long [s]. */
  accept(dt: number): void {
    const { n, now, then, one, two, three } = this;
    // What each stage let through, its linear part included, so that what is stored is what came in.
    this.pass(0, dt, -this.slopeIn * one[1]!, -this.slopeIn * two[1]!, -this.slopeIn * three[1]!);
    this.pass(1, dt, this.slopeOut * one[n]!, this.slopeOut * two[n]!, this.slopeOut * three[n]!);
    if (this.ends) {
      const { ended } = this;
      products(now.slope, one, two, three, ended);
      this.pass(2, dt, ended[0]!, ended[1]!, ended[2]!);
    }
    this.now = then;
    this.then = now;
    this.look();
  }

  private pass(way: number, dt: number, first: number, second: number, third: number): void {
    const scale = GAMMA * dt;
    const middle = this.middle.flow[way]!;
    const a = scale * (this.now.flow[way]! + first);
    const b = scale * (middle + second) + GAMMA * C21 * a;
    const c = scale * (middle + third) + GAMMA * (C31 * a + C32 * b);
    this.through[way] = this.through[way]! + a + M2 * b + M3 * c;
  }
}

/** Conductance of a path and a surface law in series; a falling law counts as a flat one. */
const inSeries = (conductance: number, slope: number): number =>
  slope > 0 ? (conductance * slope) / (conductance + slope) : 0;

/**
 * The surface temperature at which conduction from the cell beside it meets the surface law: Newton's method from
 * the last one, kept between the temperatures already known to lie on either side, so that a boiling curve cannot
 * send it to and fro.
 */
function surfaceTemperature(law: FluxLaw, perimeter: number, conductance: number, cell: number, guess: number): number {
  let low = -Infinity;
  let high = Infinity;
  let t = guess;
  for (let i = 0; i < 100; i++) {
    const excess = conductance * (cell - t) - perimeter * law.flux(t);
    const change = excess / (conductance + Math.max(0, perimeter * law.slope(t)));
    let next = t + change;
    // Before the bracket is looked at: at the root, rounding alone can put the next one outside.
    if (Math.abs(change) < 1e-9 * Math.abs(t)) return next;
    if (excess > 0) low = t;
    else high = t;
    if (!(next > low && next < high)) next = Number.isFinite(low) && Number.isFinite(high) ? (low + high) / 2 : next;
    if (Math.abs(next - t) < 1e-9 * Math.abs(t)) return next;
    t = next;
  }
  return t;
}

/** Length of the step at whose end what is watched is zero, within `enough`, by the Illinois method; `run` tries one and is left with it. */
function crossing(start: number, step: number, end: number, enough: number, run: (dt: number) => number): number {
  let [low, atLow, high, atHigh] = [0, start, step, end];
  let dt = step;
  let at = end;
  let last = 0;
  for (let i = 0; i < 30 && !(Math.abs(at) <= enough); i++) {
    dt = low + ((high - low) * atLow) / (atLow - atHigh);
    at = run(dt);
    const side = Math.sign(at);
    if (side > 0) {
      low = dt;
      atLow = at;
      if (last === side) atHigh /= 2;
    } else {
      high = dt;
      atHigh = at;
      if (last === side) atLow /= 2;
    }
    last = side;
  }
  return dt;
}
