import { drawCylinder, type CylinderWall, type Drawn } from './draw-cylinder.ts';
import { findRoot } from './find-root.ts';
import { flowingOn, flowTable } from './flowing-gas.ts';
import { harmonicMean } from './harmonic-mean.ts';
import { hoseInlet, hoseOutlet, type Hose } from './hose-loss.ts';
import { orificeFlowFrom } from './orifice.ts';
import type { Isotherm } from './oxygen-state.ts';
import { leastSupply, leftoverPressure, regulatorOutlet } from './regulator.ts';
import { rodFlow } from './rod-flow.ts';
import { HIGHEST_SETTING } from './hose-setting.ts';
import { neededAlong, supplyPoint, type SupplyLine, type SupplyPoint } from './supply-point.ts';

/** Cylinders drawn together. */
export interface CylinderBank {
  readonly cylinders: number;
  /** Water volume of one [m3]. */
  readonly volume: number;
  readonly wall: CylinderWall;
  /** Absolute pressure now [Pa]. */
  readonly pressure: number;
  /** Absolute pressure [Pa] of a full one; absent: that at which the regulator was set. */
  readonly full?: number;
  /** Of gas, steel and air [K]. */
  readonly temperature: number;
}

/** Which element keeps the flow down. */
export type Limit = 'cylinder' | 'regulator' | 'hose' | 'holder' | 'rod';

export type Mend =
  /** Absolute regulator pressure [Pa] while flowing that gives the tip pressure wanted. */
  | { readonly what: 'setting'; readonly setting: number }
  /** Smallest bore [m] that gives it at the present setting. */
  | { readonly what: 'bore'; readonly bore: number }
  /** Longest hose [m] that gives it at the present setting. */
  | { readonly what: 'length'; readonly length: number }
  /** Least absolute cylinder pressure [Pa] that gives it. */
  | { readonly what: 'cylinder'; readonly pressure: number }
  /** Equivalent diameter [m] of a regulator's valve, wide open, that passes the flow. */
  | { readonly what: 'valve'; readonly diameter: number }
  /** Equivalent diameter [m] of a holder that passes the flow. */
  | { readonly what: 'holder'; readonly diameter: number };

export interface SupplyCheck {
  /** With a rod of mean length, now. */
  readonly point: SupplyPoint;
  /** The same with the cylinder at its leftover pressure. */
  readonly pointAtLeftover: SupplyPoint;
  /** Mean flow over a rod [kg/s] now, and when the cylinder is at its leftover pressure. */
  readonly flow: number;
  readonly flowAtLeftover: number;
  /** Absolute cylinder pressure [Pa] at which it is changed. */
  readonly leftover: number;
  /** Burning time until then [s]. */
  readonly time: number;
  /** Oxygen drawn until then from all cylinders [kg]. */
  readonly drawn: number;
  /** Gas temperature in the cylinder then [K]. */
  readonly coldest: number;
  /** Flow gained, as a share, if one element lost nothing. */
  readonly gains: Readonly<Record<Exclude<Limit, 'rod'>, number>>;
  readonly limit: Limit;
  /**
   * Ways to the tip pressure wanted; where none was given, to nearly the flow that the limiting element keeps back. Empty where
   * the rod itself is the limit.
   */
  readonly mends: readonly Mend[];
}

/** Pressures that occur in a line, over the regulator's setting; what is higher is worked out without the table. */
const TABULATED = 1.5;

/** A passage so wide and short that it loses nothing worth counting. */
const OPEN = 1;

/** Share of the flow that an element must cost before it, and not the rod, is named as the limit. */
const WORTH_MENDING = 0.05;

/** Mean flow [kg/s] over a rod burned from one length down to its stub [m], the cylinder held at one absolute pressure [Pa]. */
export function meanSupplyFlow(
  line: SupplyLine,
  cylinder: number,
  length: number,
  stub: number,
  near?: SupplyPoint,
): number {
  return harmonicMean((x) => supplyPoint(line, cylinder, x, near?.flow).flow, stub, length);
}

const openValve = { diameter: OPEN, dischargeCoefficient: 1 };

/** A line whose setting does not drift with the cylinder's pressure. */
const steadyLine = (line: SupplyLine): SupplyLine => ({ ...line, regulator: { ...line.regulator, supplyEffect: 0 } });

/** Flow gained, as a share, where one element loses nothing; for the cylinder, where it is full (a drift of the setting left out). */
function gainsOf(line: SupplyLine, point: SupplyPoint, full: number, length: number): SupplyCheck['gains'] {
  const { regulator, hose, rod } = line;
  const flowOf = (other: SupplyLine, cylinder = point.cylinder): number =>
    supplyPoint(other, cylinder, length, point.flow).flow;
  const steady = steadyLine(line);
  const gain = (better: number, now = point.flow): number => (now > 0 ? better / now - 1 : 0);
  return {
    cylinder: full > point.cylinder ? gain(flowOf(steady, full), flowOf(steady)) : 0,
    regulator: gain(flowOf({ ...line, regulator: { ...regulator, droop: 0, valve: openValve } })),
    hose: gain(flowOf({ ...line, hose: { ...hose, bore: 10 * hose.bore } })),
    holder: rod.holder === undefined ? 0 : gain(flowOf({ ...line, rod: { ...rod, holder: openValve } })),
  };
}

function limitOf(
  line: SupplyLine,
  point: SupplyPoint,
  full: number,
  length: number,
  gains: SupplyCheck['gains'],
  wantedTip: number | undefined,
): Limit {
  if (wantedTip !== undefined && point.tip >= wantedTip) return 'rod';
  if (point.wideOpen)
    return point.cylinder >= full || supplyPoint(steadyLine(line), full, length).wideOpen ? 'regulator' : 'cylinder';
  const names = ['regulator', 'hose', 'holder'] as const;
  const worst = names.reduce((a, b) => (gains[b] > gains[a] ? b : a));
  return gains[worst] >= WORTH_MENDING ? worst : 'rod';
}

/**
 * Cylinder pressure [Pa] at which the regulator's valve stands wide open: above it the flow follows the spring, almost straight
 * in the cylinder's pressure, below it the flow falls with the cylinder.
 */
function openingPressure(line: SupplyLine, { cylinder: full, delivery, flow }: SupplyPoint, length: number): number {
  const { regulator, oxygen } = line;
  let at = { delivery, flow };
  let pressure = leastSupply(regulator, delivery, flow, oxygen);
  // The setting drifts by a few hundredths of the cylinder's fall, so each round brings two digits.
  for (let i = 0; i < 2; i++) {
    const drifted = regulatorOutlet(regulator, regulator.setFlow, pressure);
    at = supplyPoint(
      { ...line, regulator: { ...regulator, setting: drifted, supplyEffect: 0, valve: openValve } },
      full,
      length,
      at.flow,
    );
    pressure = leastSupply(regulator, at.delivery, at.flow, oxygen);
  }
  return pressure;
}

/** A function straight between points given in rising order, and level beyond them. */
function straightBetween(xs: readonly number[], ys: readonly number[]): (x: number) => number {
  return (x) => {
    const i = xs.findIndex((at) => at >= x);
    if (i === 0) return ys[0]!;
    if (i < 0) return ys[ys.length - 1]!;
    return ys[i - 1]! + ((x - xs[i - 1]!) / (xs[i]! - xs[i - 1]!)) * (ys[i]! - ys[i - 1]!);
  };
}

/** Diameter [m] of an orifice that passes a flow [kg/s] from one absolute pressure [Pa] to another; undefined where none does. */
function orificeFor(flow: number, inlet: number, outlet: number, oxygen: Isotherm): number | undefined {
  const unit =
    inlet > outlet
      ? orificeFlowFrom({ diameter: 1, dischargeCoefficient: 1 }, inlet, flowingOn(oxygen, outlet))(outlet)
      : 0;
  return unit > 0 ? Math.sqrt(flow / unit) : undefined;
}

/** Ways to a tip pressure [Pa] and the flow [kg/s] that goes with it. */
function mendsOf(
  line: SupplyLine,
  bank: CylinderBank,
  limit: Limit,
  wanted: number,
  flow: number,
  length: number,
  point: SupplyPoint,
): readonly Mend[] {
  const { hose, rod, regulator, oxygen } = line;
  const inletOf = (other: Hose): number => hoseInlet(other, wanted, flow, oxygen);
  const setting = inletOf(hose);
  const mends: Mend[] = [];
  const settable = setting <= HIGHEST_SETTING + rod.ambient;
  const least = settable ? leftoverPressure(regulator, setting, flow, oxygen) : 0;
  if (least > bank.pressure) mends.push({ what: 'cylinder', pressure: least });
  if (point.wideOpen) {
    const diameter = limit === 'regulator' ? orificeFor(flow, bank.pressure, setting, oxygen) : undefined;
    return diameter === undefined ? mends : [...mends, { what: 'valve', diameter }];
  }
  if (limit === 'holder' && rod.holder) {
    const end = hoseOutlet(hose, regulatorOutlet(regulator, flow, bank.pressure), flow, oxygen);
    const diameter = end.passes
      ? orificeFor(flow / (rod.scale ?? 1), end.outlet, neededAlong(line, length)(flow).behindHolder, oxygen)
      : undefined;
    if (diameter !== undefined && diameter > rod.holder.diameter) mends.push({ what: 'holder', diameter });
  }
  if (setting > point.delivery && settable) mends.push({ what: 'setting', setting });
  // A hose can mend it only where the regulator gives more than the tip pressure wanted.
  if (point.delivery > wanted && setting > point.delivery) {
    const over = (other: Hose): number => inletOf(other) - point.delivery;
    const widest = { ...hose, bore: 20 * hose.bore };
    if (over(widest) < 0)
      mends.push({ what: 'bore', bore: findRoot((bore) => over({ ...hose, bore }), hose.bore, widest.bore, 1e-7) });
    if (over({ ...hose, length: 0.01 * hose.length }) < 0)
      mends.push({
        what: 'length',
        length: findRoot((x) => over({ ...hose, length: x }), 0.01 * hose.length, hose.length, 1e-7),
      });
  }
  return mends;
}

/** The tip pressure [Pa] and flow [kg/s] that mends aim at: as wanted, else nearly what the limiting element keeps back. */
function aimOf(
  line: SupplyLine,
  point: SupplyPoint,
  length: number,
  { limit, gains }: Pick<SupplyCheck, 'limit' | 'gains'>,
  wantedTip: number | undefined,
): { readonly tip: number; readonly flow: number } | undefined {
  const { rod, oxygen } = line;
  if (!(point.flow > 0) || (limit === 'rod' && !(wantedTip !== undefined && point.tip < wantedTip))) return undefined;
  if (wantedTip !== undefined)
    return {
      tip: wantedTip,
      flow: rodFlow({ ...rod, gas: flowingOn(oxygen, (wantedTip + rod.ambient) / 2) }, wantedTip, length),
    };
  const flow = (point.flow * (1 + gains[limit as Exclude<Limit, 'rod'>])) / (1 + WORTH_MENDING);
  return { tip: neededAlong(line, length)(flow).tip, flow };
}

/**
 * Checks one supply line: working point now, flow now and at the leftover pressure, minutes until change, what limits
 * and what would mend it.
 *
 * The flow is solved from the network at several cylinder pressures and the cylinders are then drawn at it, with
 * cooling (`drawCylinder`). The limit is the rod where the tip pressure wanted is there; the cylinder or the regulator where
 * the regulator's valve is wide open; else the element that costs most flow, or the rod where none costs a twentieth.
 *
 * length, stub [m] of the rod; wantedTip [Pa] absolute, optional; leastLeftover [Pa] absolute: left in the cylinder even where the
 * regulator would go on feeding.
 */
export function supplyCheck(
  supply: SupplyLine,
  bank: CylinderBank,
  length: number,
  stub: number,
  wantedTip?: number,
  leastLeftover = 0,
): SupplyCheck {
  const line: SupplyLine = { ...supply, oxygen: flowTable(supply.oxygen, TABULATED * supply.regulator.setting) };
  const mean = (stub + length) / 2;
  const point = supplyPoint(line, bank.pressure, mean);
  // The cylinder is changed when it can no longer feed what was set, whatever the setting has drifted to since.
  const full = Math.max(bank.full ?? line.regulator.setSupply, bank.pressure);
  const asSet =
    line.regulator.setSupply === bank.pressure && !point.wideOpen
      ? point
      : supplyPoint(steadyLine(line), full, mean, point.flow || undefined);
  const leftover = Math.max(leastLeftover, leftoverPressure(line.regulator, asSet.delivery, asSet.flow, line.oxygen));
  const pointAtLeftover = supplyPoint(line, leftover, mean, asSet.flow);
  const flow = meanSupplyFlow(line, bank.pressure, length, stub, point);
  const flowAtLeftover = meanSupplyFlow(line, leftover, length, stub, pointAtLeftover);
  const draws = leftover < bank.pressure && flow > 0;
  let end: Drawn | undefined;
  if (draws) {
    const opening = openingPressure(line, point, mean);
    const between = [opening, (opening + bank.pressure) / 2].filter((p) => p > leftover && p < bank.pressure);
    // Over a rod the flow keeps nearly the same mean, over its flow at mean length, as the cylinder empties.
    const flows = between.map((p) => (flow / point.flow) * supplyPoint(line, p, mean, point.flow).flow);
    const flowAt = straightBetween([leftover, ...between, bank.pressure], [flowAtLeftover, ...flows, flow]);
    const { volume, wall, pressure, temperature, cylinders } = bank;
    end = drawCylinder({ volume, wall, pressure, temperature, leftover, flow: (p) => flowAt(p) / cylinders });
  }
  const gains = gainsOf(line, point, full, mean);
  const limit = limitOf(line, point, full, mean, gains, wantedTip);
  const aim = aimOf(line, point, mean, { limit, gains }, wantedTip);
  return {
    point,
    pointAtLeftover,
    flow,
    flowAtLeftover,
    leftover,
    time: end?.time ?? 0,
    drawn: (end?.drawn ?? 0) * bank.cylinders,
    coldest: end?.temperature ?? bank.temperature,
    gains,
    limit,
    mends: aim ? mendsOf(line, bank, limit, aim.tip, aim.flow, mean, point) : [],
  };
}
