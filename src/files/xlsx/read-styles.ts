import {
  BORDER_LINES,
  type Border,
  type BorderLine,
  type CellLook,
  type Side,
} from '../../sheet/described-workbook.ts';
import type { Colours } from './read-colours.ts';
import { partText, readXml } from './xml.ts';
import type { Archive } from './zip.ts';

/** Formats that have a number and stand in no file. Source: ISO/IEC 29500-1, 18.8.30 (numFmt). */
const FORMATS: Readonly<Record<number, string>> = {
  1: '0',
  2: '0.00',
  3: '#,##0',
  4: '#,##0.00',
  9: '0%',
  10: '0.00%',
  11: '0.00E+00',
  12: '# ?/?',
  13: '# ??/??',
  14: 'mm-dd-yy',
  15: 'd-mmm-yy',
  16: 'd-mmm',
  17: 'mmm-yy',
  18: 'h:mm AM/PM',
  19: 'h:mm:ss AM/PM',
  20: 'h:mm',
  21: 'h:mm:ss',
  22: 'm/d/yy h:mm',
  37: '#,##0 ;(#,##0)',
  38: '#,##0 ;[Red](#,##0)',
  39: '#,##0.00;(#,##0.00)',
  40: '#,##0.00;[Red](#,##0.00)',
  45: 'mm:ss',
  46: '[h]:mm:ss',
  47: 'mmss.0',
  48: '##0.0E+0',
  49: '@',
};
/** What a file written here says of a cell that has no look; a file that means another says it with each cell. */
const USUAL = { face: 'Calibri', size: 11 } as const;
const SIDES: ReadonlySet<string> = new Set<Side>(['left', 'right', 'top', 'bottom']);
type Draft<T> = { -readonly [K in keyof T]: T[K] };

export interface ReadStyles {
  /** By the number that cells give. */
  readonly looks: readonly CellLook[];
  /** Kinds of looks in the file that are not kept. */
  readonly notKept: readonly string[];
}

/** The looks of a workbook's cells. */
export function readStyles(archive: Archive, part: string | undefined, colour: Colours): ReadStyles {
  const fonts: CellLook[] = [];
  const fills: CellLook[] = [];
  const borders: CellLook['borders'][] = [];
  const formats = new Map<number, string>(Object.entries(FORMATS).map(([id, code]) => [Number(id), code]));
  const looks: CellLook[] = [];
  const notKept = new Set<string>();
  if (part === undefined || !archive.has(part)) return { looks, notKept: [] };
  let within = '';
  let font: Draft<CellLook> | undefined;
  let border: Partial<Record<Side, Border>> | undefined;
  let side: { readonly name: Side; readonly line: BorderLine } | undefined;
  let solid = false;
  const on = (attributes: Readonly<Record<string, string>>): boolean =>
    !/^(0|false|none)$/.test(attributes['val'] ?? '1');

  readXml(part, partText(part, archive.read(part)), {
    open: (element, attributes) => {
      if (/^(fonts|fills|borders|cellXfs|cellStyleXfs|numFmts|dxfs)$/.test(element)) within = element;
      if (within === 'numFmts' && element === 'numFmt')
        formats.set(Number(attributes['numFmtId']), attributes['formatCode'] ?? '');
      else if (within === 'fonts') {
        if (element === 'font') font = {};
        else if (font && element === 'b') font.bold = on(attributes);
        else if (font && element === 'i') font.italic = on(attributes);
        else if (font && element === 'strike') font.strike = on(attributes);
        else if (font && element === 'u') font.underline = on(attributes);
        else if (font && element === 'sz') font.size = Number(attributes['val']);
        else if (font && element === 'name') font.face = attributes['val'] ?? USUAL.face;
        else if (font && element === 'vertAlign' && on(attributes)) notKept.add('raised and lowered letters');
        else if (font && element === 'color') {
          const value = colour(attributes);
          if (value !== undefined && value !== '#000000') font.color = value;
        }
      } else if (within === 'fills') {
        if (element === 'fill') fills.push({});
        else if (element === 'gradientFill') notKept.add('fills that run from one colour to another');
        else if (element === 'patternFill') {
          solid = attributes['patternType'] === 'solid';
          if (!solid && !/^(none|gray125)$/.test(attributes['patternType'] ?? 'none')) notKept.add('hatched fills');
        } else if (element === 'fgColor' && solid) {
          const background = colour(attributes);
          if (background !== undefined) fills[fills.length - 1] = { background };
        }
      } else if (within === 'borders') {
        if (element === 'border') border = {};
        else if (element === 'diagonal' && attributes['style'] !== undefined) notKept.add('lines across a cell');
        else if (border && SIDES.has(element)) {
          const line = BORDER_LINES.find((each) => each === attributes['style']);
          side = line && { name: element as Side, line };
          if (side) border[side.name] = { line: side.line };
        } else if (border && side && element === 'color') {
          const value = colour(attributes);
          if (value !== undefined) border[side.name] = { line: side.line, color: value };
        }
      } else if (within === 'cellXfs') {
        if (element === 'xf') looks.push(lookOf(attributes));
        else if (element === 'alignment') looks[looks.length - 1] = { ...looks.at(-1), ...alignment(attributes) };
      }
    },
    close: (element) => {
      if (element === within) within = '';
      if (element === 'font' && font) {
        fonts.push(font);
        font = undefined;
      }
      if (element === 'border' && border) {
        borders.push(Object.keys(border).length > 0 ? border : undefined);
        border = undefined;
      }
      if (SIDES.has(element)) side = undefined;
    },
  });
  return { looks, notKept: [...notKept] };

  function lookOf(attributes: Readonly<Record<string, string>>): CellLook {
    const { face, size, ...letters } = fonts[Number(attributes['fontId'] ?? 0)] ?? {};
    const format = formats.get(Number(attributes['numFmtId'] ?? 0));
    const lines = borders[Number(attributes['borderId'] ?? 0)];
    return {
      ...letters,
      ...(face === undefined || face === USUAL.face ? {} : { face }),
      ...(size === undefined || size === USUAL.size ? {} : { size }),
      ...fills[Number(attributes['fillId'] ?? 0)],
      ...(lines ? { borders: lines } : {}),
      ...(format === undefined || format === 'General' ? {} : { format }),
    };
  }

  function alignment({
    horizontal = 'general',
    vertical,
    wrapText,
    textRotation,
    indent = '0',
  }: Readonly<Record<string, string>>): CellLook {
    if (textRotation !== undefined && textRotation !== '0') notKept.add('turned texts');
    if (!/^(general|left|center|right)$/.test(horizontal)) notKept.add('justified texts');
    if (indent !== '0') notKept.add('indents');
    const wrap = wrapText === '1' || wrapText === 'true';
    const place = vertical === 'top' || vertical === 'center' ? vertical : wrap ? 'bottom' : undefined;
    return {
      ...(horizontal === 'left' || horizontal === 'center' || horizontal === 'right' ? { align: horizontal } : {}),
      ...(wrap ? { wrap } : {}),
      ...(place && !(wrap && place === 'top') ? { vertical: place } : {}),
    };
  }
}
