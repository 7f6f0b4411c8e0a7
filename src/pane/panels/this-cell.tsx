import { useContext, useEffect, useMemo, useState } from 'preact/hooks';
import { isKnown, type ReadCell, type UnknownCall } from '../explain-cell.ts';
import { explainItem } from '../explain-item.ts';
import type { Explained } from '../explained.ts';
import { BeginJob } from '../parts/begin-job.tsx';
import { EnterAgain } from '../parts/enter-again.tsx';
import { FormatTable } from '../parts/format-table.tsx';
import { SheetContext } from '../parts/sheet-context.ts';
import { selectedItem, type ReadCall } from '../read-call.ts';
import type { CellSection } from '../section.ts';
import { ARGUMENTS } from '../sections/arguments.tsx';
import { CELL_SECTIONS } from '../sections/index.ts';
import { RESULT } from '../sections/result.tsx';

type ToSource = (key: string) => void;

/** Where nothing could be worked out, the arguments come before everything else. */
const inOrder = (explained: Explained): readonly CellSection[] => {
  const shown = CELL_SECTIONS.filter((s) => s.shows(explained));
  const first = explained.outcome.kind === 'error' ? [RESULT, ARGUMENTS] : [];
  return [...first.filter((s) => shown.includes(s)), ...shown.filter((s) => !first.includes(s))];
};

/** One item of one call, section by section. */
function Item({
  call,
  read,
  item,
  toSource,
}: {
  readonly call: ReadCall;
  readonly read: ReadCell;
  readonly item: number;
  readonly toSource: ToSource;
}) {
  const explained = useMemo(() => explainItem(call, item, read.cell), [call, item, read]);
  const shown = inOrder(explained);
  return (
    <>
      <nav class="rs-parts" aria-label="Parts of the explanation">
        {shown.slice(1).map(({ id, heading }) => (
          <a
            key={id}
            href={`#rs-heading-${id}`}
            onClick={(e) => {
              e.preventDefault();
              document.getElementById(`rs-heading-${id}`)?.focus();
            }}
          >
            {heading}
          </a>
        ))}
      </nav>
      {shown.map(({ id, heading, Component }) => (
        <section key={id} class={`rs-section rs-section-${id}`} aria-labelledby={`rs-heading-${id}`}>
          <h3 id={`rs-heading-${id}`} tabIndex={-1}>
            {heading}
          </h3>
          <Component explained={explained} toSource={toSource} />
        </section>
      ))}
    </>
  );
}

/** A call of a function of ours; where its arguments hold several items, the one of the selected cell or one to choose. */
function Call({
  call,
  read,
  toSource,
}: {
  readonly call: ReadCall;
  readonly read: ReadCell;
  readonly toSource: ToSource;
}) {
  const items = call.shape.rows * call.shape.columns;
  const own = selectedItem(call, read.cell);
  const [item, setItem] = useState(own);
  useEffect(() => setItem(own), [own, call.text, read.cell.sheet, read.cell.address]);
  const at = Math.min(item, items - 1);
  return (
    <>
      <p class="rs-summary">{call.declaration.summary}</p>
      <FormatTable call={call} read={read} />
      {items > 1 && (
        <p class="rs-item">
          <label>
            Item{' '}
            <input
              type="number"
              min={1}
              max={items}
              value={at + 1}
              onInput={(e) => {
                const n = e.currentTarget.valueAsNumber;
                if (n >= 1 && n <= items) setItem(Math.floor(n) - 1);
              }}
            />
          </label>{' '}
          of {items}
        </p>
      )}
      <Item call={call} read={read} item={at} toSource={toSource} />
    </>
  );
}

function Choice({
  calls,
  chosen,
  onChoose,
}: {
  readonly calls: readonly (ReadCall | UnknownCall)[];
  readonly chosen: number;
  readonly onChoose: (at: number) => void;
}) {
  return (
    <p class="rs-item">
      <label>
        Explain{' '}
        <select value={chosen} onChange={(e) => onChoose(Number(e.currentTarget.value))}>
          {calls.map((c, i) => (
            <option value={i}>{c.text}</option>
          ))}
        </select>
      </label>
    </p>
  );
}

/** For a cell with none of our functions: where to begin. */
function FirstSteps() {
  const port = useContext(SheetContext);
  return (
    <>
      <p>
        This cell calls none of the functions. Select one that does: its result, cautions, working and sources stand
        here.
      </p>
      <ul class="rs-first-steps">
        <li>
          In an empty cell type <code>=BURN.</code> and choose from the list; then numbers or cells, one or a whole
          column, as in <code>=BURN.PIN.OXYGEN(3.5,12)</code>.
        </li>
        <li>Functions, above, lists them all and puts an example in the selected cell.</li>
        <li>Assumptions lists every default, and puts them on a sheet to be replaced by your own.</li>
      </ul>
      {port && <BeginJob port={port} />}
    </>
  );
}

function Calls({ read, toSource }: { readonly read: ReadCell; readonly toSource: ToSource }) {
  const [chosen, choose] = useState(0);
  const { calls, cell, formula } = read;
  useEffect(() => choose(0), [cell.sheet, cell.address, formula]);
  const call = calls[Math.min(chosen, calls.length - 1)];
  if (!call) return <FirstSteps />;
  return (
    <>
      {calls.length > 1 && <Choice calls={calls} chosen={chosen} onChoose={choose} />}
      {isKnown(call) ? <Call call={call} read={read} toSource={toSource} /> : <p class="rs-error">{call.problem}</p>}
    </>
  );
}

export function ThisCell({ read, toSource }: { readonly read: ReadCell | undefined; readonly toSource: ToSource }) {
  if (!read) return <p>Select a cell to see how its figure was worked out.</p>;
  const { cell, formula } = read;
  return (
    <>
      <h2 class="rs-address">
        {cell.sheet} <b>{cell.address}</b>
        {cell.spill && <span class="rs-fine"> from {cell.spill.from}</span>}
      </h2>
      {formula !== '' && (
        <p class="rs-formula">
          <code>{formula}</code>
        </p>
      )}
      <EnterAgain read={read} />
      <Calls read={read} toSource={toSource} />
    </>
  );
}
