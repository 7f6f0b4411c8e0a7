import type { Assumptions } from '../assumptions/assumptions.ts';
import type { ReadNumber } from '../assumptions/registry.ts';
import type { Basis } from '../basis.ts';
import { burnProcess, type BurnProcess } from '../burn/burn-process.ts';
import { recordHeat, substanceOf, type Material } from '../burn/materials.ts';
import { pierceTime } from '../burn/pierce-time.ts';
import { rodMassPerLength, rodNames, type Rod } from '../burn/rods.ts';
import type { Trace } from '../model/trace.ts';
import type { Work } from './operation.ts';
import { siteOf } from './site.ts';

/** The numbers that burning one item depends on besides its geometry and flow; SI. */
export interface Rates {
  readonly process: BurnProcess;
  /** Of the work [kg/m3]. */
  readonly density: number;
  /** On the metal removed, from the position. */
  readonly removal: number;
  readonly advanceLimit: number;
  readonly advanceDepth: number;
  readonly idleShare: number;
  readonly lightingTime: number;
}

export interface Consumption {
  /** What the heat could advance a pierce [m/s]. */
  readonly advance: number;
  readonly pierceTime: number;
  readonly freeTime: number;
  readonly burnTime: number;
  readonly burnOxygen: number;
  readonly consumed: number;
}

/** The heat balance of a kind of rod on a material, from the assumptions in force or one draw of them. */
export function processOf(rod: Rod, material: Material, read: ReadNumber): BurnProcess {
  const names = rodNames(rod);
  const slagTemperature = read('slag temperature');
  const { heat, burns, heatLost } = substanceOf(material, read, slagTemperature, read('heat lost share'));
  return burnProcess({
    feedRatio: read(names.feed),
    oxygenBurnt: read(names.burnt),
    monoxideShare: read('product FeO share'),
    heatLost,
    slagTemperature,
    workHeat: heat,
    workBurns: burns,
    workName: material.name,
  });
}

/** Records the heat balance with the assumptions in force. */
export function recordProcess(rod: Rod, material: Material, { a }: Basis, trace: Trace): void {
  const names = rodNames(rod);
  const slagTemperature = a.record('slag temperature', 'T', trace);
  const feedRatio = a.record(names.feed, 'lambda', trace);
  const oxygenBurnt = a.record(names.burnt, 'eta', trace);
  const monoxideShare = a.record('product FeO share', 'FeO', trace);
  const conducts = material.kind === 'metal' && material.conducts === true;
  const lost = a.record('heat lost share', conducts ? 'f_0' : 'f', trace);
  const { heat, burns, heatLost } = substanceOf(material, (name) => a.value(name), slagTemperature, lost);
  if (conducts) {
    a.record('conducted share', 'f_conducted', trace);
    trace.add({
      name: 'heat lost in all',
      symbol: 'f',
      value: heatLost,
      quantity: 'ratio',
      formula: '1 - (1 - heat lost share) x (1 - conducted share)',
      expression: '1 - (1 - f_0) * (1 - f_conducted)',
      kind: 'calculated',
      source: 'arithmetic',
    });
  }
  burnProcess(
    {
      feedRatio,
      oxygenBurnt,
      monoxideShare,
      heatLost,
      slagTemperature,
      workHeat: heat,
      workBurns: burns,
      workName: material.name,
      recordWorkHeat: (into) => recordHeat(material, a, into),
    },
    trace,
  );
}

/** Advance [m/s] of a pierce that the heat allows: what is removed [kg/s] over density [kg/m3] and section. */
export function heatAdvance(work: Work, removal: number, density: number): number {
  const { pierceWidth: w } = work;
  return w > 0 ? removal / (density * (Math.PI / 4) * w * w) : Infinity;
}

/** Burning time of the pierces of one item's work [s], where slag may limit the advance. */
export function piercesTime(work: Work, advance: number, limit: number, depths: number): number {
  return work.pierces > 0 ? work.pierces * pierceTime(work.pierceDepth, advance, limit, depths * work.pierceWidth) : 0;
}

/** Burning time, oxygen while burning and length of rod consumed for one item's work at a flow [kg/s]. */
export function consume(work: Work, rod: Rod, flow: number, rates: Rates): Consumption {
  const { density } = rates;
  const removal = rates.process.removed * rates.removal * flow;
  const advance = heatAdvance(work, removal, density);
  const pierce = piercesTime(work, advance, rates.advanceLimit, rates.advanceDepth);
  const free = (density * work.freeVolume) / removal;
  const burnTime = pierce + free;
  const burnOxygen = flow * burnTime;
  return {
    advance,
    pierceTime: pierce,
    freeTime: free,
    burnTime,
    burnOxygen,
    consumed: (rates.process.fed * burnOxygen) / rodMassPerLength(rod),
  };
}

/** All that burning depends on besides geometry and flow, from the assumptions in force or one draw of them. */
export function ratesOf(rod: Rod, material: Material, a: Assumptions, read: ReadNumber): Rates {
  const site = siteOf(a, read);
  return {
    process: processOf(rod, material, read),
    density: substanceOf(material, read, read('slag temperature'), read('heat lost share')).density,
    removal: site.removal,
    advanceLimit: read('advance limit') * site.slag,
    advanceDepth: read('advance depth'),
    idleShare: read('idle oxygen share'),
    lightingTime: a.value('lighting time'),
  };
}

export function ratesInForce(rod: Rod, material: Material, { a, once }: Basis): Rates {
  return once(`rates ${rod.kind} ${material.name}`, () => ratesOf(rod, material, a, (name) => a.value(name)));
}
