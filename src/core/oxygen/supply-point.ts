import { findRoot } from './find-root.ts';
import { flowingOn } from './flowing-gas.ts';
import { hoseInlet, hosePassage, largestHoseFlow, type Hose } from './hose-loss.ts';
import type { Isotherm } from './oxygen-state.ts';
import { passageInlet } from './pipe-flow.ts';
import { leastSupply, regulatorOutlet, type Regulator } from './regulator.ts';
import { rodFlow, rodPassage, rodPressure, type RodLine } from './rod-flow.ts';

/** Widens a bracket of the search; the answer does not depend on it. */
const BRACKET_SLACK = 0.02;

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
function neededAlong(line: SupplyLine, length: number): (flow: number) => Needed {
  const { rod, hose, oxygen } = line;
  // The gas in rod and holder is taken at its mean pressure, which is itself sought: the last trial's is a good first guess.
  let guess = rod.ambient;
  return (flow) => {
    let inLine: RodLine;
    let tip = guess;
    for (let i = 0; ; i++) {
      inLine = { ...rod, gas: flowingOn(oxygen, (tip + rod.ambient) / 2) };
      const next = rodPressure(inLine, flow, length);
      const settled = Math.abs(next - tip) <= 1e-9 * next;
      tip = next;
      if (settled || i === 20) break;
    }
    guess = tip;
    const behindHolder = passageInlet(rodPassage(inLine, length), rod.ambient, flow / (rod.scale ?? 1), inLine.gas);
    return { tip, behindHolder, delivery: hoseInlet(hose, tip, flow, oxygen) };
  };
}

/**
 * The working point of a supply: the flow at which cylinder, regulator, hose, holder and rod agree.
 *
 * Going backwards from the ambient pressure, each element's inlet pressure for a trial flow follows from its own
 * equation (`rodPressure`, `hoseInlet`, `regulatorOutlet`, the regulator's wide-open valve as an orifice); the flow is the
 * one root where what the regulator gives, or the cylinder drives through its open valve, is what the line needs.
 *
 * cylinder [Pa]: absolute, now; length [m]: of rod left. The hose's gas is at the temperature of `line.oxygen`; that
 * it leaves the regulator colder is left out.
 * Sources: as the elements'. One solve, no factors multiplied.
 */
export function supplyPoint(line: SupplyLine, cylinder: number, length: number): SupplyPoint {
  const { regulator, hose, rod, oxygen } = line;
  const { ambient } = rod;
  const given = regulatorOutlet(regulator, 0, cylinder);
  if (!(Math.min(given, cylinder) > ambient))
    return { flow: 0, cylinder, delivery: Math.min(given, cylinder), tip: ambient, behindHolder: ambient, ambient, wideOpen: cylinder < given, hoseChoked: false };
  /** What the supply has over what the line needs, falling with flow: by the spring, and by the open valve. */
  const bySpring = (flow: number, delivery: number): number => regulatorOutlet(regulator, flow, cylinder) - delivery;
  const byValve = (flow: number, delivery: number): number => cylinder - leastSupply(regulator, delivery, flow, oxygen);
  const needed = neededAlong(line, length);
  const spare = (flow: number): number => {
    const { delivery } = needed(flow);
    return Math.min(bySpring(flow, delivery), byValve(flow, delivery));
  };
  // Neither hose nor rod can pass more than from the standing outlet pressure; the slack covers the gas taken at its mean there.
  const most = Math.min(largestHoseFlow(hose, given, oxygen).flow, rodFlow({ ...rod, gas: flowingOn(oxygen, (given + ambient) / 2) }, given, length));
  const flow = findRoot((f) => (f === 0 ? Math.min(given, cylinder) - ambient : spare(f)), 0, (1 + BRACKET_SLACK) * most, 1e-10);
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
