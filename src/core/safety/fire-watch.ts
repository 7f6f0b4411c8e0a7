import { unknownChoice } from '../messages.ts';

/** What a rule asks for after the rod is out. Times in s. */
export interface FireWatchRule {
  /** Name by which a user asks for it. */
  readonly name: string;
  /** Watch with a trained person and extinguishing equipment, at least. */
  readonly watch: number;
  /** Monitoring after the watch, at most, where whoever grants the permit asks for it. */
  readonly monitoring: number;
  readonly source: string;
  readonly clause: string;
}

const MINUTE = 60;

/** The strictest of these that applies at the place is the one to follow; later editions may ask for more. */
export const FIRE_WATCH_RULES: readonly FireWatchRule[] = [
  { name: 'OSHA', watch: 30 * MINUTE, monitoring: 0, source: 'osha 1910.252', clause: '1910.252(a)(2)(iii)(B)' },
  { name: 'NFPA 51B 2009', watch: 30 * MINUTE, monitoring: 0, source: 'nfpa 51b 2009', clause: '5.5 (from memory)' },
  { name: 'NFPA 51B 2014', watch: 30 * MINUTE, monitoring: 0, source: 'nfpa 51b 2014', clause: '5.5 (from memory)' },
  {
    name: 'NFPA 51B 2019',
    watch: 60 * MINUTE,
    monitoring: 180 * MINUTE,
    source: 'nfpa 51b 2019',
    clause: '5.6, monitoring 5.6.3',
  },
];

const tidy = (text: string): string =>
  text
    .trim()
    .toUpperCase()
    .replace(/[\s:,-]+/g, ' ');

/**
 * Fire watch a rule asks for after the work. `NFPA`, `NFPA 51B` and a bare year are read as the edition meant, the
 * newest known where none is named.
 *
 * Source: 29 CFR 1910.252(a)(2)(iii)(B); NFPA 51B, editions 2009, 2014 and 2019.
 */
export function fireWatch(rule: string): FireWatchRule {
  const asked = tidy(rule);
  const newest = FIRE_WATCH_RULES[FIRE_WATCH_RULES.length - 1];
  const found =
    asked === 'NFPA' || asked === 'NFPA 51B'
      ? newest
      : FIRE_WATCH_RULES.find((r) => r.name === asked || r.name === `NFPA 51B ${asked.replace(/^NFPA (51B )?/, '')}`);
  if (!found)
    throw unknownChoice(
      'rule',
      rule,
      FIRE_WATCH_RULES.map((r) => r.name),
    );
  return found;
}
