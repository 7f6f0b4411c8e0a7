import { useEffect, useState } from 'preact/hooks';
import { CALCULATION_VERSION } from '../../core/version.ts';
import { versionIn } from '../../core/version-in.ts';
import { Moves } from '../moves/moves.tsx';
import { isVersion, whatMoves, type WhatMoves } from '../moves/what-moves.ts';
import type { SheetPort } from '../port.ts';
import type { FormulaCell } from '../unknown-name.ts';

const isOlder = (cell: FormulaCell): boolean =>
  typeof cell.value === 'string' && versionIn(cell.value) !== CALCULATION_VERSION && isVersion(cell);

/** For a workbook that was calculated with another version, by its formulas: that it was, and on request what would move; `asked` counts the requests made elsewhere. */
export function OlderWorkbook({
  port,
  formulas,
  asked,
}: {
  readonly port: SheetPort;
  readonly formulas: readonly FormulaCell[] | undefined;
  readonly asked: number;
}) {
  const older = formulas?.find(isOlder);
  const [found, setFound] = useState<WhatMoves>();
  const [said, say] = useState('');
  const look = (): void => {
    setFound(undefined);
    Promise.resolve(port.formulas?.all() ?? [])
      .then((all) => whatMoves(all, port, (done, of) => say(`${done} of ${of} formulas`)))
      .then((moves) => {
        setFound(moves);
        say('');
      })
      .catch((e: unknown) => say(`That did not work: ${e instanceof Error ? e.message : String(e)}`));
  };
  useEffect(() => {
    if (asked > 0) look();
  }, [asked]);
  if (!older && asked === 0) return null;
  const since = typeof older?.value === 'string' ? versionIn(older.value) : undefined;
  return (
    <div class="rs-note rs-older">
      {older && (
        <p>
          This workbook was calculated with {since} ({older.sheet} {older.address}); this is {CALCULATION_VERSION}. Its
          figures stay until they are calculated anew.{' '}
          <button type="button" onClick={look}>
            What would move?
          </button>
        </p>
      )}
      <div role="status">{found ? <Moves found={found} since={since} /> : said}</div>
    </div>
  );
}
