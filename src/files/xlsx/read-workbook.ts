import { isOpenDocument, readOpenDocument } from '../ods/read-ods.ts';
import { readArea } from './address.ts';
import { indexOf, word } from './bytes.ts';
import { LIMITS } from './limits.ts';
import { readSheet } from './read-sheet.ts';
import { relationships } from './relationships.ts';
import type { SavedName, SavedTable, SavedWorkbook } from './saved-workbook.ts';
import { UnreadableFile } from './unreadable.ts';
import { isTrue, partText, readXml, referenceOf } from './xml.ts';
import { openArchive, type Archive } from './zip.ts';

const COMPOUND_FILE = Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]);
/** Entry of a compound file in which an encrypted workbook lies. Source: [MS-OFFCRYPTO] 2.3. */
const ENCRYPTED_PACKAGE = Uint8Array.from(Array.from('EncryptedPackage').flatMap((c) => [c.charCodeAt(0), 0]));

/** What is kept of a workbook in the open format (ISO/IEC 29500-1, SpreadsheetML), or in OpenDocument. Throws UnreadableFile. */
export function readWorkbook(file: Uint8Array): SavedWorkbook {
  refuseOthers(file);
  const archive = openArchive(file);
  if (isOpenDocument(archive)) return readOpenDocument(archive);
  if (!archive.has('[Content_Types].xml')) throw notAWorkbook();
  const main = relationships(archive, '').find((r) => r.type === 'officeDocument');
  if (!main) throw notAWorkbook();
  if (/\.bin$/i.test(main.target)) throw new UnreadableFile('it is a binary workbook (.xlsb); save it as .xlsx');
  const links = relationships(archive, main.target);
  const byId = new Map(links.map((r) => [r.id, r]));
  const { sheetIds, names, daysFrom1904 } = readMain(archive, main.target);
  const partOf = (type: string): string | undefined => links.find((r) => r.type === type)?.target;
  const texts = sharedTexts(archive, partOf('sharedStrings'));
  const dynamic = dynamicMetadata(archive, partOf('sheetMetadata'));
  const tables: SavedTable[] = [];
  let cells = 0;
  const sheets = sheetIds.flatMap(({ name, id, index }) => {
    const link = byId.get(id);
    // Chart and dialog sheets hold no cells.
    if (link?.type !== 'worksheet') return [];
    const sheet = {
      name,
      index,
      ...readSheet(link.target, partText(link.target, archive.read(link.target)), texts, dynamic, LIMITS.cells - cells),
    };
    cells += sheet.cells.length;
    for (const r of relationships(archive, link.target))
      if (r.type === 'table') tables.push({ ...readTable(archive, r.target), sheet: index });
    return [sheet];
  });
  if (sheets.length === 0) throw new UnreadableFile('it has no sheet with cells');
  // Names and tables count all sheets of the workbook, the list above only those with cells.
  const place = new Map(sheets.map((s, i) => [s.index, i]));
  return {
    archive,
    sheets,
    names: names.flatMap((n) =>
      n.sheet === undefined ? [n] : place.has(n.sheet) ? [{ ...n, sheet: place.get(n.sheet) }] : [],
    ),
    tables: tables.map((t) => ({ ...t, sheet: place.get(t.sheet) ?? 0 })),
    daysFrom1904,
    macros: links.some((r) => r.type === 'vbaProject'),
  };
}

function refuseOthers(file: Uint8Array): void {
  if (file.length === 0) throw new UnreadableFile('it is empty');
  if (COMPOUND_FILE.every((byte, i) => file[i] === byte)) {
    throw new UnreadableFile(
      indexOf(file, ENCRYPTED_PACKAGE) >= 0
        ? 'it is protected by a password; open it in the spreadsheet program and save a copy without one'
        : 'it is an old binary workbook (.xls); save it as .xlsx',
    );
  }
  if (file.length < 4 || word(file, 0) !== 0x4b50) throw new UnreadableFile('it is no workbook (.xlsx, .xlsm or .ods)');
}

function notAWorkbook(): UnreadableFile {
  return new UnreadableFile('it is an archive, but holds no workbook');
}

interface Main {
  readonly sheetIds: readonly { readonly name: string; readonly id: string; readonly index: number }[];
  readonly names: readonly SavedName[];
  readonly daysFrom1904: boolean;
}

function readMain(archive: Archive, part: string): Main {
  const sheetIds: { name: string; id: string; index: number }[] = [];
  const names: SavedName[] = [];
  let root = '';
  let daysFrom1904 = false;
  let named: { name: string; sheet: number | undefined; formula: string } | undefined;
  readXml(part, partText(part, archive.read(part)), {
    open: (element, attributes) => {
      root ||= element;
      if (element === 'workbookPr') daysFrom1904 = isTrue(attributes['date1904']);
      if (element === 'sheet')
        sheetIds.push({ name: attributes['name'] ?? '', id: referenceOf(attributes) ?? '', index: sheetIds.length });
      if (element === 'definedName') {
        const local = attributes['localSheetId'];
        named = { name: attributes['name'] ?? '', sheet: local === undefined ? undefined : Number(local), formula: '' };
      }
    },
    text: (piece) => {
      if (named && named.formula.length <= LIMITS.formula) named.formula += piece;
    },
    close: (element) => {
      if (element !== 'definedName' || !named) return;
      // Names of the host's own, such as print areas, are no part of formulas.
      if (!named.name.startsWith('_xlnm.')) names.push(named);
      named = undefined;
    },
  });
  if (root !== 'workbook') throw new UnreadableFile(`the part ${part} is no workbook but a ${root}`);
  return { sheetIds, names, daysFrom1904 };
}

/** Texts that cells point to by number; the reading aid of some scripts (rPh) is no part of a text. */
function sharedTexts(archive: Archive, part: string | undefined): readonly string[] {
  if (part === undefined) return [];
  const texts: string[] = [];
  let text: string | undefined;
  let inText = false;
  let aside = 0;
  readXml(part, partText(part, archive.read(part)), {
    open: (element) => {
      if (element === 'si') text = '';
      if (element === 'rPh') aside++;
      inText = element === 't' && aside === 0;
    },
    text: (piece) => {
      if (inText && text !== undefined) text += piece;
    },
    close: (element) => {
      inText = false;
      if (element === 'rPh') aside--;
      if (element !== 'si') return;
      texts.push(text ?? '');
      text = undefined;
    },
  });
  return texts;
}

const SPILLS = '{http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray}dynamicArrayProperties';

/** The numbers (from 1) of cell metadata that say "this array spills". Source: [MS-XLSX] 2.3.4, dynamicArrayProperties. */
function dynamicMetadata(archive: Archive, part: string | undefined): ReadonlySet<number> {
  const dynamic = new Set<number>();
  if (part === undefined) return dynamic;
  const types: string[] = [];
  const spilling: boolean[] = [];
  let future = '';
  let inCells = false;
  let block = 0;
  readXml(part, partText(part, archive.read(part)), {
    open: (element, attributes) => {
      if (element === 'metadataType') types.push(attributes['name'] ?? '');
      else if (element === 'futureMetadata') future = attributes['name'] ?? '';
      else if (element === 'cellMetadata') inCells = true;
      else if (element === 'bk' && future === 'XLDAPR') spilling.push(false);
      else if (element === 'bk' && inCells) block++;
      else if (element === SPILLS && future === 'XLDAPR')
        spilling[spilling.length - 1] = isTrue(attributes['fDynamic']);
      else if (
        element === 'rc' &&
        inCells &&
        types[Number(attributes['t']) - 1] === 'XLDAPR' &&
        spilling[Number(attributes['v'])]
      )
        dynamic.add(block);
    },
    close: (element) => {
      if (element === 'futureMetadata') future = '';
      if (element === 'cellMetadata') inCells = false;
    },
  });
  return dynamic;
}

function readTable(archive: Archive, part: string): Omit<SavedTable, 'sheet'> {
  let table: Omit<SavedTable, 'sheet' | 'columns'> | undefined;
  const columns: string[] = [];
  readXml(part, partText(part, archive.read(part)), {
    open: (element, attributes) => {
      if (element === 'table') {
        const area = readArea(attributes['ref'] ?? '');
        if (!area) throw new UnreadableFile(`the part ${part} is a table over ${attributes['ref'] ?? 'no cells'}`);
        const headings = Number(attributes['headerRowCount'] ?? 1);
        table = {
          name: attributes['displayName'] ?? attributes['name'] ?? '',
          area,
          headings,
          totals: Number(attributes['totalsRowCount'] ?? 0),
        };
      }
      if (element === 'tableColumn') columns.push(unescapedName(attributes['name'] ?? ''));
    },
  });
  if (!table) throw new UnreadableFile(`the part ${part} is no table`);
  return { ...table, columns };
}

/** Characters that a name cannot hold stand as `_x000a_`. Source: ISO/IEC 29500-1, 22.9.2.19 (ST_Xstring). */
const unescapedName = (name: string): string =>
  name.replace(/_x([0-9a-f]{4})_/gi, (_, code: string) => String.fromCharCode(parseInt(code, 16)));
