import { readAddress } from '../../src/files/xlsx/address.ts';
import { utf8 } from '../../src/files/xlsx/bytes.ts';
import { editSheet } from '../../src/files/xlsx/edit-sheet.ts';
import { readWorkbook } from '../../src/files/xlsx/read-workbook.ts';
import { makeWorkbook } from '../files/xlsx/make.ts';
import { sheetsOf, type Made } from './seeded-workbooks.ts';

/** The file of a made workbook, with what was not calculated again. */
export async function fileOf(made: Made): Promise<Uint8Array> {
  const file = await makeWorkbook(sheetsOf(made), made.names);
  const { stale, older } = made;
  const place = stale ?? older;
  if (!place) return file;
  const read = readWorkbook(file);
  const sheet = read.sheets.find((s) => s.name === place.sheet)!;
  const at = readAddress(place.cell)!;
  const value = sheet.cells.find((c) => c.row === at.row && c.column === at.column)?.value;
  const changed = stale ? Number(value) * 1.2 + 1 : String(value).replace(/\d{4}\.\d{2}\.\d{2}/, '2026.03.02');
  return read.archive.with(new Map([[sheet.part, utf8(editSheet(sheet, [{ ...at, value: changed }]))]]));
}
