import { CATALOGUE } from '../catalogue/catalogue.ts';
import type { Declaration } from '../catalogue/declaration.ts';
import { isCellError } from '../catalogue/cell.ts';
import { isKnown, readSelectedCell } from '../pane/explain-cell.ts';
import { explainItem } from '../pane/explain-item.ts';
import type { Explained } from '../pane/explained.ts';
import { hostFunctions } from '../sheet/host-functions.ts';
import type { Cell, HostFunction } from '../sheet/host-function.ts';
import { calculateWorkbook } from '../engine/headless.ts';
import { exampleSheet, nothingToRead, type Block, type ExampleSheet } from './example-sheet.ts';
import { failingFormulas } from './failing-formulas.ts';

/** A block of an example with the cells it fills. */
export interface FilledBlock extends Block {
  readonly values: readonly (readonly Cell[])[];
}

export interface CalculatedExample {
  readonly formula: string;
  readonly bands: readonly (readonly FilledBlock[])[];
}

/** A formula that is meant to fail, and how the sheet shows it. */
export interface Failure {
  readonly formula: string;
  readonly error: string;
  readonly message: string;
}

/** A function with all that its page shows. */
export interface Entry {
  readonly declaration: Declaration;
  readonly host: HostFunction;
  readonly examples: readonly CalculatedExample[];
  readonly failures: readonly Failure[];
  /** The first example as the pane explains it. */
  readonly explained: Explained;
}

/** Every function with its examples calculated, each in a sheet of its own, by the engine of the trial workbook. */
export async function calculatedEntries(catalogue: readonly Declaration[] = CATALOGUE): Promise<readonly Entry[]> {
  const laidOut = await Promise.all(catalogue.map((d) => Promise.all(d.examples.map(exampleSheet))));
  const failing = catalogue.map(failingFormulas);
  const sheets = [...laidOut.flat().map((e) => e.cells), ...failing.flat().map((formula) => ({ A1: formula }))];
  const workbook = await calculateWorkbook(
    { sheets: sheets.map((cells, i) => ({ name: `Sheet${i + 1}`, cells })) },
    hostFunctions,
  );
  let sheet = 0;
  const examples = laidOut.map((each) => each.map((e) => filled(e, sheet++, workbook)));
  const failures = failing.map((each) =>
    each.map((formula): Failure => {
      const failed = workbook.spilledAt(sheet++, 0, 0).flat().find(isCellError);
      if (!failed) throw new Error(`${formula} is meant to fail and does not`);
      return { formula, ...failed };
    }),
  );
  return Promise.all(
    catalogue.map(async (declaration, i): Promise<Entry> => {
      const host = hostFunctions.find((f) => f.name === declaration.name);
      if (!host) throw new Error(`${declaration.name} is no function of the host`);
      return {
        declaration,
        host,
        examples: examples[i] ?? [],
        failures: failures[i] ?? [],
        explained: await explainedExample(declaration),
      };
    }),
  );
}

type Calculated = Awaited<ReturnType<typeof calculateWorkbook>>;

function filled({ formula, bands }: ExampleSheet, sheet: number, workbook: Calculated): CalculatedExample {
  const values = (b: Block): FilledBlock['values'] => b.typed ?? workbook.spilledAt(sheet, b.row, b.column);
  return { formula, bands: bands.map((band) => band.map((b) => ({ ...b, values: values(b) }))) };
}

async function explainedExample(d: Declaration): Promise<Explained> {
  const [formula = ''] = d.examples;
  const cell = { sheet: 'Sheet1', address: 'A1', formula, value: null };
  const { calls } = await readSelectedCell(cell, { read: nothingToRead });
  const [call] = calls;
  if (!call || !isKnown(call)) throw new Error(`${formula} cannot be explained`);
  return explainItem(call, 0, cell);
}
