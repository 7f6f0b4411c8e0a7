import type { IWorkbookData } from '@univerjs/core';
import { csvSheet, type CsvSheet } from '../files/csv-sheet.ts';
import { describeWorkbook } from '../files/xlsx/describe-workbook.ts';
import { utf8 } from '../files/xlsx/bytes.ts';
import { LIMITS } from '../files/xlsx/limits.ts';
import { newWorkbook, textHeights, type NewSheet, type NewWorkbook } from '../files/xlsx/new-workbook.ts';
import { UnreadableFile } from '../files/xlsx/unreadable.ts';
import { readWorkbook } from '../files/xlsx/read-workbook.ts';
import { CALCULATION_VERSION } from '../core/version.ts';
import { calculateWorkbook } from '../engine/headless.ts';
import { workbookData } from '../engine/workbook.ts';
import { plainWorkbook } from '../plain/plain-workbook.ts';
import type { HostFunction } from '../sheet/host-function.ts';
import { chooseFile, chooseTarget, CSV, writeFile, XLSX, type ChosenFile, type FileTarget } from './file-target.ts';
import {
  holdJob,
  keptJobs,
  rememberedJob,
  rememberedSheet,
  rememberJob,
  rememberSheet,
  type KeptJob,
} from './kept-jobs.ts';
import { newJob, type NewJob } from './new-jobs.ts';
import { openWorkbook, type OpenWorkbook, type Places } from './open-workbook.ts';
import { keptByOther, movedNotice, movedSince, savedFigures, type SavedFigures } from './saved-figures.ts';
import type { Notice } from './notice.ts';
import type { TrialSheetPort } from './sheet-port.ts';
import { shownWorkbook, writtenCsv, writtenWorkbook, type Carried, type Written } from './written-workbook.ts';

/** What the bar above the sheet tells. */
export interface SessionState {
  readonly name: string;
  /** Where the work is kept, in words. */
  readonly kept: string;
  /** Something to know, with the points of it. */
  readonly notice?: Notice | undefined;
}

const carriedOf = ({ landscape, printedHeading, validations }: NewSheet): Carried[string] => ({
  ...(landscape === undefined ? {} : { landscape }),
  ...(printedHeading === undefined ? {} : { printedHeading }),
  ...(validations === undefined ? {} : { validations }),
});

/** How long after the last change the work is kept, ms. */
const PAUSE = 800;
/** Jobs that lie in a file are forgotten beyond this many. */
const MOST_SAVED_JOBS = 10;

/** The job on show: opened, kept in the browser, saved to a file. */
export class Session {
  state: SessionState = { name: '', kept: '' };
  workbook: OpenWorkbook | undefined;
  private readonly listeners = new Set<() => void>();
  private readonly held = new Set<string>();
  private unmount: (() => void) | undefined;
  private carried: Carried = {};
  private notKept: readonly string[] = [];
  private target: FileTarget | undefined;
  /** Whether the file was there before and has not been written by this page. */
  private original = false;
  private unsaved = false;
  /** Whether the last change is in the browser's storage. */
  private safe = true;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private id = '';

  constructor(
    private readonly places: Places,
    private readonly functions: readonly HostFunction[],
    private readonly mountPane: (port: TrialSheetPort) => () => void,
  ) {
    window.addEventListener('beforeunload', (event) => {
      if (!this.safe && this.isUnsaved()) event.preventDefault();
    });
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState === 'hidden' && !this.safe) void this.keepEdits();
    });
    window.addEventListener('pagehide', () => {
      const sheet = this.workbook?.cells.workbook().getActiveSheet();
      if (sheet) rememberSheet(this.id, sheet.getSheetId());
    });
  }

  onChange(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** Goes on with what this tab had, or else with work that no tab has open and no file holds, or else shows the example. */
  async start(): Promise<void> {
    const kept = await this.found().catch(() => undefined);
    if (!kept) {
      await this.begin('example');
      return;
    }
    this.show(kept.data, kept);
    if (!kept.unsaved) return;
    this.say({
      text: `Recovered from ${timeOf(kept.at)}: ${kept.name}.${keptByOther(kept.version)}`,
      actions: [{ label: 'Throw it away', run: () => void this.throwAway() }],
    });
  }

  private async found(): Promise<KeptJob | undefined> {
    const own = rememberedJob();
    if (own !== undefined && (await this.hold(own))) {
      const kept = await keptJobs.get(own);
      if (kept) return kept;
    }
    // What a newer version kept may hold what this one cannot keep: it is taken up only where it is asked for.
    const mine = (await keptJobs.all()).filter((job) => job.unsaved && (job.version ?? '') <= CALCULATION_VERSION);
    for (const job of mine) if (await this.hold(job.id)) return job;
    return undefined;
  }

  private async hold(id: string): Promise<boolean> {
    if (this.held.has(id)) return true;
    if (!(await holdJob(id))) return false;
    this.held.add(id);
    return true;
  }

  async begin(kind: NewJob): Promise<void> {
    const names = { list: 'New job', template: 'New job', example: 'Example' } as const;
    await this.showNew(newJob(kind, this.functions), names[kind]);
  }

  /** Shows a described workbook as a new job. */
  async showNew(workbook: NewWorkbook, name: string, notKept: readonly string[] = []): Promise<void> {
    const id = `job-${crypto.randomUUID()}`;
    await this.hold(id);
    const sheets = workbook.sheets.map((sheet) => ({ ...sheet, heights: { ...textHeights(sheet), ...sheet.heights } }));
    const data = workbookData(id, { ...workbook, sheets });
    const carried = Object.fromEntries(workbook.sheets.map((sheet, i) => [data.sheetOrder[i] ?? '', carriedOf(sheet)]));
    this.show(data, { id, name, carried, notKept, unsaved: false });
  }

  private show(data: IWorkbookData, job: Omit<KeptJob, 'data' | 'at'>): void {
    clearTimeout(this.timer);
    this.unmount?.();
    this.workbook?.close();
    this.id = job.id;
    this.carried = job.carried;
    this.notKept = job.notKept;
    this.unsaved = job.unsaved;
    this.safe = true;
    this.target = undefined;
    this.original = false;
    rememberJob(job.id);
    const workbook = openWorkbook(this.places, data, this.functions, (id, sheet) => {
      this.carried = { ...this.carried, [id]: carriedOf(sheet) };
    });
    this.workbook = workbook;
    this.unmount = this.mountPane(workbook.port);
    workbook.onEdit((moved) => {
      if (this.workbook === workbook) this.edited(moved);
    });
    const last = rememberedSheet(job.id);
    if (last !== undefined) workbook.activate(last);
    this.tell({ name: job.name, kept: job.unsaved ? 'Kept in this browser' : '', notice: undefined });
  }

  /** Whether it holds anything that no file holds: what may have been an edit is one only where it left something else. */
  private isUnsaved(): boolean {
    return (this.unsaved ||= this.workbook?.edited() ?? false);
  }

  private edited(moved: string | undefined): void {
    this.safe = false;
    const { validations, ...other } = (moved === undefined ? undefined : this.carried[moved]) ?? {};
    if (moved !== undefined && validations && Object.keys(validations).length > 0) {
      // The rules name cells by their place, which is another now.
      this.carried = { ...this.carried, [moved]: other };
      const sheet = this.workbook?.cells.workbook().getSheetBySheetId(moved)?.getName() ?? '';
      this.notKept = [...this.notKept, `rules for what may be typed (${sheet}), since its rows or columns moved`];
    }
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.keepEdits(), PAUSE);
  }

  private async keepEdits(): Promise<void> {
    if (this.isUnsaved()) await this.keep();
    else this.safe = true;
  }

  /** Puts the work into the browser's storage. */
  private async keep(): Promise<void> {
    clearTimeout(this.timer);
    const { workbook, id } = this;
    if (!workbook || id === '') return;
    const at = Date.now();
    try {
      await keptJobs.put({
        id,
        name: this.state.name,
        data: workbook.data(),
        carried: this.carried,
        notKept: this.notKept,
        at,
        unsaved: this.unsaved,
        version: CALCULATION_VERSION,
      });
      this.safe = true;
      this.tell({ kept: `Kept in this browser, ${timeOf(at)}` });
      await this.forgetOld();
    } catch (thrown) {
      this.tell({
        kept: `Not kept: the browser's storage is ${isFull(thrown) ? 'full' : 'refused'}. Save it to a file.`,
      });
    }
  }

  private async forgetOld(): Promise<void> {
    const saved = (await keptJobs.all()).filter((job) => !job.unsaved && job.id !== this.id);
    for (const job of saved.slice(MOST_SAVED_JOBS)) await keptJobs.remove(job.id);
  }

  private async throwAway(): Promise<void> {
    clearTimeout(this.timer);
    // Gone before anything else: whoever reloads the page at once must not find it again.
    this.safe = true;
    this.unsaved = false;
    const { id } = this;
    // Nor is it kept once more by an edit that was still under way.
    this.id = '';
    await keptJobs.remove(id).catch(() => undefined);
    await this.begin('example');
  }

  /** Work of other times, to go back to. */
  async others(): Promise<readonly KeptJob[]> {
    const jobs = await keptJobs.all().catch(() => []);
    return jobs.filter((job) => job.id !== this.id);
  }

  async goBackTo(job: KeptJob): Promise<void> {
    if (!(await this.hold(job.id))) {
      this.say({ text: `${job.name} is open in another tab.` });
      return;
    }
    const now = await keptJobs.get(job.id);
    if (!now) return;
    this.show(now.data, now);
    const other = keptByOther(now.version);
    if (other !== '') this.say({ text: `${now.name}.${other}` });
  }

  async open(chosen?: ChosenFile): Promise<void> {
    const from = chosen ?? (await chooseFile());
    if (!from) return;
    const { file, handle } = from;
    try {
      const { workbook, notKept, figures } = await this.read(file);
      await this.showNew(workbook, withoutEnding(file.name), notKept);
      if (handle && /\.xlsx$/i.test(file.name)) this.target = { name: file.name, handle };
      this.original = this.target !== undefined;
      if (notKept.length > 0)
        this.say({
          text: `${file.name} holds more than is kept here. The file itself stays as it is; a file saved from here will be without:`,
          points: notKept,
        });
      if (figures) void this.compare(figures, this.state.notice);
    } catch (thrown) {
      if (!(thrown instanceof UnreadableFile)) throw thrown;
      this.say({ text: `${file.name} was not opened: ${thrown.message}.` });
    }
  }

  /** Says which figures of the file just opened the page gives otherwise, before what it said of the file. */
  private async compare(figures: SavedFigures, before: Notice | undefined): Promise<void> {
    const { workbook } = this;
    await workbook?.calculated;
    if (!workbook || workbook !== this.workbook || this.state.notice !== before) return;
    const moved = movedNotice(figures, movedSince(figures, workbook.cells));
    if (!moved) return;
    this.say({
      ...moved,
      points: [...(moved.points ?? []), ...(before ? [before.text, ...(before.points ?? [])] : [])],
    });
  }

  private async read(file: File): Promise<ReadFile> {
    if (file.size > LIMITS.file)
      throw new UnreadableFile(`it has ${Math.ceil(file.size / 1e6)} MB; at most ${LIMITS.file / 1e6} MB are taken`);
    const bytes = new Uint8Array(await file.arrayBuffer());
    const title = withoutEnding(file.name);
    if (!/\.(csv|tsv|txt)$/i.test(file.name)) {
      const saved = readWorkbook(bytes);
      return {
        ...describeWorkbook(saved, title, this.functions, this.sheetFunctions()),
        figures: savedFigures(saved.sheets),
      };
    }
    const rows = csvRows(bytes);
    return { workbook: { title, sheets: [{ name: sheetName(title), rows }] }, notKept: [] };
  }

  private sheetFunctions(): ReadonlySet<string> {
    return this.workbook?.port.functionNames() ?? new Set();
  }

  /** Saves to the file that the job has; asks for one where it has none, and before an original is written over. */
  async save(): Promise<void> {
    if (!this.target) return this.saveAs();
    if (this.original) {
      const over = (): void => {
        this.original = false;
        void this.write(this.target);
      };
      this.say({
        text: `${this.target.name} is the file you opened. Write over it?${this.notKept.length > 0 ? ' It would lose:' : ''}`,
        points: this.notKept,
        actions: [
          { label: 'Write over it', run: over },
          { label: 'Save as another', run: () => void this.saveAs() },
        ],
      });
      return;
    }
    await this.write(this.target);
  }

  async saveAs(as: Written = 'formulas'): Promise<void> {
    const suffix = as === 'values' ? ' (values)' : '';
    const target = await chooseTarget(`${this.state.name}${suffix}.xlsx`, XLSX);
    if (target) await this.write(target, as);
  }

  async saveCsv(): Promise<void> {
    const { workbook } = this;
    if (!workbook) return;
    const sheet = workbook.cells.workbook().getActiveSheet();
    const target = await chooseTarget(`${this.state.name} ${sheet.getName()}.csv`, CSV);
    if (!target) return;
    await this.putFile(target, utf8(`\ufeff${writtenCsv(sheet, workbook.cells)}`), CSV);
  }

  /** Saves a copy whose results are ordinary formulas, for whoever follows or recalculates them without the functions. */
  async savePlain(): Promise<void> {
    const { workbook } = this;
    if (!workbook) return;
    const target = await chooseTarget(`${this.state.name} (plain cells).xlsx`, XLSX);
    if (!target) return;
    this.say({ text: 'Writing the copy in plain cells.' });
    const shown = shownWorkbook(workbook.data(), workbook.cells, this.state.name, this.carried);
    const plain = await plainWorkbook(shown.workbook, (book) => calculateWorkbook(book, this.functions));
    if (!(await this.putFile(target, newWorkbook(plain.workbook, plain.results), XLSX))) return;
    if (plain.notFollowed.length > 0)
      this.say({
        text: `Saved to ${target.name}. Of some cells the value stands as it is:`,
        points: plain.notFollowed,
      });
  }

  private async write(target: FileTarget | undefined, as: Written = 'formulas'): Promise<void> {
    const { workbook } = this;
    if (!workbook || !target) return;
    const bytes = writtenWorkbook(workbook.data(), workbook.cells, this.state.name, this.carried, as);
    if (as === 'formulas') {
      // Until the file is written it may hold edits that were not looked at; what is typed meanwhile is in none.
      this.isUnsaved();
      workbook.saved();
    }
    if (!(await this.putFile(target, bytes, XLSX)) || as === 'values') return;
    if (target.handle) this.target = target;
    this.original = false;
    this.unsaved = workbook.edited();
    this.tell({ name: withoutEnding(target.name) });
    await this.keep();
    this.tell({ kept: `Saved to ${target.name}, ${timeOf(Date.now())}` });
  }

  private async putFile(target: FileTarget, bytes: Uint8Array, type: string): Promise<boolean> {
    try {
      await writeFile(target, bytes, type);
      this.say({ text: `Saved to ${target.name}.` });
      return true;
    } catch (thrown) {
      this.say({
        text: `${target.name} was not written: ${thrown instanceof Error ? thrown.message : String(thrown)}.`,
      });
      return false;
    }
  }

  /** Lets what is on show count as work that is in no file. */
  touch(): void {
    this.unsaved = true;
    this.edited(undefined);
  }

  rename(name: string): void {
    if (name.trim() === '' || name === this.state.name) return;
    this.tell({ name: name.trim() });
    this.touch();
  }

  say(notice: Notice | undefined): void {
    this.tell({ notice });
  }

  private tell(change: Partial<SessionState>): void {
    this.state = { ...this.state, ...change };
    for (const listener of this.listeners) listener();
  }
}

interface ReadFile {
  readonly workbook: NewWorkbook;
  readonly notKept: readonly string[];
  readonly figures?: SavedFigures;
}

const withoutEnding = (name: string): string => name.replace(/\.[^.]+$/, '');
export const timeOf = (at: number): string =>
  new Date(at).toLocaleString('en-GB', {
    ...(Date.now() - at > 20 * 3_600_000 ? { day: 'numeric', month: 'long' } : {}),
    hour: '2-digit',
    minute: '2-digit',
  });
const isFull = (thrown: unknown): boolean => thrown instanceof DOMException && thrown.name === 'QuotaExceededError';

/** A sheet's name takes 31 characters and some signs not. */
const sheetName = (title: string): string =>
  title
    .replace(/[\\/?*[\]:]/g, ' ')
    .slice(0, 31)
    .trim() || 'Sheet';

function csvRows(bytes: Uint8Array): CsvSheet['rows'] {
  try {
    const { rows } = csvSheet(bytes);
    if (rows.reduce((sum, row) => sum + row.length, 0) > LIMITS.cells)
      throw new UnreadableFile(`it has more than ${LIMITS.cells} cells`);
    return rows;
  } catch (thrown) {
    if (thrown instanceof UnreadableFile) throw thrown;
    throw new UnreadableFile(thrown instanceof Error ? thrown.message : String(thrown));
  }
}
