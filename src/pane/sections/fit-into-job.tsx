import { counted } from '../../core/units/counted.ts';
import { useContext, useEffect, useState } from 'preact/hooks';
import { CalcError } from '../../core/errors.ts';
import { assumeRanges, type AssumeRange } from '../../check/differing-assumptions.ts';
import type { Explained } from '../explained.ts';
import { fitChanges, type FitChanges } from '../fit-changes.ts';
import { SheetContext } from '../parts/sheet-context.ts';
import type { SheetPort } from '../port.ts';
import { areaOf } from '../../formula/reference-area.ts';
import type { CellSection } from '../section.ts';

interface Offered {
  readonly range: AssumeRange;
  readonly changes: FitChanges;
}

/** The ranges of assumptions of the workbook that a fit can go into, with what it would change in each. */
async function offers(table: Explained['table'], port: SheetPort): Promise<readonly Offered[]> {
  const all = (await port.formulas?.all()) ?? [];
  const found: Offered[] = [];
  for (const range of assumeRanges(all)) {
    const area = areaOf(range.text, '');
    if (!area) continue;
    try {
      found.push({ range, changes: fitChanges(table, await port.read(range.text, area.sheet, 'A1'), area) });
    } catch (e) {
      // A range that cannot be read as assumptions is none to write into.
      if (!(e instanceof CalcError)) throw e;
    }
  }
  return found;
}

function Changes({
  offered: { range, changes: found },
  write,
}: {
  readonly offered: Offered;
  readonly write: () => void;
}) {
  const { changes, noRoom, noRange } = found;
  if (changes.length === 0) return <p>{range.text} holds this fit already.</p>;
  return (
    <>
      <div class="scroll" role="region" aria-label="What the fit changes" tabIndex={0}>
        <table class="rows">
          <thead>
            <tr>
              <th scope="col">assumption</th>
              <th scope="col">now</th>
              <th scope="col">by the fit</th>
            </tr>
          </thead>
          <tbody>
            {changes.map(({ name, before, after }) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td>{before === '' ? 'the default' : before}</td>
                <td>{after}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {noRange && <p>The range has no columns for low and high: only the values go in.</p>}
      {noRoom.length > 0 && <p>No blank row is left in the range for {noRoom.join(', ')}: make it longer first.</p>}
      <p>
        <button type="button" onClick={write}>
          Put these {counted(changes.length, 'assumption')} into {range.text}
        </button>
      </p>
    </>
  );
}

function FitIntoJob({ explained: { table } }: { readonly explained: Explained }) {
  const port = useContext(SheetContext);
  const [found, setFound] = useState<readonly Offered[]>();
  const [chosen, choose] = useState(0);
  const [said, say] = useState('');
  const look = (): void => {
    if (!port) return;
    offers(table, port).then(setFound, (e: unknown) => say(e instanceof Error ? e.message : String(e)));
  };
  useEffect(look, [table, port]);
  const offered = found?.[Math.min(chosen, found.length - 1)];
  const write = (): void => {
    const area = offered && areaOf(offered.range.text, '');
    if (!port?.write || !area) return;
    const { changes } = offered.changes;
    const cells = changes.flatMap((change) => change.cells);
    port.write(area.sheet, cells).then(
      () => {
        say(`${counted(changes.length, 'assumption')} written into ${offered.range.text}.`);
        look();
      },
      (e: unknown) => say(`Nothing was written: ${e instanceof Error ? e.message : String(e)}`),
    );
  };
  return (
    <>
      {found?.length === 0 && (
        <p>
          No formula of this workbook has a range of its own as assume. Assumptions, above, makes one; give it to the
          formulas of the job, and the fit can go into it. Or hand this result to them as assume.
        </p>
      )}
      {found && found.length > 1 && (
        <p class="rs-item">
          <label>
            Into{' '}
            <select value={chosen} onChange={(e) => choose(Number(e.currentTarget.value))}>
              {found.map(({ range }, i) => (
                <option value={i}>
                  {range.text} ({counted(range.formulas, 'formula')})
                </option>
              ))}
            </select>
          </label>
        </p>
      )}
      {offered && <Changes offered={offered} write={write} />}
      <p role="status">{said}</p>
    </>
  );
}

/** A fit, and what it would change in the job's own assumptions. */
export const FIT_INTO_JOB: CellSection = {
  id: 'fit',
  heading: "Into the job's assumptions",
  shows: ({ declaration, outcome }) => /^BURN.LOG.(FIT|RANGE)$/.test(declaration.name) && outcome.kind === 'table',
  Component: FitIntoJob,
};
