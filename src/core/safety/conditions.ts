import { conditionNeedsValue, conditionTakesNoValue, unknownName } from '../messages.ts';
import { nearestNames } from '../units/nearest-names.ts';
import { parseQuantity } from '../units/parse-quantity.ts';
import type { QuantityName, UnitSystem } from '../units/quantities.ts';
import { showQuantity } from '../units/show-quantity.ts';

interface Entry {
  readonly name: string;
  /** What it means, for a list to choose from. */
  readonly meaning: string;
  /** Other words for it, lower case. */
  readonly also: readonly string[];
  /** A value may follow, of this quantity. */
  readonly quantity?: QuantityName;
  /** A value must follow; an example of one. */
  readonly needs?: string;
}

/** Words a user types about a job. Names and synonyms are lower case without hyphens. */
export const CONDITIONS = [
  // The place
  {
    name: 'confined',
    meaning: 'a space with little room and poor air: tank, vessel, boom, bucket, pit',
    also: [
      'confined space',
      'permit space',
      'permit required confined space',
      'enclosed',
      'enclosed space',
      'inside a tank',
      'tank',
      'vessel',
      'pit',
      'trench',
      'manhole',
    ],
  },
  {
    name: 'indoors',
    meaning: 'under a roof with walls',
    also: ['indoor', 'inside', 'in a building', 'workshop', 'shop'],
  },
  {
    name: 'height',
    meaning: 'work above the ground; a height may follow',
    also: ['at height', 'elevated', 'work at height', 'scaffold', 'platform', 'ladder', 'basket'],
    quantity: 'distance',
  },
  {
    name: 'people below',
    meaning: 'people can be under or beside the work',
    also: ['people', 'public', 'traffic', 'people nearby', 'bystanders', 'other trades'],
  },
  { name: 'wind', meaning: 'wind that carries sparks', also: ['windy', 'gusts'] },
  {
    name: 'combustibles',
    meaning: 'things that burn within reach of sparks',
    also: [
      'combustibles nearby',
      'combustible',
      'dry grass',
      'grass',
      'brush',
      'wood',
      'timber',
      'paper',
      'rags',
      'rubbish',
      'coal',
      'conveyor belt',
      'insulation',
    ],
  },
  {
    name: 'floor openings',
    meaning: 'openings, cracks or grating in the floor, holes in walls',
    also: ['floor opening', 'grating', 'holes in the floor', 'wall openings', 'ducts', 'conveyor'],
  },
  {
    name: 'partition',
    meaning: 'something that burns behind the wall or plate that is heated',
    also: ['far side', 'behind the wall', 'other side', 'bulkhead', 'wall'],
  },
  {
    name: 'flammable',
    meaning: 'flammable gas, vapour or liquid',
    also: [
      'flammable gas',
      'flammable liquid',
      'vapour',
      'vapor',
      'fuel',
      'diesel',
      'petrol',
      'gasoline',
      'solvent',
      'methane',
      'explosive atmosphere',
    ],
  },
  {
    name: 'dust',
    meaning: 'combustible dust',
    also: ['combustible dust', 'coal dust', 'grain dust', 'wood dust', 'sawdust', 'metal dust'],
  },
  {
    name: 'container',
    meaning: 'a drum, tank or pipe that has held something',
    also: ['drum', 'fuel tank', 'used container', 'barrel', 'pipeline', 'hydraulic tank'],
  },
  {
    name: 'wet',
    meaning: 'rain, standing water, sweat-soaked clothing',
    also: ['rain', 'standing water', 'damp', 'mud', 'wet ground'],
  },
  {
    name: 'underwater',
    meaning: 'work under water; a depth may follow',
    also: ['under water', 'submerged', 'diving', 'diver', 'depth', 'subsea'],
    quantity: 'distance',
  },
  {
    name: 'splash zone',
    meaning: 'a diver or worker partly in the water',
    also: ['waterline', 'half submerged', 'tidal'],
  },
  {
    name: 'overhead',
    meaning: 'the rod is held upwards, under the metal',
    also: ['overhead work', 'over head', 'from below', 'upwards'],
  },
  {
    name: 'vertical down',
    meaning: 'the rod is held straight down, so that slag has to come up',
    also: ['downwards', 'downward', 'straight down'],
  },
  {
    name: 'tight',
    meaning: 'no room to step back or to turn away',
    also: ['tight access', 'tight place', 'cramped', 'no room', 'little room'],
  },
  {
    name: 'one side',
    meaning: 'work that can be got at from one side only',
    also: ['one sided', 'single sided', 'blind side', 'far side not reached'],
  },
  { name: 'alone', meaning: 'nobody else on the spot', also: ['lone worker', 'single handed', 'one person', 'remote'] },
  {
    name: 'hot weather',
    meaning: 'heat on top of the heat of the work and clothing',
    also: ['hot day', 'summer', 'desert'],
  },
  {
    name: 'cold weather',
    meaning: 'frost; the temperature may follow',
    also: ['cold', 'frost', 'freezing', 'winter', 'snow', 'ice', 'arctic'],
    quantity: 'temperature',
  },
  {
    name: 'high altitude',
    meaning: 'thin air: a place above 6000 ft or so',
    also: ['altitude', 'thin air', 'mountain'],
  },
  // Gas on the site
  {
    name: 'fuel gas',
    meaning: 'acetylene, propane or another fuel gas on the site',
    also: ['acetylene', 'propane', 'lpg', 'natural gas'],
  },
  {
    name: 'separation',
    meaning: 'distance of stored oxygen from fuel gas or combustibles; the distance follows',
    also: ['cylinder distance', 'cylinders apart', 'stored apart'],
    quantity: 'distance',
    needs: '15 ft',
  },
  {
    name: 'manifold',
    meaning: 'cylinders connected together; the oxygen on it may follow',
    also: ['manifolded', 'bank', 'pack', 'cylinder pack', 'bulk'],
    quantity: 'oxygen',
  },
  {
    name: 'hoisted cylinders',
    meaning: 'cylinders lifted by crane or hoist',
    also: ['crane', 'hoist', 'lifted cylinders', 'crane lift'],
  },
  // Measured or worked out
  {
    name: 'oxygen',
    meaning: 'oxygen in the air; the percent follows',
    also: ['oxygen in air', 'oxygen level', 'room oxygen', 'o2'],
    quantity: 'percent',
    needs: '24%',
  },
  {
    name: 'iron oxide',
    meaning: 'iron oxide in the air over 8 hours; the concentration follows',
    also: ['iron oxide fume', 'iron fume'],
    quantity: 'concentration',
    needs: '12 mg/m3',
  },
  {
    name: 'manganese fume',
    meaning: 'manganese in the air; the concentration follows',
    also: ['manganese in air'],
    quantity: 'concentration',
    needs: '2 mg/m3',
  },
  {
    name: 'noise',
    meaning: 'average noise of the shift; the level follows',
    also: ['noise level', 'sound', 'sound level', 'level'],
    quantity: 'level',
    needs: '95 dBA',
  },
  // The metal and its coating
  {
    name: 'galvanised',
    meaning: 'zinc on the metal, or zinc in it',
    also: ['galvanized', 'zinc', 'zinc plated', 'zinc coated', 'zinc primer', 'brass', 'copper alloy'],
  },
  { name: 'cadmium', meaning: 'cadmium plating', also: ['cadmium plated', 'cad plated', 'cadmium plate'] },
  {
    name: 'lead paint',
    meaning: 'lead in paint, primer or metal',
    also: ['lead', 'leaded', 'red lead', 'lead primer', 'lead coated', 'lead based paint', 'old paint'],
  },
  {
    name: 'paint',
    meaning: 'paint or coating of unknown kind',
    also: ['painted', 'coated', 'coating', 'primer', 'epoxy', 'preservative coating'],
  },
  {
    name: 'beryllium copper',
    meaning: 'beryllium in the metal',
    also: ['beryllium', 'becu', 'beryllium bronze', 'copper beryllium'],
  },
  {
    name: 'stainless',
    meaning: 'stainless steel, chromium plate or hard facing with chromium',
    also: [
      'stainless steel',
      'chrome',
      'chrome plated',
      'chromium',
      'hard chrome',
      'chromium plated',
      'hardfacing',
      'hard facing',
    ],
  },
  {
    name: 'manganese steel',
    meaning: 'austenitic manganese steel',
    also: ['manganese', 'high manganese steel', 'austenitic manganese steel'],
  },
  {
    name: 'magnesium',
    meaning: 'magnesium, titanium or zirconium',
    also: ['titanium', 'zirconium', 'magnesium alloy', 'reactive metal'],
  },
  {
    name: 'aluminium',
    meaning: 'aluminium in or next to the work',
    also: ['aluminum', 'aluminium alloy', 'aluminum alloy'],
  },
  { name: 'cast iron', meaning: 'cast iron', also: ['grey iron', 'gray iron', 'ductile iron', 'iron casting'] },
  {
    name: 'hardened',
    meaning: 'hardened or high-carbon steel',
    also: [
      'hardened pin',
      'hardened pin steel',
      'induction hardened',
      'case hardened',
      'heat treated',
      'alloy steel',
      'high carbon steel',
      'tool steel',
    ],
  },
  {
    name: 'polymer bushing',
    meaning: 'plastic, fibre or fluoropolymer bush or liner',
    also: [
      'plastic bushing',
      'nylon',
      'ptfe',
      'fluoropolymer',
      'composite bushing',
      'fibre bushing',
      'rubber',
      'polyurethane',
    ],
  },
  // Concrete
  {
    name: 'concrete',
    meaning: 'concrete, masonry or rock',
    also: ['reinforced concrete', 'masonry', 'rock', 'stone', 'brick', 'refractory'],
  },
  {
    name: 'rebar',
    meaning: 'reinforcing steel in the concrete',
    also: ['reinforcement', 'reinforcing steel', 'reinforcing bar'],
  },
  {
    name: 'prestressed',
    meaning: 'steel in tension: tendons, strands, stays',
    also: [
      'post tensioned',
      'pre tensioned',
      'pretensioned',
      'posttensioned',
      'tendon',
      'tendons',
      'strand',
      'cable stay',
      'rebar under tension',
    ],
  },
  {
    name: 'embedded services',
    meaning: 'cables or pipes in or behind the section',
    also: ['conduit', 'embedded cable', 'buried cable', 'pipes in the wall', 'services', 'utilities'],
  },
  // The machine
  {
    name: 'grease packed',
    meaning: 'grease in or round the pin',
    also: ['grease', 'greased', 'greasy', 'lubricant', 'lube'],
  },
  {
    name: 'oil',
    meaning: 'oil on or near the work',
    also: ['oily', 'oil soaked', 'hydraulic oil', 'gear oil', 'engine oil'],
  },
  {
    name: 'hydraulic cylinder',
    meaning: 'a hydraulic cylinder, line or accumulator at the work',
    also: [
      'hydraulic',
      'hydraulics',
      'hydraulic line',
      'hydraulic hose',
      'accumulator',
      'gas strut',
      'shock absorber',
      'suspension strut',
    ],
  },
  {
    name: 'pressurised',
    meaning: 'anything under pressure',
    also: ['pressurized', 'under pressure', 'pressure', 'compressed air', 'steam line'],
  },
  {
    name: 'hollow pin',
    meaning: 'a pin with a bore, gallery or cavity',
    also: ['hollow', 'drilled pin', 'cross drilled', 'grease gallery', 'gun drilled', 'tubular pin'],
  },
  {
    name: 'sealed cavity',
    meaning: 'a closed tube, box section or blind hole',
    also: [
      'closed cavity',
      'sealed',
      'box section',
      'closed tube',
      'capped',
      'plugged',
      'pontoon',
      'float',
      'blind hole',
    ],
  },
  {
    name: 'tyre',
    meaning: 'a wheel with a tyre on it near the heat',
    also: ['tire', 'tyres', 'tires', 'wheel', 'rim', 'wheel rim'],
  },
  {
    name: 'spring load',
    meaning: 'springs, preload or stored energy in the joint',
    also: [
      'spring',
      'springs',
      'preload',
      'preloaded',
      'stored energy',
      'stored spring',
      'track tension',
      'recoil spring',
      'stored load',
    ],
  },
  {
    name: 'suspended load',
    meaning: 'a load, boom or bucket that the pin holds up',
    also: ['load', 'loaded', 'boom', 'bucket', 'hanging load', 'raised', 'counterweight'],
  },
  {
    name: 'live machine',
    meaning: 'a machine that is not locked out',
    also: ['not locked out', 'energised', 'energized', 'engine running', 'live', 'running'],
  },
  {
    name: 'bearing',
    meaning: 'bearings, gears or slew ring between work and ground',
    also: ['bearings', 'slew ring', 'slewing ring', 'gear', 'gears', 'gearbox', 'swing bearing'],
  },
  {
    name: 'seals',
    meaning: 'bushes or seals to be kept',
    also: ['seal', 'bushing', 'bushings', 'bush', 'bushes', 'o ring'],
  },
  {
    name: 'electronics',
    meaning: 'controllers, sensors or harness on the machine',
    also: ['controller', 'controllers', 'ecu', 'wiring', 'wiring harness', 'harness', 'computer', 'sensors'],
  },
  // How it is done
  {
    name: 'long bar',
    meaning: 'burnt with a long burning bar of pipe',
    also: ['long bars', 'long burning bar', 'burning bar', 'pipe rod', 'pipe rods'],
  },
  {
    name: 'coupled rods',
    meaning: 'rods joined end to end by couplings',
    also: ['coupled', 'coupled rod', 'coupling', 'couplings', 'string of rods'],
  },
  {
    name: 'water quench',
    meaning: 'cooled with water',
    also: ['quench', 'quenched', 'water cooling', 'water cooled', 'water', 'water spray', 'hose down'],
  },
  {
    name: 'closed bore',
    meaning: 'a bore or pocket with one end shut',
    also: ['blind bore', 'blind end', 'not through', 'pocket'],
  },
  {
    name: 'ram',
    meaning: 'pressed out with a ram or jack',
    also: ['hydraulic ram', 'jack', 'push out', 'press', 'pressed out', 'pressing'],
  },
  {
    name: 'hammer',
    meaning: 'driven out with a hammer or drift',
    also: ['sledge', 'sledgehammer', 'drift', 'drive out', 'driven out', 'hammering'],
  },
  {
    name: 'grounded work',
    meaning: 'the work is connected to the power source',
    also: ['grounded', 'ground', 'earthed', 'earth', 'work lead', 'ground clamp', 'arc', 'arc cutting', 'arc lighting'],
  },
  {
    name: 'welding machine',
    meaning: 'lit from a welding machine; its setting may follow',
    also: ['welder', 'welding set', 'power source', 'current', 'amps'],
    quantity: 'current',
  },
  {
    name: 'battery',
    meaning: 'lit from a battery',
    also: ['vehicle battery', '12 v battery', 'lead acid battery', 'batteries', '12 v', '24 v'],
  },
] as const satisfies readonly Entry[];

export type ConditionName = (typeof CONDITIONS)[number]['name'];
/** Conditions that may carry a value. */
export type MeasuredName = Extract<(typeof CONDITIONS)[number], { readonly quantity: QuantityName }>['name'];

/** A condition as it applies to a job; the value in SI where one was given. */
export interface Condition {
  readonly name: ConditionName;
  readonly value?: number;
}

/** A hyphen between letters joins words; one before a figure is a minus sign or part of a fraction. */
const tidy = (text: string): string =>
  text
    .toLowerCase()
    .replace(/([a-z])[-–](?=[a-z])/g, '$1 ')
    .replace(/\s*[:=]\s*/g, ' ')
    .replace(/[\s_]+/g, ' ')
    .trim();

const byWord = new Map<string, ConditionName>(
  CONDITIONS.flatMap((c) => [c.name, ...c.also].map((word) => [word, c.name] as const)),
);
const entries = new Map<ConditionName, Entry>(CONDITIONS.map((c) => [c.name, c]));
const WORDS = [...byWord.keys()];

/** Splits `height 30 ft` or `30 ft height` into a known word and the rest, the longest word first. */
function split(clean: string): { readonly name: ConditionName; readonly rest: string } | undefined {
  let best: { readonly name: ConditionName; readonly rest: string; readonly length: number } | undefined;
  for (const [word, name] of byWord) {
    const rest = clean.startsWith(`${word} `)
      ? clean.slice(word.length + 1)
      : clean.endsWith(` ${word}`)
        ? clean.slice(0, -word.length - 1)
        : undefined;
    if (rest !== undefined && /\d/.test(rest) && word.length > (best?.length ?? 0))
      best = { name, rest, length: word.length };
  }
  return best;
}

/**
 * Reads one condition: a name of the list or a synonym, with a value where it takes one (`height 30 ft`, `noise 95
 * dBA`, `oxygen 24%`). Case, hyphens and a colon or equals sign do not matter; a plain number is in the unit of
 * `system`. `#N/A` with the nearest names for a word there is not, `#VALUE!` where a value is missing, of the wrong
 * kind or out of place.
 */
export function parseCondition(text: string, system: UnitSystem = 'US'): Condition {
  const clean = tidy(text);
  const whole = byWord.get(clean);
  if (whole) {
    const needs = entries.get(whole)?.needs;
    if (needs) throw conditionNeedsValue(whole, needs);
    return { name: whole };
  }
  const parts = split(clean);
  if (!parts) throw unknownName('condition', text.trim(), nearestNames(clean, WORDS));
  const { quantity, needs } = entries.get(parts.name) ?? {};
  if (!quantity) throw conditionTakesNoValue(text.trim(), parts.name);
  const read = parseQuantity(parts.rest, quantity, system);
  // A cell formatted as a percentage holds 0.24 where it shows 24%.
  const value =
    read !== undefined && quantity === 'percent' && read < LEAST_PERCENT && !parts.rest.includes('%')
      ? read / LEAST_PERCENT
      : read;
  if (value === undefined || value < 0) throw conditionNeedsValue(parts.name, needs ?? EXAMPLES[quantity] ?? '');
  return { name: parts.name, value };
}

/** A plain number under one percent is a share already. */
const LEAST_PERCENT = 0.01;

/** An example for the quantities of conditions whose value may be left out. */
const EXAMPLES: Readonly<Partial<Record<QuantityName, string>>> = {
  distance: '30 ft',
  oxygen: '7000 scf',
  current: '120 A',
};

/** A condition in words that `parseCondition` reads back: `underwater 30 ft`. */
export function conditionText({ name, value }: Condition, system: UnitSystem): string {
  const { quantity } = entries.get(name) ?? {};
  return value === undefined || quantity === undefined ? name : `${name} ${showQuantity(value, quantity, system)}`;
}

/** Reads the conditions of a job, one a cell; blank cells are passed over and repeats kept once. */
export function parseConditions(texts: readonly string[], system: UnitSystem = 'US'): readonly Condition[] {
  const seen = new Map<string, Condition>();
  for (const text of texts) {
    if (text.trim() === '') continue;
    const condition = parseCondition(text, system);
    seen.set(`${condition.name} ${String(condition.value)}`, condition);
  }
  return [...seen.values()];
}
