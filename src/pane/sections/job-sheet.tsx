import { useContext, useRef, useState } from 'preact/hooks';
import type { Cell } from '../../catalogue/cell.ts';
import type { Explained } from '../explained.ts';
import { printAlone } from '../parts/print.ts';
import { SheetContext } from '../parts/sheet-context.ts';
import type { CellSection } from '../section.ts';
import { showCell } from '../show-cell.ts';

interface Line {
  readonly what: string;
  readonly figure: string;
  readonly note: string;
}

/** Characters that fill one page at a size of type [pt]; type goes as their square root, between the largest and what can still be read. */
const FULL = { characters: 9200, size: 6.4 };
const LARGEST = 7.6;
const LEAST = 6;

/** Size of type [pt] at which the sheet is to stand on one page. */
function typeSize(rows: readonly (readonly Cell[])[]): number {
  const characters = rows.flat().reduce<number>((sum, cell) => sum + showCell(cell).length, 0);
  return Math.min(LARGEST, Math.max(LEAST, FULL.size * Math.sqrt(FULL.characters / characters)));
}

/** The sections of a sheet; each name stands in the first line of its section. */
function sectionsOf(
  rows: readonly (readonly Cell[])[],
): readonly { readonly name: string; readonly lines: readonly Line[] }[] {
  const sections: { readonly name: string; readonly lines: Line[] }[] = [];
  for (const row of rows) {
    const [name = '', what = '', figure = '', note = ''] = row.map(showCell);
    if (name !== '' || sections.length === 0) sections.push({ name, lines: [] });
    sections.at(-1)?.lines.push({ what, figure, note });
  }
  return sections;
}

function Part({ name, lines }: { readonly name: string; readonly lines: readonly Line[] }) {
  return (
    <div class={`rs-sheet-part rs-sheet-${name.toLowerCase().replaceAll(' ', '-')}`}>
      <h4>{name}</h4>
      <dl>
        {lines.map(({ what, figure, note }) => (
          <div>
            <dt>{what}</dt>
            {figure !== '' && <dd class="rs-sheet-figure">{figure}</dd>}
            {note !== '' && <dd>{note}</dd>}
          </div>
        ))}
      </dl>
    </div>
  );
}

function JobSheet({ explained: { declaration, outcome } }: { readonly explained: Explained }) {
  const sheet = useRef<HTMLDivElement>(null);
  const port = useContext(SheetContext);
  const [said, say] = useState('');
  const [cannot, setCannot] = useState(false);
  const rows = outcome.kind === 'table' ? outcome.rows : [];
  const [head, ...parts] = sectionsOf(rows);
  const title = head?.lines[0];
  return (
    <>
      <p>
        <button
          type="button"
          class="rs-main"
          onClick={() => {
            if (!sheet.current) return;
            void printAlone(sheet.current).then((printed) => {
              setCannot(!printed);
              say(
                printed
                  ? ''
                  : 'This window cannot print. Put the lines on a sheet and print that from the spreadsheet.',
              );
            });
          }}
        >
          Print on one page
        </button>{' '}
        {cannot && port && (
          <button
            type="button"
            onClick={() => {
              port.addSheet(declaration.name === 'BURN.JOB.BASIS' ? 'Basis' : 'Job sheet', rows).then(
                (name) => say(`The lines stand on the sheet ${name}. Print it from the spreadsheet, one page wide.`),
                (e: unknown) => say(`No sheet was made: ${e instanceof Error ? e.message : String(e)}`),
              );
            }}
          >
            Put the lines on a sheet
          </button>
        )}
      </p>
      <p role="status">{said}</p>
      <div class="rs-sheet" style={`--sheet-size: ${typeSize(rows).toFixed(2)}pt`} ref={sheet}>
        <p class="rs-sheet-title">
          {head?.name}: {title?.what}
        </p>
        <p>
          {title?.note} <span class="rs-fine">{title?.figure}</span>
        </p>
        {parts.map((part) => (
          <Part key={part.name} {...part} />
        ))}
      </div>
    </>
  );
}

const SHEETS = ['BURN.JOB.SHEET', 'BURN.JOB.BASIS'];

/** The sheet of BURN.JOB.SHEET or of BURN.JOB.BASIS, to print. */
export const JOB_SHEET: CellSection = {
  id: 'job-sheet',
  heading: 'To print',
  shows: ({ declaration, outcome }) => SHEETS.includes(declaration.name) && outcome.kind === 'table',
  Component: JobSheet,
};
