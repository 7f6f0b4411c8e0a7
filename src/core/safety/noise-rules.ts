import { unknownChoice } from '../messages.ts';

/** A level of a shift that calls for something, compared with the 8-hour average. */
export interface NoiseLimit {
  readonly name: string;
  /** 8-hour average, dBA. */
  readonly level: number;
  /** `reaches` where the level itself already counts, `exceeds` where it must be passed. */
  readonly counts: 'reaches' | 'exceeds';
  /** What is due from there on. */
  readonly due: string;
  readonly clause: string;
}

export interface NoiseRule {
  readonly name: string;
  /** Level that is allowed for 8 hours, Lc [dBA]. */
  readonly criterion: number;
  /** Rise of the level that halves the hours, q [dB]. */
  readonly exchange: number;
  /** Levels under this add nothing to a dose [dBA]. */
  readonly countedFrom: number;
  /** Highest level the rule's hours are given for [dBA]; above it the rule allows no unprotected time. */
  readonly highest: number;
  /** Lowest first. */
  readonly limits: readonly NoiseLimit[];
  readonly source: string;
  readonly clause: string;
}

/** Equal energy: twice the time at 10 lg 2 = 3.0103 dB less. */
const EQUAL_ENERGY = 10 * Math.log10(2);

const OSHA: NoiseRule = {
  name: 'OSHA',
  criterion: 90,
  exchange: 5,
  countedFrom: 80,
  highest: 115,
  source: 'osha 1910.95',
  clause: 'Table G-16 and Appendix A',
  limits: [
    {
      name: 'action level',
      level: 85,
      counts: 'reaches',
      due: 'hearing conservation programme: monitoring, hearing tests, protectors on offer, training',
      clause: '1910.95(c)',
    },
    {
      name: 'permissible exposure',
      level: 90,
      counts: 'exceeds',
      due: 'engineering or administrative controls where feasible, and protectors worn',
      clause: '1910.95(b)',
    },
  ],
};

const NIOSH: NoiseRule = {
  name: 'NIOSH',
  criterion: 85,
  exchange: 3,
  countedFrom: 80,
  highest: 140,
  source: 'niosh 98-126',
  clause: '1.1',
  limits: [
    {
      name: 'recommended exposure limit',
      level: 85,
      counts: 'reaches',
      due: 'hearing loss prevention programme, and protectors worn',
      clause: '1.1',
    },
    {
      name: 'double hearing protection',
      level: 100,
      counts: 'exceeds',
      due: 'ear plugs and ear muffs worn together',
      clause: 'section on hearing protectors (from memory)',
    },
  ],
};

const EU: NoiseRule = {
  name: 'EU',
  criterion: 87,
  exchange: EQUAL_ENERGY,
  countedFrom: 0,
  highest: 140,
  source: 'eu 2003/10/ec',
  clause: 'Article 3',
  limits: [
    {
      name: 'lower action value',
      level: 80,
      counts: 'exceeds',
      due: 'protectors on offer, information and training',
      clause: 'Articles 3(1)(c) and 6(1)(a)',
    },
    {
      name: 'upper action value',
      level: 85,
      counts: 'reaches',
      due: 'protectors worn, areas marked, a programme to lower the noise',
      clause: 'Articles 3(1)(b) and 6(1)(b)',
    },
    {
      name: 'limit value',
      level: 87,
      counts: 'exceeds',
      due: 'never to be passed at the ear, protectors counted',
      clause: 'Article 3(1)(a) and 3(2)',
    },
  ],
};

export const NOISE_RULES: readonly NoiseRule[] = [OSHA, NIOSH, EU];

/**
 * Levels of a shift above which plugs and muffs are worn together, with who says so. OSHA and the EU give none;
 * the agency's own recommendation is used for everybody.
 */
export const DOUBLE_PROTECTION = {
  recommended: { level: 100, source: 'niosh 98-126', clause: 'section on hearing protectors (from memory)' },
  mines: { level: 105, source: 'msha 62', clause: '62.101 and 62.140' },
} as const;

/** The rule a user means: OSHA, NIOSH or EU, whatever the case. */
export function findNoiseRule(name: string): NoiseRule {
  const clean = name.trim().toUpperCase();
  const found = NOISE_RULES.find((r) => r.name === clean);
  if (!found)
    throw unknownChoice(
      'rule',
      name,
      NOISE_RULES.map((r) => r.name),
    );
  return found;
}
