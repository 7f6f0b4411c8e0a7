import type { NumberName } from '../assumptions/registry.ts';
import type { Basis } from '../basis.ts';
import { burnProcess, type BurnProcess } from '../burn/burn-process.ts';
import type { Material } from '../burn/materials.ts';
import { pierceTime } from '../burn/pierce-time.ts';
import { rodMassPerLength, type Rod } from '../burn/rods.ts';
import type { Trace } from '../trace/trace.ts';
import type { Work } from './operation.ts';

/** The numbers that burning one item depends on besides its geometry and flow; SI. */
export interface Rates {
  readonly process: BurnProcess;
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

/** Names of the burning assumptions of a kind of rod. */
export function burnNames(rod: Rod): { readonly feed: NumberName; readonly burnt: NumberName } {
  return rod.kind === 'bar'
    ? { feed: 'bar feed ratio', burnt: 'bar oxygen burnt share' }
    : { feed: 'rod feed ratio', burnt: 'oxygen burnt share' };
}

/** The heat balance with the assumptions in force, for a kind of rod and a material. */
export function processInForce(rod: Rod, material: Material, basis: Basis, trace?: Trace): BurnProcess {
  const { a } = basis;
  const names = burnNames(rod);
  const balance = (): BurnProcess => {
    const slagTemperature = a.record('slag temperature', 'T', trace);
    return burnProcess(
      {
        feedRatio: a.record(names.feed, 'lambda', trace),
        oxygenBurnt: a.record(names.burnt, 'eta', trace),
        monoxideShare: a.record('product FeO share', 'FeO', trace),
        heatLost: a.record('heat lost share', 'f', trace),
        slagTemperature,
        workHeat: material.heat(slagTemperature),
        workBurns: material.burns,
        workName: material.name,
      },
      trace,
    );
  };
  return trace ? balance() : basis.once(`process ${rod.kind} ${material.name}`, balance);
}

/** Burning time, oxygen while burning and length of rod consumed for one item's work at a flow [kg/s]. */
export function consume(work: Work, rod: Rod, flow: number, density: number, rates: Rates): Consumption {
  const removal = rates.process.removed * flow;
  const { pierceWidth: w } = work;
  const advance = w > 0 ? removal / (density * (Math.PI / 4) * w * w) : Infinity;
  const pierce = work.pierces > 0 ? work.pierces * pierceTime(work.pierceDepth, advance, rates.advanceLimit, rates.advanceDepth * w) : 0;
  const free = (density * work.freeVolume) / removal;
  const burnTime = pierce + free;
  const burnOxygen = flow * burnTime;
  return { advance, pierceTime: pierce, freeTime: free, burnTime, burnOxygen, consumed: (rates.process.fed * burnOxygen) / rodMassPerLength(rod) };
}

export function ratesInForce(rod: Rod, material: Material, basis: Basis): Rates {
  const { a } = basis;
  return {
    process: processInForce(rod, material, basis),
    advanceLimit: a.value('advance limit'),
    advanceDepth: a.value('advance depth'),
    idleShare: a.value('idle oxygen share'),
    lightingTime: a.value('lighting time'),
  };
}
