/**
 * What a version of the calculation holds: a digest of every register, and of the kept results. A change of either with the
 * version unchanged is found here, and told what to do about it.
 */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { REGISTRY } from '../../src/core/assumptions/registry.ts';
import { MATERIALS } from '../../src/core/burn/materials.ts';
import { RODS } from '../../src/core/burn/rods.ts';
import { RAM_TONS } from '../../src/core/fit/push-ram.ts';
import { OPERATIONS } from '../../src/core/operations/all.ts';
import { CYLINDER_SIZES } from '../../src/core/oxygen/cylinder-sizes.ts';
import { HOSE_BORES } from '../../src/core/oxygen/hose-bores.ts';
import { CAUTIONS } from '../../src/core/safety/cautions.ts';
import { CONDITIONS } from '../../src/core/safety/conditions.ts';
import { OF_MATERIAL, OF_POSITION } from '../../src/core/safety/item.ts';
import { FIRE_CHECKS } from '../../src/core/safety/fire-checks.ts';
import { FIRE_WATCH_RULES } from '../../src/core/safety/fire-watch.ts';
import { LIMITS } from '../../src/core/safety/limits.ts';
import { DOUBLE_PROTECTION, NOISE_RULES } from '../../src/core/safety/noise-rules.ts';
import { PPE } from '../../src/core/safety/ppe.ts';
import { SOURCES } from '../../src/core/sources/register.ts';
import { QUANTITIES } from '../../src/core/units/quantities.ts';
import { allDifferences, type Golden } from './golden.ts';

/** The registers by the words of a message. */
export const registers = {
  assumptions: REGISTRY,
  rods: RODS,
  materials: MATERIALS,
  'cylinder sizes': CYLINDER_SIZES,
  'hose bores': HOSE_BORES,
  rams: RAM_TONS,
  "operations' sizes": Object.values(OPERATIONS).map(({ id, sizes, order }) => ({ id, sizes, order })),
  units: QUANTITIES,
  sources: SOURCES,
  conditions: CONDITIONS,
  'conditions of materials and positions': [OF_MATERIAL, OF_POSITION],
  cautions: CAUTIONS,
  'things to wear': PPE,
  limits: LIMITS,
  'noise rules': [NOISE_RULES, DOUBLE_PROTECTION],
  'fire watch rules': FIRE_WATCH_RULES,
  'fire checks': FIRE_CHECKS,
} as const;

export type Registers = Readonly<Record<keyof typeof registers, unknown>>;

/** What is only read, never calculated with, triggered by or asked for: it may be said better in the same version. */
const WORDS: ReadonlySet<string> = new Set([
  'summary',
  'meaning',
  'title',
  'action',
  'usedFor',
  'remark',
  'due',
  'look',
]);
/** Digits that are the same on every machine. */
const DIGITS = 10;

/** Whatever the machine's last digits and the order of an entry's parts; functions show in the results. */
export function digest(data: unknown): string {
  const plain = JSON.stringify(data, (key, value: unknown) => {
    if (WORDS.has(key)) return undefined;
    if (typeof value === 'number') return Number(value.toPrecision(DIGITS));
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
    return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)));
  });
  return createHash('sha256').update(plain).digest('hex').slice(0, 16);
}

/** Kept beside the version. */
export interface KeptVersion {
  readonly version: string;
  readonly registers: Readonly<Record<string, string>>;
  /** Of the file of kept results, so that nobody renews it by the way. */
  readonly results: string;
}

export const VERSION_FILE = new URL('version.json', import.meta.url);
export const readKeptVersion = (): KeptVersion => JSON.parse(readFileSync(VERSION_FILE, 'utf8')) as KeptVersion;

export const keptVersion = (version: string, all: Registers, kept: Golden): KeptVersion => ({
  version,
  registers: Object.fromEntries(Object.entries(all).map(([name, data]) => [name, digest(data)])),
  results: digest(kept.results),
});

/** What changed since the digests were kept, in words; nothing where all is as it was. */
export function changed(kept: KeptVersion, all: Registers, before: Golden, today: Golden): readonly string[] {
  const now = keptVersion(kept.version, all, before);
  const names = [...new Set([...Object.keys(kept.registers), ...Object.keys(now.registers)])];
  const results = allDifferences(before.results, today.results);
  return [
    ...names.filter((name) => kept.registers[name] !== now.registers[name]).map((name) => `the register of ${name}`),
    ...(results.length > 0 ? [`${results.length} results, the first ${results[0] ?? ''}`] : []),
    ...(kept.results === now.results ? [] : ['the file of kept results']),
  ];
}

const RENEW = 'then run `npm run golden`, which renews the kept results and the digests in test/golden/version.json';

/** What is wrong with the version, and what to do; undefined where nothing is. */
export function versionFault(version: string, kept: KeptVersion, changes: readonly string[]): string | undefined {
  if (version !== kept.version)
    return `CALCULATION_VERSION is ${version} and the digests are those of ${kept.version}: run \`npm run golden\`.`;
  if (changes.length === 0) return undefined;
  return [
    `The calculation changed and its version is still ${version}. Changed: ${changes.join('; ')}.`,
    'If it was not meant, take it back. If it was:',
    '1. move CALCULATION_VERSION in src/core/version.ts to the day of the change;',
    '2. add an entry to HISTORY in src/core/assumptions/history.ts: old defaults under `replaced`, everything else in words',
    '   under `calculation`. Before the first release move FIRST_VERSION there along instead;',
    `3. ${RENEW}.`,
  ].join('\n');
}

/** Whether the digests may be renewed: nothing changed, or the version moved, or it is of this day already. */
export const mayRenew = (version: string, kept: KeptVersion, changes: readonly string[], day: string): boolean =>
  changes.length === 0 || version > kept.version || version === day;
