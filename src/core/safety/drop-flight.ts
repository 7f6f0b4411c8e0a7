import { noSolution, shown } from '../messages.ts';
import { GRAVITY } from '../units/quantities.ts';

/** The air a drop falls through. */
export interface DropAir {
  /** [kg/m3] */
  readonly density: number;
  /** Kinematic [m2/s]. */
  readonly viscosity: number;
  /** Level wind in the direction of flight [m/s]. */
  readonly wind: number;
}

export interface Drop {
  /** [m] */
  readonly diameter: number;
  /** [kg/m3] */
  readonly density: number;
}

export interface Landing {
  /** Level distance flown [m]. */
  readonly distance: number;
  /** Speed at the ground [m/s]. */
  readonly speed: number;
  /** Time of flight [s]. */
  readonly time: number;
}

type State = readonly [x: number, z: number, vx: number, vz: number];

/** Reynolds number from which the drag of a sphere no longer depends on it. */
const NEWTON = 1000;
/** Steps in a drop's slowing-down time, and the most steps of a flight. */
const STEPS_PER_RELAXATION = 20;
const MOST_STEPS = 100_000;
/** Acceleration over gravity under which a drop falls steadily. */
const STEADY = 1e-6;

/**
 * Drag coefficient of a sphere.
 *
 *     Cd = 24/Re (1 + 0.15 Re^0.687) to Re = 1000, then 0.44
 *
 * Source: Schiller and Naumann 1933, and Newton's constant value above. Range: Re to 2e5; it is within some 5
 * percent of measured drag to Re = 1000.
 *
 * @example sphereDrag(1000) // 0.44
 */
export function sphereDrag(Re: number): number {
  return Re < NEWTON ? (24 / Re) * (1 + 0.15 * Re ** 0.687) : 0.44;
}

/** Deceleration by drag for each m/s of speed through the air, (3/4) Cd rho_a w / (rho d) [1/s]. */
function dragRate(drop: Drop, air: DropAir, w: number): number {
  const Re = (w * drop.diameter) / air.viscosity;
  // Cd Re is finite at rest, Cd is not.
  const CdRe = Re < NEWTON ? 24 * (1 + 0.15 * Re ** 0.687) : 0.44 * Re;
  return (0.75 * CdRe * air.viscosity * air.density) / (drop.density * drop.diameter ** 2);
}

/**
 * Flight of a hot drop from a height to the ground, as a hard sphere with drag in level wind.
 *
 *     dv/dt = -g k - (3/4) Cd (rho_a / (rho d)) |v - u| (v - u)
 *
 * Fourth-order Runge-Kutta with a step of a twentieth of the drop's slowing-down time or of the fall; the last
 * step is shortened to end on the ground, and a steady fall is taken in one. The drop keeps its size: it neither burns away nor bursts.
 *
 * @param drop diameter [m] and density [kg/m3]
 * @param air see DropAir
 * @param height of the start above the ground [m], not negative
 * @param speed at the start [m/s]
 * @param angle of the start above level [rad]
 */
export function dropFlight(drop: Drop, air: DropAir, height: number, speed: number, angle: number): Landing {
  const slope = ([, , vx, vz]: State): State => {
    const rx = vx - air.wind;
    const k = dragRate(drop, air, Math.hypot(rx, vz));
    return [vx, vz, -k * rx, -GRAVITY - k * vz];
  };
  const step = (s: State, h: number): State => {
    const a = slope(s);
    const b = slope(plus(s, a, h / 2));
    const c = slope(plus(s, b, h / 2));
    const d = slope(plus(s, c, h));
    return plus(plus(plus(plus(s, a, h / 6), b, h / 3), c, h / 3), d, h / 6);
  };
  let state: State = [0, height, speed * Math.cos(angle), speed * Math.sin(angle)];
  let time = 0;
  for (let n = 0; n < MOST_STEPS; n++) {
    const [, z, vx, vz] = state;
    const k = dragRate(drop, air, Math.hypot(vx - air.wind, vz));
    // What falls steadily goes on so to the ground: a fine drop would take a hundred thousand steps.
    if (vz < 0 && Math.hypot(k * (vx - air.wind), GRAVITY + k * vz) <= STEADY * GRAVITY)
      return { distance: state[0] - (vx * z) / vz, speed: Math.hypot(vx, vz), time: time - z / vz };
    const fall = (Math.abs(vz) + Math.sqrt(vz * vz + 2 * GRAVITY * Math.max(z, 0))) / GRAVITY;
    const h = Math.min(1 / (STEPS_PER_RELAXATION * k), Math.max(fall, 1e-6) / STEPS_PER_RELAXATION);
    const next = step(state, h);
    if (next[1] <= 0 && next[3] < 0) {
      // The last step shortened until it ends on the ground (Newton's method).
      let last = h;
      let end = next;
      for (let i = 0; i < 8 && Math.abs(end[1]) > 1e-12; i++) {
        last -= end[1] / end[3];
        end = step(state, last);
      }
      return { distance: end[0], speed: Math.hypot(end[2], end[3]), time: time + last };
    }
    state = next;
    time += h;
  }
  throw noSolution(`a drop of ${shown(drop.diameter * 1000)} mm hangs in the air for longer than is followed here`);
}

const plus = (s: State, d: State, h: number): State => [
  s[0] + h * d[0],
  s[1] + h * d[1],
  s[2] + h * d[2],
  s[3] + h * d[3],
];
