import type { IWorkbookData } from '@univerjs/core';
import type { Carried } from './written-workbook.ts';

/** A job as the browser keeps it. */
export interface KeptJob {
  readonly id: string;
  readonly name: string;
  readonly data: IWorkbookData;
  readonly carried: Carried;
  /** What the file it came from holds that is not kept. */
  readonly notKept: readonly string[];
  /** Time of keeping, ms. */
  readonly at: number;
  /** Whether it holds anything that no file holds. */
  readonly unsaved: boolean;
  /** Version of the page's calculation. All versions at one address share the browser's storage. */
  readonly version?: string;
}

const DATABASE = 'rodsheet';
const STORE = 'jobs';
/** Where a tab remembers its job, so that a reload finds it. */
const OF_THIS_TAB = 'rodsheet job';

/** The browser's own storage; everything in it stays on this machine. Each call rejects where the browser refuses. */
export const keptJobs = {
  put: (job: KeptJob): Promise<void> => inStore('readwrite', (store) => store.put(job)).then(() => undefined),
  get: (id: string): Promise<KeptJob | undefined> =>
    inStore('readonly', (store) => store.get(id) as IDBRequest<KeptJob | undefined>),
  remove: (id: string): Promise<void> => inStore('readwrite', (store) => store.delete(id)).then(() => undefined),
  /** The newest first. */
  all: async (): Promise<readonly KeptJob[]> => {
    const jobs = await inStore('readonly', (store) => store.getAll() as IDBRequest<KeptJob[]>);
    return jobs.sort((a, b) => b.at - a.at);
  },
};

function inStore<T>(mode: IDBTransactionMode, ask: (store: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    const fail = (request: IDBRequest | IDBTransaction): void =>
      reject(request.error ?? new Error('the browser refuses its storage'));
    const opening = indexedDB.open(DATABASE, 1);
    opening.onupgradeneeded = () => opening.result.createObjectStore(STORE, { keyPath: 'id' });
    opening.onblocked = () => fail(opening);
    opening.onerror = () => fail(opening);
    opening.onsuccess = () => {
      const database = opening.result;
      const transaction = database.transaction(STORE, mode);
      let request: IDBRequest<T>;
      try {
        request = ask(transaction.objectStore(STORE));
      } catch (thrown) {
        database.close();
        reject(thrown instanceof Error ? thrown : new Error(String(thrown)));
        return;
      }
      // Only a finished transaction is on the disk; a full one is told by its abort.
      transaction.oncomplete = () => {
        database.close();
        resolve(request.result);
      };
      transaction.onabort = () => {
        database.close();
        fail(transaction);
      };
    };
  });
}

/** Says that this tab works on a job, until it is closed, so that no other tab takes it. False where another has it already. */
export function holdJob(id: string): Promise<boolean> {
  return new Promise((resolve) => {
    navigator.locks
      .request(`${OF_THIS_TAB} ${id}`, { ifAvailable: true }, (lock) => {
        resolve(lock !== null);
        return lock === null ? undefined : new Promise(() => undefined);
      })
      .catch(() => resolve(true));
  });
}

/** The job of this tab before a reload. */
export function rememberedJob(): string | undefined {
  try {
    return sessionStorage.getItem(OF_THIS_TAB) ?? undefined;
  } catch {
    return undefined;
  }
}

export function rememberJob(id: string): void {
  try {
    sessionStorage.setItem(OF_THIS_TAB, id);
  } catch {
    // Without it the work is found again among those of no tab.
  }
}

/** Where a tab remembers which sheet was looked at last. */
const SHEET = 'rodsheet sheet';

/** The sheet of a job that this tab showed before a reload. */
export function rememberedSheet(id: string): string | undefined {
  try {
    const [job, sheet] = JSON.parse(sessionStorage.getItem(SHEET) ?? '[]') as readonly string[];
    return job === id ? sheet : undefined;
  } catch {
    return undefined;
  }
}

export function rememberSheet(id: string, sheet: string): void {
  try {
    sessionStorage.setItem(SHEET, JSON.stringify([id, sheet]));
  } catch {
    // The job is shown with the sheet that it was kept with.
  }
}
