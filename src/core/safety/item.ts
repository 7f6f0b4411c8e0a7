import { Assumptions } from '../assumptions/assumptions.ts';
import type { MaterialName } from '../assumptions/material-names.ts';
import { findMaterial, type Material } from '../burn/materials.ts';
import type { RodChoice } from '../burn/rods.ts';
import { CalcError } from '../errors.ts';
import { operationOf, type OperationId } from '../operations/all.ts';
import { underWater } from '../operations/site.ts';
import { cylinderContent } from '../oxygen/cylinder-content.ts';
import { FILL_TEMPERATURE } from '../oxygen/gauge-reading.ts';
import { PSI } from '../units/quantities.ts';
import type { Condition, ConditionName } from './conditions.ts';

/** Assumptions that hold a bound of a rule. */
export type AssumedLimit = 'short rod current';

/** A rod as far as cautions go. */
export type RodUse = Pick<RodChoice, 'rod' | 'coupled'>;

/** What somebody who asks for cautions knows of the work. What is left out follows from the assumptions. */
export interface KnownItem {
  /** What it is called in its list; several where they are alike. */
  readonly marks?: readonly string[];
  readonly operation?: OperationId;
  /** Functions whose own cautions apply too. */
  readonly functions?: readonly string[];
  readonly material?: Material;
  readonly rod?: RodUse;
  /** Words of the assumption `position`. */
  readonly position?: string;
  /** Words of the assumption `access`. */
  readonly access?: string;
  readonly grounded?: boolean;
  /** `air` or `water`. */
  readonly cooling?: string;
  /** Assumptions of its own, in place of those of the call. */
  readonly assumed?: Assumptions;
  /** As given by the user, or as an argument says. */
  readonly conditions?: readonly Condition[];
}

/** What is done, to what, with what and where: all that cautions and what to wear depend on. SI. */
export interface Item {
  /** What it is called in its list; empty where it is of none. */
  readonly marks: readonly string[];
  readonly operation: OperationId | undefined;
  readonly functions: readonly string[];
  readonly material: Material;
  /** Undefined where nobody has named or picked it. */
  readonly rod: RodUse | undefined;
  readonly coupled: boolean;
  readonly position: string;
  /** Depth of the work under water [m]; 0 where none is given. */
  readonly waterDepth: number;
  readonly access: string;
  readonly grounded: boolean;
  readonly cooling: string;
  /** Average noise [dBA]; undefined where it is the register's. */
  readonly noise: number | undefined;
  /** Wind at the work [m/s]. */
  readonly wind: number;
  /** How cold it is [K]: air or oxygen, the colder. */
  readonly temperature: number;
  /** Whether the pin has a bore already, is open at one end only, or sits in a bushing; whether there is a side that nobody gets at. */
  readonly pin: { readonly bored: boolean; readonly blind: boolean; readonly bushed: boolean };
  readonly oneSide: boolean;
  /** Pressure of the air [Pa]. */
  readonly airPressure: number;
  /** Oxygen on the manifold [kg]: 0 for a cylinder by itself, undefined where the assumptions give no content. */
  readonly manifold: number | undefined;
  readonly conditions: readonly Condition[];
  readonly limits: Readonly<Record<AssumedLimit, number>>;
}

/** Describes the work from what is known of it and, for the rest, from the assumptions in force. The only place where these become a part of it. */
export function itemOf(known: KnownItem, ofTheCall: Assumptions = Assumptions.defaults()): Item {
  const a = known.assumed ?? ofTheCall;
  const { operation } = known;
  const declared = operation === undefined ? undefined : operationOf(operation);
  const noise = a.value('short rod noise');
  return {
    marks: known.marks ?? [],
    operation,
    functions: known.functions ?? [],
    material: known.material ?? findMaterial(a.word(declared?.material ?? 'material')),
    rod: known.rod,
    coupled: known.rod?.coupled === true || a.word('coupled rods') === 'yes',
    position: known.position ?? (underWater(a) ? 'underwater' : a.word('position')),
    waterDepth: a.value('water depth'),
    access: known.access ?? a.word('access'),
    grounded: known.grounded ?? a.word('work grounded') === 'yes',
    cooling: known.cooling ?? (declared?.cooling ? a.word('cooling method') : 'air'),
    noise: noise === a.defaults.value('short rod noise') ? undefined : noise,
    wind: a.value('wind'),
    temperature: Math.min(a.value('ambient temperature'), a.value('gas temperature')),
    airPressure: a.value('air pressure'),
    pin: {
      bored: a.value('existing bore') > 0,
      blind: a.word('pin ends') === 'one',
      bushed: a.value('bushing wall') > 0,
    },
    oneSide: a.word('access side') === 'one',
    manifold: manifoldOxygen(a),
    conditions: known.conditions ?? [],
    limits: { 'short rod current': a.value('short rod current') },
  };
}

function manifoldOxygen(a: Assumptions): number | undefined {
  const cylinders = a.value('cylinders on manifold');
  if (cylinders <= 1) return 0;
  try {
    const pressure = a.value('cylinder pressure') + a.value('air pressure');
    return cylinders * cylinderContent(a.value('cylinder volume'), pressure, FILL_TEMPERATURE);
  } catch (e) {
    if (e instanceof CalcError) return undefined;
    throw e;
  }
}

/** Freezing point of water [K]. */
const FREEZING = 273.15;
/** Pressure of the air at about 6000 ft [Pa]: ISO 2533, from memory. Where thin air begins to tell is common practice. */
const THIN_AIR = 11.8 * PSI;

/** What brought a condition with it. */
type Origin = 'given' | 'material' | 'rod' | 'site';

/** A condition that holds for an item. */
export interface HeldCondition extends Condition {
  readonly origin: Origin;
  /** What it comes from, in words, for whoever asks why. */
  readonly because: string;
}

/** What a material says of fume, dust and the way it breaks. Bronze for bushes often has lead in it (from memory). */
export const OF_MATERIAL: Readonly<Record<MaterialName, readonly ConditionName[]>> = {
  'carbon steel': [],
  'hardened pin steel': ['hardened'],
  'manganese steel': ['manganese steel'],
  'stainless steel': ['stainless'],
  'cast iron': ['cast iron'],
  'copper alloy': ['galvanised', 'lead paint'],
  'aluminium alloy': ['aluminium'],
  concrete: ['concrete'],
  'reinforced concrete': ['concrete', 'rebar'],
  rock: ['concrete'],
};

/** What a position brings with it. */
export const OF_POSITION: Readonly<Record<string, ConditionName>> = {
  overhead: 'overhead',
  'vertical down': 'vertical down',
  underwater: 'underwater',
};

/** All conditions that hold for an item, each once: those given, then what the item itself brings with it. */
export function conditionsOf(item: Item): readonly HeldCondition[] {
  const { material, rod, coupled, position, waterDepth, access, grounded, cooling, noise, wind, manifold } = item;
  const { temperature, airPressure, pin, oneSide } = item;
  const held: HeldCondition[] = item.conditions.map((c) => ({ ...c, origin: 'given', because: c.name }));
  const add = (origin: Origin, name: ConditionName | undefined, value?: number, because: string = name ?? ''): void => {
    if (name !== undefined && !held.some((h) => h.name === name && h.value === value))
      held.push({ name, ...(value === undefined ? {} : { value }), origin, because });
  };
  for (const name of OF_MATERIAL[material.name]) add('material', name, undefined, material.name);
  // A rod that is not known yet may be one of all that are picked for the material.
  const bar = rod ? rod.rod.kind === 'bar' : material.kind === 'masonry';
  if (bar) add('rod', 'long bar');
  if (coupled) add('rod', 'coupled rods');
  add('site', OF_POSITION[position], position === 'underwater' && waterDepth > 0 ? waterDepth : undefined);
  if (access === 'tight') add('site', 'tight');
  if (grounded) add('site', 'grounded work');
  if (cooling === 'water') add('site', 'water quench');
  if (noise !== undefined) add('site', 'noise', noise);
  if (wind > 0) add('site', 'wind');
  if (temperature < FREEZING) add('site', 'cold weather', temperature);
  if (airPressure < THIN_AIR) add('site', 'high altitude');
  if (item.operation === undefined || item.operation === 'PIN') {
    if (pin.bored) add('site', 'hollow pin');
    if (pin.blind) add('site', 'closed bore');
    if (pin.bushed) add('site', 'seals');
  }
  if (oneSide) add('site', 'one side');
  if (manifold !== 0) add('site', 'manifold', manifold);
  return held;
}
