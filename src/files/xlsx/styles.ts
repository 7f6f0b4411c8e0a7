import type { CellLook } from '../../sheet/described-workbook.ts';
import { escaped } from './xml.ts';

const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const FACE = 'Calibri';
const SIZE = 11;
/** Numbers below are the host's own formats. */
const FIRST_FORMAT = 164;

/** Collects the looks of cells and writes them as the styles part; look 0 is the plain one. */
export class Styles {
  private readonly fonts = [font({})];
  /** The first two are the standard's own. */
  private readonly fills = [
    '<fill><patternFill patternType="none"/></fill>',
    '<fill><patternFill patternType="gray125"/></fill>',
  ];
  private readonly formats: string[] = [];
  private readonly looks = [look(0, 0, 0, {})];

  /** Number of a look. */
  id(of: CellLook): number {
    const fontId = place(this.fonts, font(of));
    const fillId =
      of.background === undefined
        ? 0
        : place(
            this.fills,
            `<fill><patternFill patternType="solid"><fgColor rgb="${rgb(of.background)}"/><bgColor indexed="64"/></patternFill></fill>`,
          );
    const formatId = of.format === undefined ? 0 : FIRST_FORMAT + place(this.formats, of.format);
    return place(this.looks, look(fontId, fillId, formatId, of));
  }

  xml(): string {
    const { fonts, fills, formats, looks } = this;
    const numFmts = formats
      .map((code, i) => `<numFmt numFmtId="${FIRST_FORMAT + i}" formatCode="${escaped(code)}"/>`)
      .join('');
    return (
      `<styleSheet xmlns="${MAIN}">${formats.length > 0 ? `<numFmts count="${formats.length}">${numFmts}</numFmts>` : ''}` +
      `<fonts count="${fonts.length}">${fonts.join('')}</fonts><fills count="${fills.length}">${fills.join('')}</fills>` +
      '<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>' +
      `<cellXfs count="${looks.length}">${looks.join('')}</cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`
    );
  }
}

function font({ bold, italic, size, color }: CellLook): string {
  return `<font>${bold ? '<b/>' : ''}${italic ? '<i/>' : ''}<sz val="${size ?? SIZE}"/>${color === undefined ? '' : `<color rgb="${rgb(color)}"/>`}<name val="${FACE}"/><family val="2"/></font>`;
}

function look(fontId: number, fillId: number, formatId: number, { wrap, align }: CellLook): string {
  const alignment =
    wrap || align
      ? `<alignment${align ? ` horizontal="${align}"` : ''}${wrap ? ' vertical="top" wrapText="1"' : ''}/>`
      : '';
  return `<xf numFmtId="${formatId}" fontId="${fontId}" fillId="${fillId}" borderId="0" xfId="0"${formatId > 0 ? ' applyNumberFormat="1"' : ''}${fontId > 0 ? ' applyFont="1"' : ''}${fillId > 0 ? ' applyFill="1"' : ''}${alignment === '' ? '/>' : ` applyAlignment="1">${alignment}</xf>`}`;
}

/** `#dfe6e4` as the standard writes it. */
const rgb = (color: string): string => `FF${color.slice(1).toUpperCase()}`;

/** Where an entry stands in a list, put in at its first use. */
function place(list: string[], entry: string): number {
  const at = list.indexOf(entry);
  return at >= 0 ? at : list.push(entry) - 1;
}
