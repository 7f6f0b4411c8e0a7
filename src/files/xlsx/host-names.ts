import { ownName } from '../../sheet/own-name.ts';
import { addressOf, sheetPrefix } from './address.ts';
import { utf8 } from './bytes.ts';
import { spliced, type Edit } from './edit-sheet.ts';
import { formulaTokens, TYPES } from './formula-tokens.ts';
import { METADATA } from './new-workbook.ts';
import { readWorkbook } from './read-workbook.ts';
import { relationships } from './relationships.ts';
import type { SavedCell } from './saved-workbook.ts';
import { escaped, partText } from './xml.ts';
import { newArchive, type Archive } from './zip.ts';

/** A formula whose functions got the names that the host stores. */
export interface Renamed {
  readonly place: string;
  readonly before: string;
  readonly after: string;
  /** Whether it was an array over a fixed area and spills now. */
  readonly spills: boolean;
}

export interface WithHostNames {
  readonly file: Uint8Array;
  readonly renamed: readonly Renamed[];
}

/** How [MS-XLSX] 2.3.4 names the part and its link, and the standard's main part its place. */
const METADATA_TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml';
const METADATA_LINK = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships/sheetMetadata';

/**
 * An .xlsx that another program saved, with functions of ours as the host stores them: `_xldudf_BURN_PIN_RODS` for
 * BURN.PIN.RODS, which the host would take for a name of nobody. An array with one of them in it, which such a program
 * keeps over a fixed area, spills then. Formulas in cells and names are changed, nothing else. Throws UnreadableFile.
 */
export function withHostNames(file: Uint8Array, isOurs: (name: string) => boolean): WithHostNames {
  const workbook = readWorkbook(file);
  const { archive } = workbook;
  const changed = new Map<string, Uint8Array>();
  const renamed: Renamed[] = [];
  // With metadata of another kind in the workbook, arrays stay arrays: their numbers are not ours to give out.
  const main = relationships(archive, '').find((r) => r.type === 'officeDocument')?.target ?? '';
  const maySpill = !relationships(archive, main).some((r) => r.type === 'sheetMetadata');
  for (const sheet of workbook.sheets) {
    const edits: Edit[] = [];
    for (const cell of sheet.cells) {
      const element = sheet.text.slice(cell.start, cell.end);
      const found = renamedCell(element, cell, maySpill, isOurs);
      if (!found) continue;
      edits.push({ start: cell.start, end: cell.end, text: found.element });
      const place = `${sheetPrefix(sheet.name)}${addressOf(cell.row, cell.column)}`;
      renamed.push({ place, before: found.before, after: found.after, spills: found.spills });
    }
    if (edits.length > 0) changed.set(sheet.part, utf8(spliced(sheet.text, edits)));
  }
  const names = renamedNames(partText(main, archive.read(main)), isOurs);
  if (names.renamed.length > 0) changed.set(main, utf8(names.text));
  renamed.push(...names.renamed);
  if (renamed.length === 0) return { file, renamed };
  return {
    file: renamed.some((r) => r.spills) ? withMetadata(archive, main, changed) : archive.with(changed),
    renamed,
  };
}

const FORMULA = /(<(?:[\w.-]+:)?f\b[^>]*[^/]>|<(?:[\w.-]+:)?f>)([^<]*)(?=<\/)/;

function renamedCell(
  element: string,
  { formula }: SavedCell,
  maySpill: boolean,
  isOurs: (name: string) => boolean,
): (Omit<Renamed, 'place'> & { readonly element: string }) | undefined {
  const [whole, opening = '', stored = ''] = FORMULA.exec(element) ?? [];
  if (!formula || whole === undefined) return undefined;
  const before = unescaped(stored);
  const after = inHostNames(before, isOurs);
  if (after === before) return undefined;
  const spills = maySpill && formula.kind === 'array';
  const cell = spills ? element.replace(/^<((?:[\w.-]+:)?c)\b(?![^>]*\bcm=)/, '<$1 cm="1"') : element;
  return { before, after, spills, element: cell.replace(whole, () => `${opening}${escaped(after)}`) };
}

function renamedNames(
  text: string,
  isOurs: (name: string) => boolean,
): { readonly text: string; readonly renamed: readonly Renamed[] } {
  const renamed: Renamed[] = [];
  const changed = text.replace(
    /(<(?:[\w.-]+:)?definedName\b[^>]*\bname="([^"]*)"[^>]*>)([^<]*)(?=<\/)/g,
    (whole: string, opening: string, name: string, stored: string) => {
      const before = unescaped(stored);
      const after = inHostNames(before, isOurs);
      if (after === before) return whole;
      renamed.push({ place: unescaped(name), before, after, spills: false });
      return `${opening}${escaped(after)}`;
    },
  );
  return { text: changed, renamed };
}

function inHostNames(formula: string, isOurs: (name: string) => boolean): string {
  if (!/burn/i.test(formula)) return formula;
  return formulaTokens(formula)
    .map(({ type, value }) => {
      const name = type === TYPES.FUNCTION ? ownName(value) : undefined;
      return name === undefined || !isOurs(name) ? value : `_xldudf_${name.replaceAll('.', '_')}`;
    })
    .join('');
}

const ENTITIES: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" };
const unescaped = (text: string): string =>
  text.replace(/&(?:#(\d+)|#x([0-9a-f]+)|(\w+));/gi, (whole: string, decimal?: string, hex?: string, name = '') =>
    decimal !== undefined || hex !== undefined
      ? String.fromCodePoint(decimal === undefined ? parseInt(hex ?? '', 16) : Number(decimal))
      : (ENTITIES[name as string] ?? whole),
  );

/** The archive with changed parts and the part that says which arrays spill. */
function withMetadata(archive: Archive, main: string, changed: ReadonlyMap<string, Uint8Array>): Uint8Array {
  const folder = main.slice(0, main.lastIndexOf('/') + 1);
  const part = `${folder}metadata.xml`;
  const links = `${folder}_rels/${main.slice(folder.length)}.rels`;
  const put = (name: string, before: string, text: string): [string, Uint8Array] => {
    const whole = partText(name, archive.read(name));
    const at = whole.lastIndexOf(before);
    return [name, utf8(`${whole.slice(0, at)}${text}${whole.slice(at)}`)];
  };
  const all = new Map<string, Uint8Array>(archive.names.map((name) => [name, changed.get(name) ?? archive.read(name)]));
  for (const [name, bytes] of [
    put('[Content_Types].xml', '</Types>', `<Override PartName="/${part}" ContentType="${METADATA_TYPE}"/>`),
    put(links, '</Relationships>', `<Relationship Id="rIdSpills" Type="${METADATA_LINK}" Target="metadata.xml"/>`),
  ])
    all.set(name, bytes);
  all.set(part, utf8(`<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n${METADATA}`));
  return newArchive(all);
}
