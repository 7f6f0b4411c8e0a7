import { useEffect, useState } from 'preact/hooks';
import { readSelectedCell, type ReadCell } from './explain-cell.ts';
import type { SheetPort } from './port.ts';

/** The selected cell as last read; of readings that overtake one another only the newest counts. */
export function useReadCell(port: SheetPort): ReadCell | undefined {
  const [read, setRead] = useState<ReadCell>();
  useEffect(() => {
    let newest = 0;
    let last: ReadCell | undefined;
    const stop = port.onSelection((cell) => {
      const turn = ++newest;
      if (!cell) {
        setRead(undefined);
        return;
      }
      void readSelectedCell(cell, port, last).then((next) => {
        last = next;
        if (turn === newest) setRead(next);
      });
    });
    return () => {
      newest = Infinity;
      stop();
    };
  }, [port]);
  return read;
}
