/** Names for sheets and ranges that are put into a workbook which has some already. */
import { tokenize, tokenTypes } from '@borgar/fx';
import type { CellContent } from '../../sheet/described-workbook.ts';
import { sheetPrefix } from '../xlsx/address.ts';
import type { NewSheet, NewWorkbook } from '../xlsx/new-workbook.ts';

/** What a workbook has already; tables count among its names. */
export interface Taken {
  readonly sheets: readonly string[];
  readonly names: readonly string[];
}

/** The workbook with a number behind each name that is taken, where it is given and where it is used. */
export function withFreeNames(workbook: NewWorkbook, taken: Taken): NewWorkbook {
  const sheets = freed(
    workbook.sheets.map(({ name }) => name),
    taken.sheets,
    ' ',
  );
  const names = freed(Object.keys(workbook.definedNames ?? {}), taken.names, '_');
  const formula = (text: string): string =>
    tokenize(text, { negativeNumbers: false, withLocation: false })
      .map(({ type, value }) => {
        if (type === tokenTypes.REF_NAMED) return names.get(value.toLowerCase()) ?? value;
        if (type === tokenTypes.STRING) return words(value);
        const end = value.lastIndexOf('!');
        if ((type !== tokenTypes.REF_RANGE && type !== tokenTypes.REF_BEAM) || end < 0) return value;
        const sheet = value
          .slice(0, end)
          .replace(/^'(.*)'$/, '$1')
          .replaceAll("''", "'");
        const now = sheets.get(sheet.toLowerCase());
        return now === undefined ? value : sheetPrefix(now) + value.slice(end + 1);
      })
      .join('');
  /** Sentences that send the reader to a sheet. */
  const words = (text: string): string =>
    text.replace(/\b(the sheet )(\w+( \w+)?)/gi, (found, before: string, two: string) => {
      for (const name of [two, two.split(' ')[0] ?? '']) {
        const now = sheets.get(name.toLowerCase());
        if (now !== undefined) return before + now + two.slice(name.length);
      }
      return found;
    });
  const content = (cell: CellContent): CellContent => {
    if (typeof cell !== 'string') return cell;
    return cell.startsWith('=') ? formula(cell) : words(cell);
  };
  return {
    ...workbook,
    sheets: workbook.sheets.map((sheet): NewSheet => ({
      ...sheet,
      name: sheets.get(sheet.name.toLowerCase()) ?? sheet.name,
      ...(sheet.rows ? { rows: sheet.rows.map((row) => row.map(content)) } : {}),
      ...(sheet.cells
        ? { cells: Object.fromEntries(Object.entries(sheet.cells).map(([at, cell]) => [at, content(cell)])) }
        : {}),
      ...(sheet.conditions
        ? { conditions: sheet.conditions.map((each) => ({ ...each, formula: formula(each.formula) })) }
        : {}),
      ...(sheet.validations
        ? {
            validations: Object.fromEntries(
              Object.entries(sheet.validations).map(([range, rule]) => [
                range,
                rule.from === undefined ? rule : { ...rule, from: formula(rule.from) },
              ]),
            ),
          }
        : {}),
    })),
    ...(workbook.definedNames
      ? {
          definedNames: Object.fromEntries(
            Object.entries(workbook.definedNames).map(([name, meaning]) => [
              names.get(name.toLowerCase()) ?? name,
              formula(meaning),
            ]),
          ),
        }
      : {}),
  };
}

/** The wanted names that are taken, in small letters, with those they get. */
function freed(wanted: readonly string[], taken: readonly string[], before: string): ReadonlyMap<string, string> {
  const all = new Set(taken.map((name) => name.toLowerCase()));
  const got = new Map<string, string>();
  for (const name of wanted) {
    let free = name;
    for (let n = 2; all.has(free.toLowerCase()); n++) free = `${name}${before}${n}`;
    all.add(free.toLowerCase());
    if (free !== name) got.set(name.toLowerCase(), free);
  }
  return got;
}
