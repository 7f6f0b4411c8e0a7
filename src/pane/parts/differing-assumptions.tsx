import { useEffect, useState } from 'preact/hooks';
import type { AssumeUse, DifferingUses } from '../../check/differing-assumptions.ts';
import { differingInSheets } from '../differing-assumptions.ts';
import type { SheetPort } from '../port.ts';
import type { FormulaCell } from '../unknown-name.ts';

/** Cells that are named; the others are counted. */
const NAMED = 3;
/** Assumptions that are named. */
const LISTED = 8;

function cellsText(cells: readonly FormulaCell[]): string {
  const named = cells.slice(0, NAMED).map(({ sheet, address }) => `${sheet} ${address}`);
  const more = cells.length - named.length;
  return `${named.join(', ')}${more > 0 ? ` and ${more} more` : ''}`;
}

const rangeText = ({ assume }: AssumeUse<FormulaCell>): string => (assume === '' ? 'the defaults' : assume);

function Differing({ uses, differ }: DifferingUses<FormulaCell>) {
  return (
    <>
      <p>
        <strong>Cells that read the same list assume differently</strong>, so their figures do not go together:
      </p>
      <ul>
        {uses.map((use) => (
          <li key={use.assume}>
            {cellsText(use.cells)}: {rangeText(use)}
          </li>
        ))}
      </ul>
      {differ.length > 0 && (
        <p>
          They differ in{' '}
          {differ
            .slice(0, LISTED)
            .map(({ name, values }) => `${name}: ${values.join(' against ')}`)
            .join('; ')}
          {differ.length > LISTED && `; and ${differ.length - LISTED} more`}.
        </p>
      )}
      <p class="rs-fine">Give all of them the same range as their last argument, assume.</p>
    </>
  );
}

/** Where cells of the workbook that read the same list assume differently: which, and in what. */
export function DifferingAssumptions({
  port,
  formulas,
}: {
  readonly port: SheetPort;
  readonly formulas: readonly FormulaCell[] | undefined;
}) {
  const [found, setFound] = useState<readonly DifferingUses<FormulaCell>[]>([]);
  useEffect(() => {
    let stopped = false;
    differingInSheets(formulas ?? [], port).then(
      (uses) => {
        if (!stopped) setFound(uses);
      },
      () => undefined,
    );
    return () => {
      stopped = true;
    };
  }, [port, formulas]);
  if (found.length === 0) return null;
  return (
    <div class="rs-note rs-differing" role="status">
      {found.map((each) => (
        <Differing key={each.uses.map((u) => u.assume).join('|')} {...each} />
      ))}
    </div>
  );
}
