import type { ICellData, IWorkbookData } from '@univerjs/core';

/** What the engine keeps of a sheet that nobody wrote: how it is looked at, its room, heights that it reckons itself. */
const NOT_WRITTEN: ReadonlySet<string> = new Set([
  'rowCount',
  'columnCount',
  'zoomRatio',
  'scrollTop',
  'scrollLeft',
  'ah',
  'ia',
]);

/** What a workbook holds, as a text to compare: all but what is calculated, and what is only looked at. */
export const contentOf = (data: IWorkbookData): string =>
  JSON.stringify(data, function (this: unknown, key: string, value: unknown) {
    if (NOT_WRITTEN.has(key)) return undefined;
    const { f, si } = this as ICellData;
    // A formula's result: its value and the type of it.
    return (f || si) && (key === 'v' || key === 't') ? undefined : (value ?? undefined);
  });
