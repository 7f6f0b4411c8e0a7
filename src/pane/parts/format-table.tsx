import { useContext, useEffect, useState } from 'preact/hooks';
import { tableLook } from '../../sheet/table-look.ts';
import type { ReadCall } from '../read-call.ts';
import type { ReadCell } from '../explain-cell.ts';
import { SheetContext } from './sheet-context.ts';

/** Offers to set the formats of the table that the selected cell's formula spills: a function cannot give them itself. */
export function FormatTable({ call, read: { cell } }: { readonly call: ReadCall; readonly read: ReadCell }) {
  const port = useContext(SheetContext);
  const [said, say] = useState('');
  const { sheet, address, spill } = cell;
  const from = spill?.from ?? address;
  useEffect(() => say(''), [sheet, from, call.text]);
  const { declaration, whole, results: rows } = call;
  const look = whole && rows && rows.length > 1 ? tableLook(declaration, rows) : undefined;
  if (!port?.format || !look || !rows) return null;
  const set = async (): Promise<void> => {
    try {
      await port.format?.({ sheet, address: from, rows, look });
      say(`Widths, decimals and headings of the table from ${from} are set.`);
    } catch (e) {
      say(`The formats were not set: ${e instanceof Error ? e.message : String(e)}`);
    }
  };
  return (
    <p>
      <button type="button" onClick={() => void set()}>
        Set widths, decimals and headings
      </button>{' '}
      <span class="rs-fine" role="status">
        {said}
      </span>
    </p>
  );
}
