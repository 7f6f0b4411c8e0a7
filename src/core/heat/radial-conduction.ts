import { coolingUnsolved } from '../messages.ts';
import { INSULATED, type FluxLaw } from './flux-law.ts';
import type { RadialMesh } from './radial-mesh.ts';

/** What the metal does with heat, over its temperature [K]. */
export interface HeatMaterial {
  /** Density [kg/m3], constant: the mesh does not grow. */
  readonly density: number;
  /** Heat content [J/kg]. */
  enthalpy(temperature: number): number;
  /** Its slope [J/kg K]. */
  specificHeat(temperature: number): number;
  /** Conductivity [W/m K]. */
  conductivity(temperature: number): number;
}

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
  /** Ends the run at the first moment this falls to zero in a watched stage. */
  readonly until?: (temperatures: Float64Array) => number;
}

// TR-BDF2 with its third-order companion: R. E. Bank et al., IEEE Trans. Electron Devices 32 (1985) 1992;
// M. E. Hosea & L. F. Shampine, Applied Numerical Mathematics 20 (1996) 21.
const GAMMA = 2 - Math.SQRT2;
const D = GAMMA / 2;
const W = Math.SQRT2 / 4;
const ERROR_WEIGHTS = [W - (1 - W) / 3, W - (3 * W + 1) / 3, D - D / 3] as const;

/** Newton corrections must fall below this share of the step tolerance. */
const NEWTON_SHARE = 0.005;
const MOST_NEWTON = 12;
/** Error, over the tolerance, reported for a step that overshoots the surroundings by more than rounding [K]. */
const TOO_LONG = 8;
const UNDERSHOOT = 1e-6;
const MOST_STEPS = 200_000;
/** A step refused down to this [s] never settles. */
const SHORTEST_STEP = 1e-12;

/**
 * Transient heat conduction in concentric rings.
 *
 * rho A dh/dt = sum of 2 pi k (T_j - T_i) / ln(r_j / r_i) - 2 A q_end / L on each cell, in enthalpy form so that the
 * latent peak is conserved, with surface temperatures where q(T_s) meets the conduction to them, and joints in series
 * with 1 / (2 pi r h_contact). Second order in the cell size; second order in time (TR-BDF2), its step chosen from
 * the third-order companion's error, or fixed.
 * start [K], uniform or per cell. Any continuous material; flux laws may jump where a cooling wall passes once; heat along the axis is not in it
 * except through the end faces.
 * Source: finite volumes after Patankar, Numerical Heat Transfer and Fluid Flow (1980), ch. 4; time scheme as named above.
 */
export function radialConduction(
  mesh: RadialMesh,
  material: HeatMaterial,
  start: number | Float64Array,
  stages: readonly Stage[],
  options: ConductionOptions,
  watch: Watch = {},
): ConductionResult {
  const rings = new Conduction(mesh, material, start, options);
  const { T, after, through } = rings;
  const heatAtStart = rings.heatHeld();
  const before = new Float64Array(T.length);
  let time = 0;
  let steps = 0;
  let stopped = false;
  for (const stage of stages) {
    if (stopped || !(stage.duration > 0)) continue;
    rings.begin(stage);
    const until = stage.watched === false ? undefined : watch.until;
    stopped = until !== undefined && until(T) <= 0;
    const end = time + stage.duration;
    let dt = options.step ?? firstStep(mesh, material, T[1]!);
    while (time < end && !stopped) {
      if (steps > MOST_STEPS || !(dt > SHORTEST_STEP)) throw coolingUnsolved();
      const left = end - time;
      let trial = Math.min(dt, left);
      // Avoids a sliver of a step at the end of a stage.
      if (trial < left && trial > 0.5 * left) trial = 0.5 * left;
      const error = rings.tryStep(trial);
      if (options.step === undefined && error > 1) {
        dt = trial * (error === Infinity ? 0.2 : Math.max(0.2, 0.9 * error ** (-1 / 3)));
        continue;
      }
      if (error === Infinity) throw coolingUnsolved();
      if (until && until(after) <= 0) {
        before.set(T);
        trial = crossing(until, before, trial, (t) => {
          rings.tryStep(t);
          return after;
        });
        stopped = true;
      }
      rings.accept(trial);
      time += trial;
      steps++;
      if (time > end - 1e-12 * end) time = end;
      watch.step?.({ time, temperatures: T, throughBore: through[0]! });
      if (options.step === undefined) dt = trial * Math.min(4, Math.max(0.2, 0.9 * Math.max(error, 1e-6) ** (-1 / 3)));
    }
  }
  const stored = rings.heatHeld() - heatAtStart;
  return {
    time,
    temperatures: T,
    steps,
    stopped,
    stored,
    throughBore: through[0]!,
    throughOutside: through[1]!,
    throughEnds: through[2]!,
  };
}

/** Rings that conduct heat: their temperatures, and one step of time after another. Small methods with one task each: they are soon compiled, and what one has not met before costs the others nothing. */
class Conduction {
  /** Temperatures [K]: bore surface, cells from the inside out, outer surface. */
  readonly T: Float64Array;
  /** Temperatures at the end of the step tried last. */
  readonly after: Float64Array;
  /** Flows through bore, outside and ends summed over time [J/m]: an array, since a number that changes costs an allocation. */
  readonly through = new Float64Array(3);
  private readonly material: HeatMaterial;
  private readonly options: ConductionOptions;
  private readonly n: number;
  private readonly size: number;
  private readonly solid: boolean;
  private readonly areas: Float64Array;
  private readonly perimeterIn: number;
  private readonly perimeterOut: number;

  // Geometry of the path from each unknown to the next: ln(r_j / r_i) / (2 pi); where a joint lies on it, its resistance and both halves of the logarithm.
  private readonly path: Float64Array;
  private readonly joint: Float64Array;
  private readonly inside: Float64Array;
  private readonly beyond: Float64Array;
  private readonly mass: Float64Array;

  private readonly G: Float64Array;
  private readonly lower: Float64Array;
  private readonly pivot: Float64Array;
  private readonly sweep: Float64Array;
  private readonly right: Float64Array;
  private readonly heat: Float64Array;
  private readonly known: Float64Array;
  private readonly rate: Float64Array;
  private readonly rateMiddle: Float64Array;
  private readonly rateAfter: Float64Array;
  private readonly middle: Float64Array;
  /** Face area over length by which a cell loses heat at the ends. */
  private readonly share: Float64Array;
  private readonly total = new Float64Array(3);
  private readonly totalMiddle = new Float64Array(3);
  private readonly totalAfter = new Float64Array(3);

  /** Heat capacity and content of each cell [J/m K, J/m], and what it loses at the ends with its slope [W/m, W/m K]. */
  private readonly capacity: Float64Array;
  private readonly held: Float64Array;
  private readonly lost: Float64Array;
  private readonly lostSlope: Float64Array;

  private bore: FluxLaw = INSULATED;
  private outside: FluxLaw = INSULATED;
  private ends: FluxLaw | undefined;
  private coolest = -Infinity;

  constructor(mesh: RadialMesh, material: HeatMaterial, start: number | Float64Array, options: ConductionOptions) {
    const n = mesh.count;
    const size = n + 2;
    const column = (length = size): Float64Array => new Float64Array(length);
    this.material = material;
    this.options = options;
    this.n = n;
    this.size = size;
    this.solid = mesh.faces[0] === 0;
    this.areas = mesh.areas;
    this.perimeterIn = 2 * Math.PI * mesh.faces[0]!;
    this.perimeterOut = 2 * Math.PI * mesh.faces[n]!;
    this.path = column(size - 1);
    this.joint = column(size - 1);
    this.inside = column(size - 1);
    this.beyond = column(size - 1);
    this.mass = column();
    this.T = column();
    this.after = column();
    this.G = column(size - 1);
    this.lower = column();
    this.pivot = column();
    this.sweep = column();
    this.right = column();
    this.heat = column();
    this.known = column();
    this.rate = column();
    this.rateMiddle = column();
    this.rateAfter = column();
    this.middle = column();
    this.share = column();
    this.capacity = column();
    this.held = column();
    this.lost = column();
    this.lostSlope = column();
    this.layOut(mesh);
    for (let i = 1; i <= n; i++) this.mass[i] = material.density * mesh.areas[i - 1]!;
    for (let i = 0; i < n; i++) this.T[i + 1] = typeof start === 'number' ? start : start[i]!;
    this.T[0] = this.T[1]!;
    this.T[size - 1] = this.T[n]!;
    this.content(this.T, this.heat);
  }

  /** Heat held by all cells at the present temperatures [J/m]. */
  heatHeld(): number {
    const { T, held } = this;
    this.content(T, held);
    return held.reduce((sum, h) => sum + h, 0);
  }

  /** Surroundings from now on. */
  begin({ bore, outside, ends, coolest = -Infinity }: Stage): void {
    const { n, areas, share, T } = this;
    this.bore = bore;
    this.outside = outside;
    this.ends = ends?.law;
    this.coolest = coolest;
    for (let i = 1; i <= n; i++) share[i] = ends ? (2 * areas[i - 1]!) / ends.length : 0;
    this.lost.fill(0);
    this.lostSlope.fill(0);
    this.conductances(T);
    this.settleSurfaces(T);
    this.flows(T, this.rate, this.total);
  }

  /** Paths between the unknowns. */
  private layOut(mesh: RadialMesh): void {
    const { n, size, solid, path, joint, inside, beyond } = this;
    const radius = (i: number): number =>
      i === 0 ? mesh.faces[0]! : i === size - 1 ? mesh.faces[n]! : mesh.middles[i - 1]!;
    for (let i = solid ? 1 : 0; i < size - 1; i++) path[i] = Math.log(radius(i + 1) / radius(i)) / (2 * Math.PI);
    for (const cell of mesh.joints) {
      const i = cell + 1;
      const face = mesh.faces[i]!;
      joint[i] = 1 / (2 * Math.PI * face * this.options.contact);
      inside[i] = Math.log(face / radius(i));
      beyond[i] = Math.log(radius(i + 1) / face);
    }
  }

  private content(at: Float64Array, into: Float64Array): void {
    const { n, material, mass } = this;
    for (let i = 1; i <= n; i++) into[i] = mass[i]! * material.enthalpy(at[i]!);
  }

  private capacities(at: Float64Array): void {
    const { n, material, mass, capacity } = this;
    for (let i = 1; i <= n; i++) capacity[i] = mass[i]! * material.specificHeat(at[i]!);
  }

  /** Conductances from each unknown to the next at their temperatures. */
  private conductances(at: Float64Array): void {
    const { n, material, solid, path, joint, inside, beyond, G } = this;
    for (let i = solid ? 1 : 0; i <= n; i++) {
      const resistance = joint[i]!;
      if (resistance === 0) G[i] = material.conductivity((at[i]! + at[i + 1]!) / 2) / path[i]!;
      else {
        // Each side of a joint has its own temperature, so its own conductivity over half of the path.
        const inner = inside[i]! / (2 * Math.PI * material.conductivity(at[i]!));
        const outer = beyond[i]! / (2 * Math.PI * material.conductivity(at[i + 1]!));
        G[i] = 1 / (inner + resistance + outer);
      }
    }
  }

  private lose(law: FluxLaw, at: Float64Array): void {
    const { n, share, lost } = this;
    for (let i = 1; i <= n; i++) lost[i] = share[i]! * law.flux(at[i]!);
  }

  private loseMore(law: FluxLaw, at: Float64Array): void {
    const { n, share, lostSlope } = this;
    for (let i = 1; i <= n; i++) lostSlope[i] = share[i]! * Math.max(law.slope(at[i]!), 0);
  }

  /** Heat flowing into each cell [W/m]; writes the bore, outside and end flows. */
  private flows(at: Float64Array, into: Float64Array, sums: Float64Array): void {
    const { n, G, lost } = this;
    this.conductances(at);
    if (this.ends) this.lose(this.ends, at);
    let all = 0;
    let before = G[0]! * (at[0]! - at[1]!);
    sums[0] = before;
    for (let i = 1; i <= n; i++) {
      const behind = G[i]! * (at[i]! - at[i + 1]!);
      all += lost[i]!;
      into[i] = before - behind - lost[i]!;
      before = behind;
    }
    sums[1] = before;
    sums[2] = all;
  }

  /** Carries `right`, swept once, back through the tridiagonal system; the answer is in `right`. */
  private goBack(): void {
    const { n, sweep, right } = this;
    for (let i = n - 1; i >= 1; i--) right[i] = right[i]! - sweep[i]! * right[i + 1]!;
  }

  /** Fits both surface temperatures to the cells beside them. */
  private settleSurfaces(at: Float64Array): void {
    const { n, solid, perimeterIn, perimeterOut, G } = this;
    at[0] = solid ? at[1]! : surfaceTemperature(this.bore, perimeterIn, G[0]!, at[1]!, at[0]!);
    at[n + 1] = surfaceTemperature(this.outside, perimeterOut, G[n]!, at[n]!, at[n + 1]!);
  }

  /** Sets up and sweeps the system of one Newton correction of heat(T) - scale f(T) = known. */
  private sweepThrough(at: Float64Array, scale: number, slopeIn: number, slopeOut: number): void {
    const { n, G, lower, pivot, sweep, right, known, capacity, held, lost, lostSlope } = this;
    let before = G[0]!;
    let slopeBefore = slopeIn;
    for (let i = 1; i <= n; i++) {
      const t = at[i]!;
      const behind = G[i]!;
      const slopeBehind = i === n ? slopeOut : behind;
      const down = i === 1 ? 0 : -scale * before;
      const p = capacity[i]! + scale * (slopeBefore + slopeBehind + lostSlope[i]!) - down * sweep[i - 1]!;
      const missing = known[i]! - held[i]! + scale * (before * (at[i - 1]! - t) - behind * (t - at[i + 1]!) - lost[i]!);
      lower[i] = down;
      pivot[i] = p;
      sweep[i] = i === n ? 0 : (-scale * behind) / p;
      right[i] = (missing - down * right[i - 1]!) / p;
      before = behind;
      slopeBefore = behind;
    }
  }

  /** Adds the correction; returns its largest part. */
  private move(at: Float64Array): number {
    const { n, right } = this;
    let largest = 0;
    for (let i = 1; i <= n; i++) {
      const change = right[i]!;
      at[i] = at[i]! + change;
      // So that NaN is the largest of all.
      if (!(Math.abs(change) <= largest)) largest = Math.abs(change);
    }
    return largest;
  }

  /** One Newton correction; returns the largest change. */
  private correct(at: Float64Array, scale: number): number {
    const { n, solid, perimeterIn, perimeterOut, G, held } = this;
    this.conductances(at);
    this.settleSurfaces(at);
    this.capacities(at);
    this.content(at, held);
    if (this.ends) {
      this.lose(this.ends, at);
      this.loseMore(this.ends, at);
    }
    // Beyond a surface, its temperature moves with the cell's.
    this.sweepThrough(
      at,
      scale,
      solid ? 0 : inSeries(G[0]!, perimeterIn * this.bore.slope(at[0]!)),
      inSeries(G[n]!, perimeterOut * this.outside.slope(at[n + 1]!)),
    );
    this.goBack();
    return this.move(at);
  }

  /** Solves heat(T) - scale f(T) = known for T, from a first guess in `at`; false where Newton does not settle. */
  private settle(at: Float64Array, scale: number): boolean {
    const { options } = this;
    const enough = NEWTON_SHARE * options.tolerance;
    for (let iteration = 0; iteration < MOST_NEWTON; iteration++) {
      const largest = this.correct(at, scale);
      if (!(largest < 5000)) return false;
      if (largest < enough) {
        this.settleSurfaces(at);
        return true;
      }
    }
    return false;
  }

  /** Tries one step from `T` into `after`; returns its error over the tolerance, or Infinity. */
  tryStep(dt: number): number {
    const {
      n,
      size,
      options,
      T,
      lower,
      pivot,
      right,
      heat,
      known,
      rate,
      rateMiddle,
      rateAfter,
      middle,
      after,
      totalMiddle,
      totalAfter,
    } = this;
    for (let i = 0; i < size; i++) {
      known[i] = heat[i]! + dt * D * rate[i]!;
      middle[i] = T[i]!;
    }
    if (!this.settle(middle, dt * D)) return Infinity;
    this.flows(middle, rateMiddle, totalMiddle);
    for (let i = 0; i < size; i++) {
      known[i] = heat[i]! + dt * W * (rate[i]! + rateMiddle[i]!);
      after[i] = middle[i]! + ((middle[i]! - T[i]!) * (1 - GAMMA)) / GAMMA;
    }
    if (!this.settle(after, dt * D)) return Infinity;
    this.flows(after, rateAfter, totalAfter);
    for (let i = 1; i <= n; i++) {
      const error =
        dt * (ERROR_WEIGHTS[0] * rate[i]! + ERROR_WEIGHTS[1] * rateMiddle[i]! + ERROR_WEIGHTS[2] * rateAfter[i]!);
      right[i] = (error - lower[i]! * right[i - 1]!) / pivot[i]!;
    }
    this.goBack();
    let largest = 0;
    // The surfaces hold no heat and may jump when a film of steam breaks: only the cells count.
    const least = this.coolest - UNDERSHOOT;
    for (let i = 1; i <= n; i++) {
      if (after[i]! < least) return TOO_LONG;
      largest = Math.max(largest, Math.abs(right[i]!));
    }
    return largest / options.tolerance;
  }

  accept(dt: number): void {
    const { n, T, heat, known, rate, rateAfter, after, total, totalMiddle, totalAfter, through } = this;
    // The heat kept is what the flows brought, so that what Newton's method leaves open does not add up over the steps.
    for (let i = 1; i <= n; i++) heat[i] = known[i]! + dt * D * rateAfter[i]!;
    for (let k = 0; k < 3; k++)
      through[k] = through[k]! + dt * (W * (total[k]! + totalMiddle[k]!) + D * totalAfter[k]!);
    T.set(after);
    rate.set(rateAfter);
    total.set(totalAfter);
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

/** A first step that the controller can judge: a tenth of the time heat needs through the innermost cell. */
function firstStep(mesh: RadialMesh, material: HeatMaterial, temperature: number): number {
  const thickness = mesh.faces[1]! - mesh.faces[0]!;
  return (
    (0.1 * thickness ** 2 * material.density * material.specificHeat(temperature)) / material.conductivity(temperature)
  );
}

/** Length of the step at whose end `until` is zero; leaves that step as the last tried. */
function crossing(
  until: (t: Float64Array) => number,
  before: Float64Array,
  step: number,
  run: (dt: number) => Float64Array,
): number {
  let low = 0;
  let atLow = until(before);
  let high = step;
  let atHigh = until(run(step));
  let dt = step;
  for (let i = 0; i < 12 && atHigh < 0; i++) {
    dt = low + ((high - low) * atLow) / (atLow - atHigh);
    if (!(dt > low) || dt >= high) break;
    const at = until(run(dt));
    if (Math.abs(at) < 1e-3) return dt;
    if (at > 0) {
      low = dt;
      atLow = at;
    } else {
      high = dt;
      atHigh = at;
    }
  }
  run(dt);
  return dt;
}
