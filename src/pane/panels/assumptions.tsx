import { useState } from 'preact/hooks';
import type { Declaration } from '../../catalogue/declaration.ts';
import { Assumptions as InForce } from '../../core/assumptions/assumptions.ts';
import { REGISTRY } from '../../core/assumptions/registry.ts';
import { formulaWithAssume, listedAssumptions, listingRegion } from '../assume-formula.ts';
import { AssumptionRows } from '../parts/assumption-rows.tsx';
import { SearchBox, holdsWords } from '../parts/search-box.tsx';
import type { SheetPort } from '../port.ts';
import { usedAssumptions } from '../used-assumptions.ts';

/** What a sheet of assumptions is for, once it is there. */
function HowTo({ sheet, example }: { readonly sheet: string; readonly example: Declaration | undefined }) {
  const rows = listedAssumptions();
  const region = listingRegion(sheet, rows.length, rows[0]?.length ?? 1);
  return (
    <div class="rs-note" role="status">
      <p>
        The assumptions are on the sheet {sheet}. Change a value there; give low and high with it where you know them.
      </p>
      <p>
        A formula follows the sheet when its last argument, assume, is <code>{region}</code>
        {example && (
          <>
            , as in <code>{formulaWithAssume(example, region)}</code>
          </>
        )}
        . Formulas without it keep the defaults.
      </p>
    </div>
  );
}

/** The register of assumptions; `example` is a function to show the use of `assume` with. */
export function Assumptions({
  port,
  example,
  say,
  toSource,
}: {
  readonly port: SheetPort;
  readonly example: Declaration | undefined;
  readonly say: (text: string) => void;
  readonly toSource: (key: string) => void;
}) {
  const [defaults] = useState(() => usedAssumptions(new Set(REGISTRY.map((a) => a.name)), InForce.defaults()));
  const [words, setWords] = useState('');
  const [sheet, setSheet] = useState<string>();
  const [busy, setBusy] = useState(false);
  const found = defaults.filter((a) => holdsWords(`${a.name} ${a.summary} ${a.kind}`, words));
  const put = async (): Promise<void> => {
    setBusy(true);
    try {
      setSheet(await port.addSheet('Assumptions', listedAssumptions()));
    } catch (e) {
      say(`The sheet was not added: ${e instanceof Error ? e.message : String(e)}`);
    }
    setBusy(false);
  };
  return (
    <>
      <h2>Assumptions</h2>
      <p>
        Every default that a calculation may use, with what a careful estimator would call its low and high. Your own
        figures replace them.
      </p>
      <button type="button" class="rs-main" disabled={busy} onClick={() => void put()}>
        Put all on a new sheet
      </button>
      {sheet !== undefined && <HowTo sheet={sheet} example={example} />}
      <SearchBox
        id="rs-search-assumptions"
        label="Search assumptions"
        words={words}
        hits={found.length}
        onWords={setWords}
      />
      <AssumptionRows assumptions={found} toSource={toSource} />
    </>
  );
}
