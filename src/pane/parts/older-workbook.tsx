import { useEffect, useRef, useState } from 'preact/hooks';
import { CALCULATION_VERSION } from '../../core/version.ts';
import { readSelectedCell } from '../explain-cell.ts';
import { findCalls } from '../formula-calls.ts';
import type { SheetPort } from '../port.ts';
import type { FormulaCell } from '../unknown-name.ts';

const isVersion = (formula: string): boolean => {
  const [call] = findCalls(formula);
  return call?.whole === true && call.name === 'BURN.VERSION';
};
const isOlder = ({ formula, value }: FormulaCell): boolean =>
  typeof value === 'string' && value !== CALCULATION_VERSION && isVersion(formula);

/** For a workbook that was calculated with another version: that it was, and on request what would move; `asked` counts the requests made elsewhere. */
export function OlderWorkbook({ port, asked }: { readonly port: SheetPort; readonly asked: number }) {
  const { formulas } = port;
  const [older, setOlder] = useState<FormulaCell>();
  const [said, say] = useState('');
  const place = useRef<HTMLDivElement>(null);
  const look = (): void => {
    say('');
    formulas
      ?.moves()
      .then((show) => show(place.current!, port, { findCalls, readSelectedCell, isVersion }, older))
      .catch((e: unknown) => say(`That did not work: ${e instanceof Error ? e.message : String(e)}`));
  };
  useEffect(() => {
    formulas?.all().then(
      (all) => setOlder(all.find(isOlder)),
      () => undefined,
    );
  }, [port]);
  useEffect(() => {
    if (asked > 0) look();
  }, [asked]);
  return (
    <div class="rs-note rs-older" hidden={!older && asked === 0}>
      {older && (
        <p>
          This workbook was calculated with {older.value as string} ({older.sheet} {older.address}); this is{' '}
          {CALCULATION_VERSION}. Its figures stay until they are calculated anew.{' '}
          <button type="button" onClick={look}>
            What would move?
          </button>
        </p>
      )}
      <div ref={place} role="status" />
      <p>{said}</p>
    </div>
  );
}
