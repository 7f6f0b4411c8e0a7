import { findRoot } from './find-root.ts';
import { flowingOn } from './flowing-gas.ts';
import { hoseInlet, hosePassage, largestHoseFlow, type Hose } from './hose-loss.ts';
import type { Isotherm } from './oxygen-state.ts';
import { orificeInlet } from './orifice.ts';
import { passageInlet } from './pipe-flow.ts';
import { leastSupply, regulatorOutlet, type Regulator } from './regulator.ts';
import { rodFlow, rodPassage, type RodLine } from './rod-flow.ts';

/** Widens a bracket of the search; the answer does not depend on it. */
const BRACKET_SLACK = 0.02;

/** Of the flow, relative. */
const TOLERANCE = 1e-10;

/** All that stands between the cylinder and the burning end. Pressures absolute [Pa]. */
export interface SupplyLine {
  readonly regulator: Regulator;
  readonly hose: Hose;
  /** Rod and holder; their gas properties are worked out here. */
  readonly rod: Omit<RodLine, 'gas'>;
  /** The equation of state at the temperature of hose and rod. */
  readonly oxygen: Isotherm;
}

/** Where cylinder, regulator, hose and rod agree. Pressures absolute [Pa]. */
export interface SupplyPoint {
  /** [kg/s] */
  readonly flow: number;
  readonly cylinder: number;
  /** At the regulator's outlet. */
  readonly delivery: number;
  /** At the holder's inlet: the tip pressure. */
  readonly tip: number;
  /** Between holder and rod. */
  readonly behindHolder: number;
  readonly ambient: number;
  /** The regulator's valve is wide open: the cylinder no longer drives the flow that is set. */
  readonly wideOpen: boolean;
  /** The hose's end is choked. */
  readonly hoseChoked: boolean;
}

interface Needed {
  readonly delivery: number;
  readonly tip: number;
  readonly behindHolder: number;
}

/** Pressures [Pa] needed along the line, from the ambient one backwards, as a function of the flow [kg/s]. */
export function neededAlong(line: SupplyLine, length: number): (flow: number) => Needed {
  const { rod, hose, oxygen } = line;
  const { ambient, holder, scale = 1 } = rod;
  const passage = rodPassage(rod, length);
  // The gas in rod and holder is taken at its mean pressure, which is itself sought: the last trial's is a good first guess.
  let guess = ambient;
  return (flow) => {
    let behindHolder = ambient;
    let tip = guess;
    for (let i = 0; i < 20; i++) {
      const gas = flowingOn(oxygen, (tip + ambient) / 2);
      behindHolder = passageInlet(passage, ambient, flow / scale, gas);
      const next = holder === undefined ? behindHolder : orificeInlet(holder, behindHolder, flow / scale, gas);
      const settled = Math.abs(next - tip) <= 1e-9 * next;
      tip = next;
      if (settled) break;
    }
    guess = tip;
    return { tip, behindHolder, delivery: hoseInlet(hose, tip, flow, oxygen) };
  };
}

/** More than can flow: neither hose nor rod passes more than from the standing outlet pressure; the slack covers the gas taken at its mean there. */
function mostOf({ hose, rod, oxygen }: SupplyLine, given: number, length: number): number {
  const { ambient } = rod;
  const most = Math.min(
    largestHoseFlow(hose, given, oxygen).flow,
    rodFlow({ ...rod, gas: flowingOn(oxygen, (given + ambient) / 2) }, given, length),
  );
  return (1 + BRACKET_SLACK) * most;
}

/** The root by the secant method from a guess; undefined where that does not settle between the bounds. */
function rootNear(f: (x: number) => number, near: number, high: number, tolerance: number): number | undefined {
  let x = near;
  let fx = f(x);
  let next = near * (1 + BRACKET_SLACK);
  for (let i = 0; i < 9; i++) {
    const before = x;
    const fBefore = fx;
    x = next;
    fx = f(x);
    const step = (fx * (x - before)) / (fx - fBefore);
    next = x - step;
    if (Math.abs(step) <= tolerance * x) return next;
    if (!(next > 0 && next < high)) return undefined;
  }
  return undefined;
}

/**
 * The working point of a supply: the flow at which cylinder, regulator, hose, holder and rod agree.
 *
 * Going backwards from the ambient pressure, each element's inlet pressure for a trial flow follows from its own
 * equation (`passageInlet`, `orificeInlet`, `hoseInlet`, `regulatorOutlet`, the regulator's wide-open valve as an orifice); the flow is the
 * one root where what the regulator gives, or the cylinder drives through its open valve, is what the line needs.
 *
 * cylinder [Pa]: absolute, now; length [m]: of rod left; near [kg/s]: a flow known to be close, which only saves work. The hose's gas is at the temperature of `line.oxygen`; that
 * it leaves the regulator colder is left out.
 * Sources: as the elements'. One solve, no factors multiplied.
 */
export function supplyPoint(line: SupplyLine, cylinder: number, length: number, near?: number): SupplyPoint {
  const { regulator, hose, rod, oxygen } = line;
  const { ambient } = rod;
  const given = regulatorOutlet(regulator, 0, cylinder);
  if (!(Math.min(given, cylinder) > ambient))
    return {
      flow: 0,
      cylinder,
      delivery: Math.min(given, cylinder),
      tip: ambient,
      behindHolder: ambient,
      ambient,
      wideOpen: cylinder < given,
      hoseChoked: false,
    };
  /** What the supply has over what the line needs, falling with flow: by the spring, and by the open valve. */
  const bySpring = (flow: number, delivery: number): number => regulatorOutlet(regulator, flow, cylinder) - delivery;
  const byValve = (flow: number, delivery: number): number => cylinder - leastSupply(regulator, delivery, flow, oxygen);
  const needed = neededAlong(line, length);
  const spare = (flow: number): number => {
    const { delivery } = needed(flow);
    return Math.min(bySpring(flow, delivery), byValve(flow, delivery));
  };
  const flow =
    (near === undefined ? undefined : rootNear(spare, near, 2 * near, TOLERANCE)) ??
    findRoot(
      (f) => (f === 0 ? Math.min(given, cylinder) - ambient : spare(f)),
      0,
      mostOf(line, given, length),
      TOLERANCE,
    );
  const at = needed(flow);
  const exitLimit = (flow / hosePassage(hose).area) * Math.sqrt(flowingOn(oxygen, at.tip).zrt);
  return {
    flow,
    cylinder,
    ...at,
    ambient,
    wideOpen: byValve(flow, at.delivery) < bySpring(flow, at.delivery),
    hoseChoked: exitLimit > at.tip,
  };
}

/** A regulator whose gauge is set while the rod is burning: its flow at the setting is the working point's own. */
export function setWhileFlowing(line: SupplyLine, length: number): Regulator {
  const { regulator } = line;
  const level: SupplyLine = { ...line, regulator: { ...regulator, droop: 0 } };
  return { ...regulator, setFlow: supplyPoint(level, regulator.setSupply, length).flow };
}
