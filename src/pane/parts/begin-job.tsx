import { useState } from 'preact/hooks';
import { CATALOGUE } from '../../catalogue/catalogue.ts';
import { jobList } from '../../files/template/job-list.ts';
import { jobWorkbook } from '../../files/template/job-workbook.ts';
import type { NewWorkbook } from '../../files/xlsx/new-workbook.ts';
import { listedAssumptions } from '../assume-formula.ts';
import type { Added, SheetPort } from '../port.ts';

const KINDS: readonly { readonly label: string; readonly what: string; readonly make: () => NewWorkbook }[] = [
  {
    label: 'Add a blank job list',
    what: 'two sheets: a list to fill in, and the plan that follows it',
    make: () => jobList('Job list', []),
  },
  {
    label: 'Add the job template',
    what: 'sheets for pins, plan, load, quote, shifts, cautions, working and assumptions, with an invented list to type over',
    make: () => jobWorkbook(CATALOGUE, listedAssumptions()),
  },
];

const listed = (names: readonly string[]): string => names.join(', ');

/** Puts the beginnings of a job into the open workbook, beside what is there. */
export function BeginJob({ port: { addWorkbook } }: { readonly port: SheetPort }) {
  const [busy, setBusy] = useState(false);
  const [done, setDone] = useState<Added | string>();
  if (!addWorkbook) return null;
  const add = async (make: () => NewWorkbook): Promise<void> => {
    setBusy(true);
    setDone(undefined);
    try {
      setDone(await addWorkbook(make()));
    } catch (e) {
      setDone(e instanceof Error ? e.message : String(e));
    }
    setBusy(false);
  };
  return (
    <section aria-labelledby="rs-heading-begin">
      <h3 id="rs-heading-begin">Begin a job in this workbook</h3>
      <ul class="rs-begin">
        {KINDS.map(({ label, what, make }) => (
          <li key={label}>
            <button type="button" disabled={busy} onClick={() => void add(make)}>
              {label}
            </button>{' '}
            <span class="rs-fine">{what}</span>
          </li>
        ))}
      </ul>
      <div role="status">
        {busy && <p class="rs-note">Adding the sheets.</p>}
        {typeof done === 'string' && <p class="rs-note">{`Nothing was added: ${done}`}</p>}
        {typeof done === 'object' && (
          <p class="rs-note">
            {`Added the sheets ${listed(done.sheets)}`}
            {done.names.length > 0 && ` and the name ${listed(done.names)}`}
            {'. What was there is as it was. To take it back, delete these sheets.'}
          </p>
        )}
      </div>
    </section>
  );
}
