import { useEffect, useRef, useState } from 'preact/hooks';
import type { ReadCell } from './explain-cell.ts';
import type { SheetPort } from './port.ts';
import type { FormulaCell } from './unknown-name.ts';

/** A workbook whose formulas take longer to read than this [ms] is read once only. */
const SLOW = 400;
/** Rest after an edit before the formulas are read again [ms]. */
const REST = 1500;

/** The formulas of the workbook as the pane opened, and again after one of ours was edited; undefined until they are read. */
export function useFormulas(port: SheetPort, read: ReadCell | undefined): readonly FormulaCell[] | undefined {
  const [found, setFound] = useState<readonly FormulaCell[]>();
  const known = useRef(new Map<string, string>());
  const slow = useRef(false);
  const at = read && `${read.cell.sheet}!${read.cell.spill?.from ?? read.cell.address}`;
  const formula = read && read.calls.length > 0 ? read.formula : '';
  const edited = found !== undefined && at !== undefined && formula !== '' && known.current.get(at) !== formula;
  useEffect(() => {
    if (found !== undefined && (!edited || slow.current)) return undefined;
    let stopped = false;
    const look = async (): Promise<void> => {
      const began = performance.now();
      const all = (await port.formulas?.all()) ?? [];
      slow.current = performance.now() - began > SLOW;
      known.current = new Map(all.map((cell) => [`${cell.sheet}!${cell.address}`, cell.formula]));
      // Hosts may write the formula of a selected cell otherwise than among all.
      if (at !== undefined) known.current.set(at, formula);
      if (!stopped) setFound(all);
    };
    const timer = setTimeout(() => void look().catch(() => undefined), found === undefined ? 0 : REST);
    return () => {
      stopped = true;
      clearTimeout(timer);
    };
  }, [port, found, edited, formula]);
  return found;
}
