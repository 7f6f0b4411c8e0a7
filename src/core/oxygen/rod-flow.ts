import * as messages from '../messages.ts';
import { findRoot } from './find-root.ts';
import type { FlowingGas } from './flowing-gas.ts';
import type { FrictionLaw } from './friction-factor.ts';
import { harmonicMean } from './harmonic-mean.ts';
import { orificeFlowFrom, orificeInlet, type Orifice } from './orifice.ts';
import { passageFlow, passageInlet, resistance, type Passage } from './pipe-flow.ts';

/** An exothermic rod: a tube with round wires inside. Lengths in m. */
export interface RodConstruction {
  readonly outsideDiameter: number;
  readonly bore: number;
  readonly wires: number;
  readonly wireDiameter: number;
}

/** A rod with what stands before and behind it. */
export interface RodLine {
  readonly rod: RodConstruction;
  /** The holder's valve and passages; absent: none. */
  readonly holder?: Orifice;
  /** Absolute pressure around the burning end [Pa]. */
  readonly ambient: number;
  readonly gas: FlowingGas;
  /** Factor on the flow, from a measured flow (`rodFlowScale`); 1 where nothing was measured. */
  readonly scale?: number;
  /** Loss coefficient K of the entry; absent: `ROD_ENTRY_LOSS`. */
  readonly loss?: number;
  /** Absolute roughness of tube and wires [m], used by Colebrook. */
  readonly roughness?: number;
  readonly law?: FrictionLaw;
}

/** A sharp entry (0.5) and the velocity head of the gas that was nearly at rest behind it (1): Crane TP-410, appendix A. */
export const ROD_ENTRY_LOSS = 1.5;

/** Free area, wetted perimeter and hydraulic diameter of a rod's passages, in m2 and m. */
export function rodPassages(rod: RodConstruction): {
  readonly area: number;
  readonly perimeter: number;
  readonly diameter: number;
} {
  if (!(rod.bore > 0)) throw messages.blankOrZero('bore');
  if (!(rod.bore < rod.outsideDiameter))
    throw messages.mustBeLess(
      'bore',
      `${messages.shown(rod.bore)} m`,
      `the outside diameter's ${messages.shown(rod.outsideDiameter)} m`,
    );
  const area = (Math.PI / 4) * (rod.bore ** 2 - rod.wires * rod.wireDiameter ** 2);
  if (!(area > 0)) throw messages.mustBeLess('wire area', 'the whole bore', 'the bore, so that oxygen can pass');
  const perimeter = Math.PI * (rod.bore + rod.wires * rod.wireDiameter);
  return { area, perimeter, diameter: (4 * area) / perimeter };
}

/** The rod of one length [m] as a passage. */
export function rodPassage(line: Omit<RodLine, 'gas'>, length: number): Passage {
  const { area, diameter } = rodPassages(line.rod);
  return {
    length,
    area,
    diameter,
    loss: line.loss ?? ROD_ENTRY_LOSS,
    roughness: line.roughness ?? 0,
    law: line.law ?? 'Blasius',
  };
}

/** Share of the inlet pressure that a holder must lose for its flow to be told from it to eight digits. */
const SEEN = 1e-3;

/** Flow [kg/s] through holder and passage in series, not scaled. */
function seriesFlow(line: RodLine, passage: Passage, inlet: number): number {
  const { holder, ambient, gas } = line;
  if (holder === undefined || inlet === ambient) return passageFlow(passage, inlet, ambient, gas).flow;
  const into = orificeFlowFrom(holder, inlet, gas);
  /** Whether the pressure behind the holder more than drives the holder's flow through the rod: rises with that pressure. */
  const spare = (behind: number): number => {
    const flux = into(behind) / passage.area;
    if (flux === 0) return 1;
    const square = gas.zrt * flux * flux;
    const exit = Math.max(ambient, Math.sqrt(square));
    if (behind <= exit) return -1;
    return (
      1 -
      (exit / behind) ** 2 -
      (square / behind ** 2) * (resistance(passage, flux, gas.viscosity) + 2 * Math.log(behind / exit))
    );
  };
  const behind = findRoot(spare, ambient, inlet, 1e-11);
  // What a wide holder loses is a difference lost in rounding; what the rod loses is not.
  return inlet - behind > SEEN * inlet ? into(behind) : passageFlow(passage, behind, ambient, gas).flow;
}

/**
 * Oxygen flow [kg/s] through an exothermic rod of a remaining length [m] from an absolute pressure at the holder's inlet [Pa].
 *
 * The rod is a passage of its free area and hydraulic diameter (see `passageFlow`), the holder an orifice before it,
 * the exit at the ambient pressure; both pass the same mass flow. Rises with inlet, falls with length and ambient.
 * Source: design of the rod as a packed tube, construction by common practice, no source; equations as `passageFlow` and `orificeFlow`.
 */
export function rodFlow(line: RodLine, inlet: number, length: number): number {
  if (!(inlet >= line.ambient))
    throw messages.tooLow(
      'pressure',
      `${messages.shown(inlet)} Pa absolute`,
      `the ${messages.shown(line.ambient)} Pa absolute around the rod`,
    );
  return (line.scale ?? 1) * seriesFlow(line, rodPassage(line, length), inlet);
}

/** Absolute pressure [Pa] at the holder's inlet that drives a flow [kg/s] through a rod: the inverse of `rodFlow`. */
export function rodPressure(line: RodLine, flow: number, length: number): number {
  const unscaled = flow / (line.scale ?? 1);
  const behind = passageInlet(rodPassage(line, length), line.ambient, unscaled, line.gas);
  return line.holder === undefined ? behind : orificeInlet(line.holder, behind, unscaled, line.gas);
}

/** Absolute pressure [Pa] between holder and rod at the flow that an absolute inlet pressure [Pa] drives. */
export function behindHolder(line: RodLine, inlet: number, length: number): number {
  return passageInlet(
    rodPassage(line, length),
    line.ambient,
    rodFlow(line, inlet, length) / (line.scale ?? 1),
    line.gas,
  );
}

/**
 * Mean flow [kg/s] over the burning time of a rod burned from `length` down to `stub` [m] at a steady inlet pressure.
 *
 * Metal is fed in proportion to oxygen, so the time spent at each length goes as 1 / flow and the mean over time is
 * the harmonic mean over length: (L - s) / integral of dx / m(x).
 */
export function meanRodFlow(line: RodLine, inlet: number, length: number, stub: number): number {
  if (!(stub >= 0)) throw messages.tooLow('stub', `${messages.shown(stub)} m`, '0 m');
  if (!(length > stub))
    throw messages.notAbove('length', `${messages.shown(length)} m`, `the stub's ${messages.shown(stub)} m`);
  return harmonicMean((x) => rodFlow(line, inlet, x), stub, length);
}

/** The factor on a rod's flow that makes it meet a measured flow [kg/s] at an absolute inlet pressure [Pa] and a length [m]. */
export function rodFlowScale(line: RodLine, measured: number, inlet: number, length: number): number {
  if (!(measured > 0)) throw messages.blankOrZero('rod flow measured');
  return measured / rodFlow({ ...line, scale: 1 }, inlet, length);
}
