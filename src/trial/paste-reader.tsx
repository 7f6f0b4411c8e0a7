import { Fragment } from 'preact';
import { useMemo, useState } from 'preact/hooks';
import { counted } from '../core/units/counted.ts';
import { Dialog } from './dialog.tsx';
import { jobList, LIST_COLUMNS, type ListColumn } from '../files/template/job-list.ts';
import { JOINED, missingSizes, readPasted, readRows, type Unit } from './read-list.ts';
import type { Session } from './session.ts';

/** Rows shown of a long list; those with something to say all are. */
const SHOWN = 8;

/** Reads a customer's list: which column is what, the unit of bare numbers, and the rows to mend. */
export function PasteReader({ session, onClose }: { readonly session: Session; readonly onClose: () => void }) {
  const [text, setText] = useState('');
  const [chosen, choose] = useState<readonly (ListColumn | undefined)[]>();
  const [unit, setUnit] = useState<Unit>();
  const table = useMemo(() => (text.trim() === '' ? undefined : readPasted(text)), [text]);
  const columns = chosen ?? table?.guessed ?? [];
  const missing = table ? missingSizes(columns) : [];
  const rows = useMemo(
    () => (table ? readRows(table, chosen ?? table.guessed, unit ?? table.unit) : []),
    [table, chosen, unit],
  );
  const bad = rows.filter((row) => row.problem !== '');
  const good = rows.filter((row) => row.problem === '');
  const asked = good.filter((row) => row.remark !== '').length;
  return (
    <Dialog label="Paste a list" onClose={onClose}>
      <h2>Paste a list</h2>
      <p>Paste from mail or a spreadsheet, one line for each pin or kind of pin, with its quantity.</p>
      <textarea
        aria-label="The list"
        rows={6}
        value={text}
        onInput={(event) => {
          setText(event.currentTarget.value);
          choose(undefined);
          setUnit(undefined);
        }}
      />
      {table ? (
        <>
          <p>
            <label>
              Numbers without a unit are{' '}
              <select value={unit ?? table.unit} onChange={(event) => setUnit(event.currentTarget.value as Unit)}>
                <option value="in">inches</option>
                <option value="mm">millimetres</option>
              </select>
            </label>
          </p>
          <div class="job-pasted">
            <table>
              <thead>
                <tr>
                  <th>line</th>
                  {table.headings.map((heading, c) => (
                    <th key={c}>
                      <label>
                        {heading}
                        <select
                          value={columns[c] ?? ''}
                          onChange={(event) => {
                            const value = event.currentTarget.value as ListColumn | '';
                            choose(
                              table.headings.map((_, i) =>
                                i === c
                                  ? value || undefined
                                  : columns[i] === value && !JOINED.has(columns[i])
                                    ? undefined
                                    : columns[i],
                              ),
                            );
                          }}
                        >
                          <option value="">leave out</option>
                          {LIST_COLUMNS.map((name) => (
                            <option key={name} value={name}>
                              {name}
                            </option>
                          ))}
                        </select>
                      </label>
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {table.rows.map((fields, r) => {
                  // Without a column of sizes every row says the same.
                  const { problem = '', remark = '' } = missing.length > 0 ? {} : (rows[r] ?? {});
                  const said = problem || remark;
                  if (r >= SHOWN && said === '') return null;
                  return (
                    <Fragment key={r}>
                      <tr class={problem === '' ? '' : 'job-bad'}>
                        <td>{r + 1}</td>
                        {table.headings.map((_, c) => (
                          <td key={c}>{fields[c] ?? ''}</td>
                        ))}
                      </tr>
                      {said === '' ? null : (
                        <tr class={problem === '' ? 'job-asked' : 'job-bad'}>
                          <td />
                          <td colSpan={table.headings.length}>{said}</td>
                        </tr>
                      )}
                    </Fragment>
                  );
                })}
              </tbody>
            </table>
          </div>
          <p role="status">
            {missing.length > 0
              ? `No column is taken for ${missing.join(' and ')}: choose it above its column, or fill it in in the job list.`
              : `${counted(good.length, 'line')} read${asked > 0 ? `, ${asked} of them with a remark` : ''}${
                  bad.length > 0
                    ? `; ${bad.length} to mend: mend them above, or they stand in the list with what is wrong in their note.`
                    : '.'
                }`}
          </p>
          <p>
            <button
              type="button"
              disabled={rows.length === 0}
              onClick={() => {
                onClose();
                const list = rows.map(({ row, problem }) =>
                  problem === '' ? row : { ...row, note: [row.note, problem].filter(Boolean).join('; ') },
                );
                void session.showNew(jobList('Job list', list), 'New job').then(() => session.touch());
              }}
            >
              Put it in a job list
            </button>
          </p>
        </>
      ) : null}
    </Dialog>
  );
}
