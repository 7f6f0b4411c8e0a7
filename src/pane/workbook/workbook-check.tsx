import { useEffect, useState } from 'preact/hooks';
import { placeName, placesOf } from '../../check/places.ts';
import type { Place } from '../../check/workbook.ts';
import { addressOf } from '../../files/xlsx/address.ts';
import type { Looked, SheetPort } from '../port.ts';

/** Findings, formulas and cautions named at most. */
const MOST_SHOWN = 60;

/** What is wrong round the cells of ours in the whole workbook, each finding with the way to its cell; `asked` counts the requests. */
export function WorkbookCheck({ port, asked }: { readonly port: SheetPort; readonly asked: number }) {
  const [found, setFound] = useState<Looked>();
  const [said, say] = useState('');
  const look = async (): Promise<void> => {
    setFound(undefined);
    const { lookThrough } = (await port.looker?.()) ?? {};
    if (lookThrough) setFound(await lookThrough(port, (done, of) => say(`${done} of ${of} formulas`)));
    say('');
  };
  const failed = (e: unknown): void => say(`That did not work: ${e instanceof Error ? e.message : String(e)}`);
  useEffect(() => {
    if (asked > 0) look().catch(failed);
  }, [asked]);
  if (asked === 0) return null;
  return (
    <div class="rs-note rs-check">
      <div role="status">{found ? <Count {...found} /> : said}</div>
      {found && <Found {...found} port={port} failed={failed} />}
      {found && said !== '' && <p role="alert">{said}</p>}
    </div>
  );
}

function Count({ check: { formulas, findings } }: Looked) {
  const cells = formulas.reduce((n, f) => n + f.cells.length, 0);
  return (
    <p>
      {cells} {cells === 1 ? 'cell' : 'cells'} with our functions looked at:{' '}
      {findings.length === 0 ? 'nothing found' : `${findings.length} found`}. What is not found may be wrong all the
      same.
    </p>
  );
}

function Found({
  workbook,
  check: { formulas, findings, cautions },
  port,
  failed,
}: Looked & { readonly port: SheetPort; readonly failed: (e: unknown) => void }) {
  const lead = (cells: readonly Place[]) => {
    const [first] = cells;
    if (!first) return null;
    const name = placeName(workbook, first);
    const goTo = port.goTo?.bind(port);
    if (!goTo) return <b>{name}</b>;
    const go = (): void => {
      goTo(workbook.sheets[first.sheet]?.name ?? '', addressOf(first.row, first.column)).catch(failed);
    };
    return (
      <button type="button" onClick={go}>
        {name}
      </button>
    );
  };
  const more = (count: number) => count > MOST_SHOWN && <li>{count - MOST_SHOWN} more</li>;
  return (
    <>
      <ul>
        {findings.slice(0, MOST_SHOWN).map((f) => (
          <li key={`${f.kind} ${placesOf(workbook, f.cells)} ${f.text}`}>
            {lead(f.cells)} {f.kind}: {f.text}
            {f.cells.length > 1 && ` (in all ${placesOf(workbook, f.cells)})`}
          </li>
        ))}
        {more(findings.length)}
      </ul>
      <details>
        <summary>All formulas with our functions</summary>
        <ul>
          {formulas.slice(0, MOST_SHOWN).map((f) => (
            <li key={placesOf(workbook, f.cells)}>
              {lead(f.cells)} {f.cells.length > 1 && placesOf(workbook, f.cells)} <code>{f.formula}</code>
              {f.errors > 0 && ` ${f.errors} with an error`}
            </li>
          ))}
          {more(formulas.length)}
        </ul>
      </details>
      <details>
        <summary>Cautions of all this work</summary>
        <ul>
          {cautions.map(({ caution, cells }) => (
            <li key={caution.key}>
              <b>{caution.severity}</b> {caution.title} ({placesOf(workbook, cells)})
            </li>
          ))}
        </ul>
      </details>
    </>
  );
}
