import { JSDOM } from 'jsdom';
import { referencePages } from '../../src/reference/site.ts';

/** Every page of the reference, rendered once for a file of tests; by file name. */
export async function renderedPages(): Promise<
  ReadonlyMap<string, { readonly html: string; readonly document: Document }>
> {
  const files = await referencePages();
  return new Map(
    Object.entries(files).map(([file, html]) => [file, { html, document: new JSDOM(html).window.document }]),
  );
}

export const textOf = (element: Element | null | undefined): string =>
  (element?.textContent ?? '').replace(/\s+/g, ' ').trim();
