import type { Explained, Line, Outcome } from '../explained.ts';
import type { CellSection } from '../section.ts';
import { showCell, showNumber, showWithUnit } from '../show-cell.ts';
import { isCellError } from '../../catalogue/cell.ts';

function Lines({ lines }: { readonly lines: readonly Line[] }) {
  return (
    <dl class="rs-lines">
      {lines.map(({ heading, value, selected }) => (
        <div class={selected ? 'rs-selected' : undefined}>
          <dt>
            {heading}
            {selected && <span class="rs-hidden"> (selected cell)</span>}
          </dt>
          <dd class={typeof value === 'string' ? 'rs-text' : undefined}>
            {isCellError(value) ? `${value.error} ${value.message}` : showCell(value) || '–'}
          </dd>
        </div>
      ))}
    </dl>
  );
}

function What({ outcome }: { readonly outcome: Outcome }) {
  switch (outcome.kind) {
    case 'value': {
      const { value, unit, range } = outcome;
      return (
        <>
          <p class="rs-figure">
            <b>{typeof value === 'number' ? showNumber(value) : value}</b> {unit}
          </p>
          {range && (
            <p class="rs-fine">{`${showNumber(range[0])} to ${showWithUnit(range[1], unit)} in eight cases of ten`}</p>
          )}
        </>
      );
    }
    case 'row':
      return <Lines lines={outcome.lines} />;
    case 'table':
      return <p>{`A table in the sheet: ${outcome.rows.length} rows, ${outcome.rows[0]?.length ?? 0} columns.`}</p>;
    case 'error':
      return (
        <p class="rs-error">
          <b>{outcome.error}</b> {outcome.message}
        </p>
      );
    case 'blank':
      return <p>The row of this item is blank, so nothing is worked out.</p>;
    case 'unread':
      return (
        <p>
          The pane cannot read every argument, so it cannot show the working. The sheet’s own result is not affected.
        </p>
      );
  }
}

function Result({ explained: { outcome, note, question } }: { readonly explained: Explained }) {
  return (
    <>
      <What outcome={outcome} />
      {question !== '' && <p class="rs-note">{`${question}.`}</p>}
      {note !== undefined && <p class="rs-note">{note}</p>}
    </>
  );
}

export const RESULT: CellSection = { id: 'result', heading: 'Result', shows: () => true, Component: Result };
