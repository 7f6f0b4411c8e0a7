import { isCellError } from '../../src/catalogue/cell.ts';
import { asInTheHost } from '../../src/engine/as-in-the-host.ts';
import { calculateWorkbook } from '../../src/engine/headless.ts';
import { formulaProblem } from '../../src/files/xlsx/formula-tokens.ts';
import type { Cell } from '../../src/sheet/host-function.ts';
import { hostFunctions } from '../../src/sheet/host-functions.ts';
import type { Chance } from './chance.ts';
import { formula } from './formulas.ts';
import type { Outcome } from './try-workbook.ts';

const FUNCTIONS = hostFunctions.map(asInTheHost);
const ROWS = [
  [4, 10, 'boom'],
  [3.5, -2, '3/8'],
  [0, 1e6, null],
  [true, 46000, 'arm'],
  [null, 5, ''],
  [1e-9, 7, 'é'],
];
/** Formulas of one sheet, far enough apart to spill. */
const TOGETHER = 12;

/** Calculates some formulas beside one another, twice. */
export async function tryFormulas(chance: Chance): Promise<readonly (Outcome & { readonly formula: string })[]> {
  const texts = Array.from({ length: TOGETHER }, () => formula(chance)).filter((f) => formulaProblem(f) === undefined);
  const places = texts.map((_, i) => `${i % 2 === 0 ? 'M' : 'CA'}${40 + 60 * i}`);
  const cells = Object.fromEntries(texts.map((f, i) => [places[i]!, `=${f}`]));
  const book = {
    sheets: [{ name: 'S', rows: ROWS, cells, size: [1000, 160] as const }],
    definedNames: { sizes: 'S!$A$1:$A$3' },
  };
  try {
    const [once, twice] = [await calculateWorkbook(book, FUNCTIONS), await calculateWorkbook(book, FUNCTIONS)];
    return texts.map((text, i) => {
      const [one, other] = [once.spilled(places[i]!), twice.spilled(places[i]!)];
      const wrong = one.flat().find((cell) => typeof cell === 'number' && !Number.isFinite(cell));
      const first = one[0]?.[0] ?? null;
      const came = isCellError(first) ? first.error : kindOf(first);
      if (wrong !== undefined) return { formula: text, came, fault: `gives ${String(wrong)}` };
      if (JSON.stringify(one) !== JSON.stringify(other))
        return {
          formula: text,
          came,
          fault: `${JSON.stringify(one).slice(0, 200)}, then ${JSON.stringify(other).slice(0, 200)}`,
        };
      return { formula: text, came };
    });
  } catch (thrown) {
    const fault = thrown instanceof Error ? (thrown.stack ?? thrown.message) : String(thrown);
    return [{ formula: texts.join('\n'), came: 'thrown', fault }];
  }
}

const kindOf = (cell: Cell): string => (cell === null ? 'blank' : typeof cell);
