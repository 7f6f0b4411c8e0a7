/**
 * Words that people use for what a function gives, besides those of its name and help, for the pane's search. By
 * beginning of the name without BURN.: `PIN` for all of its family; what stands after `*` is meant of every operation.
 */
const OTHER_WORDS: Readonly<Record<string, string>> = {
  '*.RODS': 'how many sticks electrodes lances consumables quantity count bars',
  '*.OXYGEN': 'gas o2 bottle bottles cubic feet consumption use amount',
  '*.BURN': 'minutes arc time burning duration how long',
  '*.TIME': 'labour labor man hours duration how long crew estimate',
  '*.PRESSURE': 'psi bar regulator setting gauge tip',
  '*.PLAN': 'estimate takeoff table list quote all summary schedule of quantities',
  '*.STEPS': 'working proof show calculation audit trail how worked out',
  PIN: 'bushing shaft axle dowel seized stuck frozen pivot clevis kingpin boom bucket',
  HOLE: 'pierce drill bore starter perforate',
  GOUGE: 'groove weld removal wash scarf back gouge',
  CUT: 'sever plate section beam slice flame cut',
  STUD: 'bolt screw fastener nut broken round bar',
  BREACH: 'concrete wall core opening rescue entry reinforced slab',
  'ROD.FLOW': 'cfm scfm consumption flow rate',
  'ROD.PRESSURE': 'psi tip setting needed for a flow',
  'ROD.LIST': 'catalogue sizes types lances table of rods',
  'ROD.PICK': 'which rod choose select best recommend size',
  'ROD.CUTLIST': 'offcuts nesting waste leftover remnants stock lengths',
  ASSUMED: 'defaults settings parameters factors constants',
  VERSION: 'edition release revision',
  SOURCES: 'references bibliography literature standards citations',
  CONDITIONS: 'site circumstances words hazards',
  CYLINDER: 'bottle bottles tank gas oxygen flask',
  'CYLINDER.COUNT': 'how many cylinders bottles number quantity order',
  'CYLINDER.CONTENT': 'how much is in a bottle volume capacity left',
  'CYLINDER.GAUGE': 'cold hot reading pressure temperature',
  'CYLINDER.LIMITS': 'storage allowed maximum manifold code',
  'CYLINDER.SEPARATION': 'storage distance apart fuel gas barrier',
  HOSE: 'line pipe pressure drop loss diameter length',
  SUPPLY: 'manifold regulator line oxygen flow enough restriction freeze',
  COOL: 'cooling wait hot temperature quench water',
  GRIP: 'press fit interference rust seized friction force loosen',
  PUSH: 'ram jack press hydraulic tons porta extract drive out',
  GUARD: 'shield plate fixture jig guide protection',
  'JOB.JOINT': 'joint confidence budget deadline chance risk on time in budget frontier',
  'ASSUME.WORTH': 'value of information measure test before bidding worth knowing',
  SPREAD: 'risk percentile confidence range uncertainty contingency p90',
  'JOB.PLAN': 'takeoff schedule of pins marks quantities whole list total sum',
  'JOB.STOCK': 'load list packing truck van what to bring order how many shopping materials',
  'JOB.COST': 'price quote quotation bid tender money dollars charge rate invoice estimate',
  'JOB.SCHEDULE': 'gantt timeline programme shift order days how long calendar crew plan',
  'JOB.COMPARE': 'versus alternative difference option side by side what if scenario',
  'JOB.BASIS': 'audit review class reasons signed accuracy',
  'JOB.REPORT': 'worked reviewer batch',
  'JOB.SHEET': 'print work order permit briefing toolbox handout one page crew sheet',
  LOG: 'history records past jobs calibrate learn actual feedback',
  NOISE: 'loud hearing decibel db ear protection exposure',
  AIR: 'ventilation fan confined space enrichment fume smoke fresh breathing',
  FIRE: 'sparks slag hot work watch permit combustible distance',
  EYE: 'goggles shade lens filter glasses welding',
  LEAD: 'cable battery wire volts amps drop',
  BATTERY: 'ignite strike light charge amp hours starter',
  CAUTIONS: 'danger hazards safety risk warning',
  PPE: 'clothing gloves wear protective equipment boots respirator',
  'ASSUME.DIFF': 'compare change what changed difference',
  'ASSUME.EFFECT': 'sensitivity tornado which matters most influence',
};
const OPERATIONS: ReadonlySet<string> = new Set(['PIN', 'HOLE', 'GOUGE', 'CUT', 'STUD', 'BREACH']);

/** Other words for a function, '' where none are declared. */
export function otherWords(name: string): string {
  const plain = name.replace(/^BURN\./, '');
  const [family = ''] = plain.split('.', 1);
  const common = OPERATIONS.has(family) ? OTHER_WORDS[`*${plain.slice(family.length)}`] : undefined;
  return [OTHER_WORDS[family], OTHER_WORDS[plain] === OTHER_WORDS[family] ? undefined : OTHER_WORDS[plain], common]
    .filter((words) => words !== undefined)
    .join(' ');
}

/** Words of a question that no function is named by. */
const SMALL = new Set(
  'how many much do does i we need to for the a an of is are what which my in on at and or'.split(' '),
);

/** The words of a question to look for, without its small ones; a plural looks for the singular too. */
export function wordsToFind(question: string): string {
  const words = question
    .toLowerCase()
    .split(/[^\p{L}\p{N}./*-]+/u)
    .filter((word) => word !== '');
  const telling = words.filter((word) => !SMALL.has(word));
  return (telling.length > 0 ? telling : words)
    .map((word) => (word.length > 3 ? word.replace(/s$/, '') : word))
    .join(' ');
}
