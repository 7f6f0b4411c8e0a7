import { useEffect, useRef, useState } from 'preact/hooks';
import { findFunction } from '../catalogue/catalogue.ts';
import { isBlankCell } from '../catalogue/cell.ts';
import { CALCULATION_VERSION } from '../core/version.ts';
import { isKnown, type ReadCell } from './explain-cell.ts';
import { Assumptions } from './panels/assumptions.tsx';
import { Functions } from './panels/functions.tsx';
import { References } from './panels/references.tsx';
import { ThisCell } from './panels/this-cell.tsx';
import { DifferingAssumptions } from './parts/differing-assumptions.tsx';
import { OlderWorkbook } from './parts/older-workbook.tsx';
import { SheetContext } from './parts/sheet-context.ts';
import { sourceId } from './parts/source-link.tsx';
import { TabPanel, Tabs, type Tab } from './parts/tabs.tsx';
import type { SheetPort } from './port.ts';
import * as texts from './texts.ts';
import { useFormulas } from './use-formulas.ts';
import { useReadCell } from './use-read-cell.ts';
import { WorkbookCheck } from './workbook/workbook-check.tsx';

type TabId = 'cell' | 'functions' | 'assumptions' | 'references';

const TABS: readonly Tab<TabId>[] = [
  { id: 'cell', label: 'This cell' },
  { id: 'functions', label: 'Functions' },
  { id: 'assumptions', label: 'Assumptions' },
  { id: 'references', label: 'References' },
];

/** A source that a link led to, and the link to go back to. */
interface Citation {
  readonly key: string;
  readonly from: TabId;
  readonly link: Element | null;
}

/** The selected cell's function where it takes `assume`, else a function that does. */
function assumeExample(read: ReadCell | undefined): ReturnType<typeof findFunction> {
  const known = read?.calls.find(isKnown)?.declaration;
  return known?.assume ? known : findFunction('BURN.PIN.OXYGEN');
}

export function Pane({ port }: { readonly port: SheetPort }) {
  const read = useReadCell(port);
  const formulas = useFormulas(port, read);
  const [open, setOpen] = useState<TabId>('cell');
  const [words, setWords] = useState('');
  const [cited, setCited] = useState<Citation>();
  const [said, say] = useState('');
  const [asked, ask] = useState(0);
  const [askedToCheck, askToCheck] = useState(0);
  const back = useRef<Element | null>(null);
  useEffect(() => say(''), [read?.cell.sheet, read?.cell.address]);

  const toSource = (key: string): void => {
    setCited({ key, from: open === 'references' ? 'cell' : open, link: document.activeElement });
    setWords('');
    setOpen('references');
  };
  useEffect(() => {
    if (cited) document.getElementById(sourceId(cited.key))?.focus();
  }, [cited]);
  useEffect(() => {
    if (back.current instanceof HTMLElement) back.current.focus();
    back.current = null;
  }, [open]);

  const put = {
    at: read?.cell.address,
    occupied: read !== undefined && (read.formula !== '' || !isBlankCell(read.cell.value)),
    run: (formula: string): void => {
      const at = read?.cell.address ?? '';
      port.putFormula(formula).then(
        () => say(`${at} now holds ${formula}`),
        (e: unknown) => say(`Nothing was put in ${at}: ${e instanceof Error ? e.message : String(e)}`),
      );
    },
  };
  return (
    <section class="rs" aria-label="Rodsheet">
      <Tabs tabs={TABS} open={open} onOpen={setOpen} />
      <p class="rs-said" role="status">
        {said}
      </p>
      <OlderWorkbook port={port} formulas={formulas} asked={asked} />
      <WorkbookCheck port={port} asked={askedToCheck} />
      <DifferingAssumptions port={port} formulas={formulas} />
      <TabPanel id="cell" open={open}>
        <SheetContext.Provider value={port}>
          <ThisCell read={read} toSource={toSource} />
        </SheetContext.Provider>
      </TabPanel>
      <TabPanel id="functions" open={open}>
        <Functions put={put} toSource={toSource} />
      </TabPanel>
      <TabPanel id="assumptions" open={open}>
        <Assumptions port={port} example={assumeExample(read)} say={say} toSource={toSource} />
      </TabPanel>
      <TabPanel id="references" open={open}>
        <References
          cited={cited?.key}
          words={words}
          onWords={setWords}
          onBack={() => {
            back.current = cited?.link ?? null;
            setOpen(cited?.from ?? 'cell');
            setCited(undefined);
          }}
        />
      </TabPanel>
      <footer>
        <p>{texts.RULES}</p>
        <p class="rs-fine">
          Calculation {CALCULATION_VERSION}{' '}
          {port.formulas && (
            <>
              <button type="button" onClick={() => ask(asked + 1)}>
                What would move?
              </button>{' '}
              {/* A check wants all that stands round ours. */}
              {port.looker && !port.formulas.oursAlone && (
                <button type="button" onClick={() => askToCheck(askedToCheck + 1)}>
                  Check the workbook
                </button>
              )}
            </>
          )}
        </p>
      </footer>
    </section>
  );
}
