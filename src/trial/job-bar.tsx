import { useEffect, useState } from 'preact/hooks';
import { Dialog } from './dialog.tsx';
import type { KeptJob } from './kept-jobs.ts';
import { PasteReader } from './paste-reader.tsx';
import { printSheet } from './print-sheet.ts';
import { timeOf, type Session } from './session.ts';

/** The bar above the sheet: what job this is, where it is kept, and what to do with it. */
export function JobBar({ session }: { readonly session: Session }) {
  const [, redraw] = useState(0);
  const [asking, ask] = useState<'new' | 'paste'>();
  useEffect(() => session.onChange(() => redraw((n) => n + 1)), [session]);
  useEffect(() => {
    const keys = (event: KeyboardEvent): void => {
      const run = event.ctrlKey || event.metaKey ? SHORTCUTS[event.key.toLowerCase()] : undefined;
      if (!run || event.altKey) return;
      event.preventDefault();
      run(session, event.shiftKey);
    };
    document.addEventListener('keydown', keys, true);
    return () => document.removeEventListener('keydown', keys, true);
  }, [session]);
  const { name, kept, notice } = session.state;
  return (
    <div class="job rs-colours">
      <div class="job-row" role="toolbar" aria-label="Job">
        <input
          class="job-name"
          aria-label="Name of the job"
          value={name}
          onChange={(event) => session.rename(event.currentTarget.value)}
        />
        <button type="button" onClick={() => ask('new')}>
          New
        </button>
        <button type="button" onClick={() => void session.open()}>
          Open
        </button>
        <button type="button" onClick={() => void session.save()}>
          Save
        </button>
        <button type="button" onClick={() => void session.saveAs()}>
          Save as
        </button>
        <button
          type="button"
          title="A copy without formulas, for whoever has not the functions"
          onClick={() => void session.saveAs('values')}
        >
          Values only
        </button>
        <button
          type="button"
          title="A copy in ordinary formulas, with a sheet Working that shows every step: for whoever checks or recalculates it without the functions"
          onClick={() => void session.savePlain()}
        >
          Plain cells
        </button>
        <button type="button" title="The values of this sheet as a .csv file" onClick={() => void session.saveCsv()}>
          CSV
        </button>
        <button type="button" title="Reads a customer's list into a job" onClick={() => ask('paste')}>
          Paste a list
        </button>
        <button type="button" title="Prints this sheet, fitted to the width of the page" onClick={printSheet}>
          Print
        </button>
        <span class="job-kept" role="status">
          {kept}
        </span>
      </div>
      {notice ? (
        <div class="job-notice" role="alert">
          <p>
            {notice.text}{' '}
            {notice.actions?.map(({ label, run }) => (
              <button
                type="button"
                key={label}
                onClick={() => {
                  session.say(undefined);
                  run();
                }}
              >
                {label}
              </button>
            ))}
            <button type="button" onClick={() => session.say(undefined)}>
              Close
            </button>
          </p>
          {notice.points && notice.points.length > 0 ? (
            <ul>
              {notice.points.map((point) => (
                <li key={point}>{point}</li>
              ))}
            </ul>
          ) : null}
        </div>
      ) : null}
      {asking === 'new' ? <NewJobChoice session={session} onClose={() => ask(undefined)} /> : null}
      {asking === 'paste' ? <PasteReader session={session} onClose={() => ask(undefined)} /> : null}
    </div>
  );
}

const SHORTCUTS: Readonly<Record<string, (session: Session, shift: boolean) => void>> = {
  s: (session, shift) => void (shift ? session.saveAs() : session.save()),
  o: (session) => void session.open(),
};

const CHOICES = [
  ['list', 'Job list', 'An empty list of pins, and the plan that follows what is typed.'],
  [
    'template',
    'Template',
    'Pins, plan, load, quote, cautions, basis, working and assumptions, with an invented list to type over.',
  ],
  ['example', 'Example', 'Invented jobs with everything filled in, to look around.'],
] as const;

function NewJobChoice({ session, onClose }: { readonly session: Session; readonly onClose: () => void }) {
  const [others, setOthers] = useState<readonly KeptJob[]>([]);
  useEffect(() => void session.others().then(setOthers), [session]);
  return (
    <Dialog label="New job" onClose={onClose}>
      <h2>Begin with</h2>
      <ul class="job-choices">
        {CHOICES.map(([kind, label, what]) => (
          <li key={kind}>
            <button
              type="button"
              onClick={() => {
                onClose();
                void session.begin(kind);
              }}
            >
              <b>{label}</b>
              <span>{what}</span>
            </button>
          </li>
        ))}
      </ul>
      {others.length > 0 ? (
        <>
          <h2>Or go back to</h2>
          <ul class="job-others">
            {others.map((job) => (
              <li key={job.id}>
                <button
                  type="button"
                  onClick={() => {
                    onClose();
                    void session.goBackTo(job);
                  }}
                >
                  {job.name}, {timeOf(job.at)}
                  {job.unsaved ? ', in no file' : ''}
                </button>
              </li>
            ))}
          </ul>
        </>
      ) : null}
    </Dialog>
  );
}
