/** Workbooks for the tests: written as the template is, then altered part by part into the forms that other programs save. */
import type { HostFunction } from '../../../src/sheet/host-function.ts';
import { hostFunctions } from '../../../src/sheet/host-functions.ts';
import { calculateWorkbook } from '../../../src/engine/headless.ts';
import { asInTheHost } from '../../../src/engine/as-in-the-host.ts';
import { newWorkbook, type NewSheet } from '../../../src/files/xlsx/new-workbook.ts';
import { newArchive, openArchive } from '../../../src/files/xlsx/zip.ts';

export async function makeWorkbook(
  sheets: readonly NewSheet[],
  definedNames: Readonly<Record<string, string>> = {},
  functions: readonly HostFunction[] = hostFunctions,
): Promise<Buffer> {
  const workbook = { sheets, definedNames, title: 'A test' };
  return Buffer.from(newWorkbook(workbook, await calculateWorkbook(workbook, functions.map(asInTheHost))));
}

/** The text of a part. */
export const partOf = (file: Uint8Array, part: string): string =>
  Buffer.from(openArchive(file).read(part)).toString('utf8');

/** The file with parts altered or added. */
export function altered(file: Buffer, parts: Readonly<Record<string, (xml: string) => string>>): Buffer {
  const archive = openArchive(file);
  const all = new Map<string, Uint8Array>(archive.names.map((name) => [name, archive.read(name)]));
  for (const [name, change] of Object.entries(parts))
    all.set(name, Buffer.from(change(all.has(name) ? Buffer.from(all.get(name)!).toString('utf8') : '')));
  return Buffer.from(newArchive(all));
}

export const SHEET1 = 'xl/worksheets/sheet1.xml';

/** The same replacement in a part, which must find what it looks for. */
export const replacing =
  (from: string | RegExp, to: string) =>
  (xml: string): string => {
    if (typeof from === 'string' ? !xml.includes(from) : !from.test(xml))
      throw new Error(`${String(from)} is not in ${xml.slice(0, 4000)}`);
    return typeof from === 'string' ? xml.replaceAll(from, to) : xml.replace(from, to);
  };
