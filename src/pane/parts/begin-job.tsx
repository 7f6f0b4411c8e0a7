import { useState } from 'preact/hooks';
import type { Added, JobKind, SheetPort } from '../port.ts';

const KINDS: readonly { readonly label: string; readonly what: string; readonly kind: JobKind }[] = [
  { label: 'Add a blank job list', what: 'two sheets: a list to fill in, and the plan that follows it', kind: 'list' },
  {
    label: 'Add the job template',
    what: 'sheets for pins, plan, load, quote, shifts, cautions, basis, working and assumptions, with an invented list to type over',
    kind: 'template',
  },
];

const listed = (names: readonly string[]): string => names.join(', ');

/** Puts the beginnings of a job into the open workbook, beside what is there. */
export function BeginJob({ port: { beginJob } }: { readonly port: SheetPort }) {
  const [busy, setBusy] = useState(false);
  const [done, setDone] = useState<Added | string>();
  if (!beginJob) return null;
  const add = async (kind: JobKind): Promise<void> => {
    setBusy(true);
    setDone(undefined);
    try {
      setDone(await beginJob(kind));
    } catch (e) {
      setDone(e instanceof Error ? e.message : String(e));
    }
    setBusy(false);
  };
  return (
    <section aria-labelledby="rs-heading-begin">
      <h3 id="rs-heading-begin">Begin a job in this workbook</h3>
      <ul class="rs-begin">
        {KINDS.map(({ label, what, kind }) => (
          <li key={label}>
            <button type="button" disabled={busy} onClick={() => void add(kind)}>
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
