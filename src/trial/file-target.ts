/** Where a saved file goes: a file that the browser lets the page write, or else the folder of downloads. */
export interface FileTarget {
  readonly name: string;
  /** Undefined where the browser only downloads, which never takes the place of another file. */
  readonly handle: FileSystemFileHandle | undefined;
}

interface Pickers {
  showSaveFilePicker?(options: {
    readonly suggestedName: string;
    readonly types: readonly {
      readonly description: string;
      readonly accept: Readonly<Record<string, readonly string[]>>;
    }[];
  }): Promise<FileSystemFileHandle>;
  showOpenFilePicker?(): Promise<readonly FileSystemFileHandle[]>;
}
const pickers = globalThis as Pickers;

export const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';
export const CSV = 'text/csv';

/** Asks where to put a file; undefined where the user thinks better of it. */
export async function chooseTarget(name: string, type: string): Promise<FileTarget | undefined> {
  if (!pickers.showSaveFilePicker) return { name, handle: undefined };
  const ending = name.slice(name.lastIndexOf('.'));
  try {
    const types = [{ description: 'Workbook', accept: { [type]: [ending] } }];
    const handle = await pickers.showSaveFilePicker({ suggestedName: name, types });
    return { name: handle.name, handle };
  } catch (thrown) {
    if (thrown instanceof DOMException && thrown.name === 'AbortError') return undefined;
    throw thrown;
  }
}

/** A file chosen by the user, with leave to write it where the browser gives one. */
export interface ChosenFile {
  readonly file: File;
  readonly handle: FileSystemFileHandle | undefined;
}

export async function chooseFile(): Promise<ChosenFile | undefined> {
  if (pickers.showOpenFilePicker) {
    try {
      const [handle] = await pickers.showOpenFilePicker();
      return handle && { file: await handle.getFile(), handle };
    } catch (thrown) {
      if (thrown instanceof DOMException && thrown.name === 'AbortError') return undefined;
      throw thrown;
    }
  }
  return new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = '.xlsx,.xlsm,.csv,.tsv,.txt';
    input.addEventListener('change', () => resolve(input.files?.[0] && { file: input.files[0], handle: undefined }));
    input.addEventListener('cancel', () => resolve(undefined));
    input.click();
  });
}

/** Writes a file whole: where writing fails in the middle, what was there before stays. */
export async function writeFile({ name, handle }: FileTarget, bytes: Uint8Array, type: string): Promise<void> {
  const blob = new Blob([bytes as Uint8Array<ArrayBuffer>], { type });
  if (handle) {
    const stream = await handle.createWritable();
    try {
      await stream.write(blob);
    } catch (thrown) {
      await stream.abort();
      throw thrown;
    }
    await stream.close();
    return;
  }
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
