import { counted } from '../../core/units/counted.ts';
import { useContext, useEffect, useState } from 'preact/hooks';
import type { ReadCell } from '../explain-cell.ts';
import { asTyped } from '../../formula/formula-calls.ts';
import { SheetContext } from './sheet-context.ts';
import { isUnknownToHost, type Entered, type FormulaCell } from '../unknown-name.ts';

/** For a cell whose function the host does not know: why, and the cell, or all such cells of the workbook, entered again. */
export function EnterAgain({ read }: { readonly read: ReadCell }) {
  const formulas = useContext(SheetContext)?.formulas;
  const { cell, formula } = read;
  const own: FormulaCell = { sheet: cell.sheet, address: cell.spill?.from ?? cell.address, formula, value: cell.value };
  const [found, setFound] = useState<readonly FormulaCell[]>();
  const [entered, setEntered] = useState<Entered>();
  const [problem, setProblem] = useState('');
  const [busy, setBusy] = useState(false);
  useEffect(() => {
    setFound(undefined);
    setEntered(undefined);
    setProblem('');
  }, [cell.sheet, cell.address]);
  // What was done stays to be read, though the cell has its figure then.
  if (!formulas?.enter || (!entered && !isUnknownToHost(own))) return null;

  const doing = (work: () => Promise<void>) => (): void => {
    setBusy(true);
    setProblem('');
    work()
      .catch((e: unknown) => setProblem(`That did not work: ${e instanceof Error ? e.message : String(e)}`))
      .finally(() => setBusy(false));
  };
  const enter = (cells: readonly FormulaCell[]) =>
    doing(async () => setEntered(await formulas.enter?.(cells.map((c) => ({ ...c, formula: asTyped(c.formula) })))));
  return (
    <div class="rs-note rs-enter-again">
      {!entered && (
        <>
          <p>
            The spreadsheet does not know the function in this cell, and keeps it as a name of nobody (#NAME?): the
            formula was entered, or the workbook opened, before Rodsheet was there. It stays so until it is entered
            again.
          </p>
          <p>
            <button type="button" disabled={busy} onClick={enter([own])}>
              Enter {own.address} again
            </button>{' '}
            {found ? (
              <button type="button" disabled={busy || found.length === 0} onClick={enter(found)}>
                Enter all {counted(found.length, 'cell')} again
              </button>
            ) : (
              <button
                type="button"
                disabled={busy}
                onClick={doing(async () => setFound((await formulas.all()).filter(isUnknownToHost)))}
              >
                Find all such cells
              </button>
            )}
          </p>
        </>
      )}
      <p role="status">
        {problem}
        {!entered && found && `${counted(found.length, 'cell')} of this workbook.`}
        {entered && `${counted(entered.done, 'cell')} entered again.`}
        {entered && entered.failed.length > 0 && ` ${counted(entered.failed.length, 'cell')} could not be:`}
      </p>
      {entered && entered.failed.length > 0 && (
        <ul>
          {entered.failed.map(({ cell: { sheet, address }, reason }) => (
            <li>
              {sheet} {address}: {reason}
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
