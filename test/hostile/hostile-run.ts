/** A run over all kinds of hostile files and formulas, the same for the same seed. */
import { Chance } from './chance.ts';
import { csvFile, tryBytes, tryCsv } from './csv-files.ts';
import { tryFormulas } from './try-formulas.ts';
import { tryWorkbook, type Outcome } from './try-workbook.ts';
import { goodWorkbook, SPOILINGS } from './workbooks.ts';

export interface Tried {
  readonly kind: string;
  readonly cases: number;
  /** How often each outcome came. */
  readonly came: ReadonlyMap<string, number>;
  /** What may not be, with the seed of its case. */
  readonly faults: readonly string[];
  /** Longest case, s. */
  readonly longest: number;
}

/** `times` cases of each kind of workbook, and so many of the others that they take about as long. */
export async function hostileRun(
  seed: number,
  times: number,
  tell: (tried: Tried) => void = () => undefined,
): Promise<readonly Tried[]> {
  const good = await goodWorkbook();
  const kinds: readonly (readonly [string, number, (chance: Chance) => Promise<readonly Outcome[]>])[] = [
    ...SPOILINGS.map(
      ({ kind, spoil }) =>
        [`workbook: ${kind}`, times, async (chance: Chance) => [await tryWorkbook(spoil(good, chance))]] as const,
    ),
    ['formulas, a dozen a sheet, twice', times, (chance) => tryFormulas(chance)],
    ['CSV: lists in many forms', 20 * times, (chance) => Promise.resolve([tryCsv(csvFile(chance))])],
    ['CSV: bytes of no list', 20 * times, (chance) => Promise.resolve([tryBytes(chance)])],
  ];
  const all: Tried[] = [];
  for (const [k, [kind, cases, attempt]] of kinds.entries()) {
    const came = new Map<string, number>();
    const faults: string[] = [];
    let longest = 0;
    let count = 0;
    for (let i = 0; i < cases; i++) {
      const own = seed * 1_000_003 + k * 100_003 + i;
      const started = performance.now();
      for (const outcome of await attempt(new Chance(own))) {
        count++;
        came.set(outcome.came, (came.get(outcome.came) ?? 0) + 1);
        if (outcome.fault !== undefined)
          faults.push(
            `${kind}, case ${own}: ${'formula' in outcome ? `=${String(outcome.formula)} ` : ''}${outcome.fault}`,
          );
      }
      longest = Math.max(longest, (performance.now() - started) / 1000);
    }
    const tried = { kind, cases: count, came, faults, longest };
    all.push(tried);
    tell(tried);
  }
  return all;
}

/** A line of the table. */
export function tableLine({ kind, cases, came, faults, longest }: Tried): string {
  const most = [...came].sort(([, a], [, b]) => b - a).map(([what, n]) => `${n.toLocaleString('en-US')} ${what}`);
  return `| ${kind} | ${cases.toLocaleString('en-US')} | ${most.join(', ')} | ${faults.length} | ${longest.toFixed(1)} |`;
}
