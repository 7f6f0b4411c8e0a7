import type { Border, CellLook, Side } from '../../sheet/described-workbook.ts';
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
  private readonly borders = [border({})];
  private readonly formats: string[] = [];
  private readonly looks = [look(0, 0, 0, 0, {})];
  private readonly changes: string[] = [];
  private readonly ids = new Map<string, number>();

  /** Number of a look. */
  id(of: CellLook): number {
    const key = JSON.stringify(of);
    const known = this.ids.get(key) ?? this.added(of);
    this.ids.set(key, known);
    return known;
  }

  /** Number of a change of look that a condition makes. */
  change({ bold, color, background }: Pick<CellLook, 'bold' | 'color' | 'background'>): number {
    const letters = `${bold ? '<b/>' : ''}${color === undefined ? '' : `<color rgb="${rgb(color)}"/>`}`;
    const fill =
      background === undefined
        ? ''
        : `<fill><patternFill patternType="solid"><bgColor rgb="${rgb(background)}"/></patternFill></fill>`;
    return place(this.changes, `<dxf>${letters === '' ? '' : `<font>${letters}</font>`}${fill}</dxf>`);
  }

  private added(of: CellLook): number {
    const fontId = place(this.fonts, font(of));
    const fillId =
      of.background === undefined
        ? 0
        : place(
            this.fills,
            `<fill><patternFill patternType="solid"><fgColor rgb="${rgb(of.background)}"/><bgColor indexed="64"/></patternFill></fill>`,
          );
    const formatId = of.format === undefined ? 0 : FIRST_FORMAT + place(this.formats, of.format);
    const borderId = place(this.borders, border(of.borders ?? {}));
    return place(this.looks, look(fontId, fillId, borderId, formatId, of));
  }

  xml(): string {
    const { fonts, fills, borders, formats, looks, changes } = this;
    const numFmts = formats
      .map((code, i) => `<numFmt numFmtId="${FIRST_FORMAT + i}" formatCode="${escaped(code)}"/>`)
      .join('');
    return (
      `<styleSheet xmlns="${MAIN}">${formats.length > 0 ? `<numFmts count="${formats.length}">${numFmts}</numFmts>` : ''}` +
      `<fonts count="${fonts.length}">${fonts.join('')}</fonts><fills count="${fills.length}">${fills.join('')}</fills>` +
      `<borders count="${borders.length}">${borders.join('')}</borders>` +
      '<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>' +
      `<cellXfs count="${looks.length}">${looks.join('')}</cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles>${changes.length > 0 ? `<dxfs count="${changes.length}">${changes.join('')}</dxfs>` : ''}</styleSheet>`
    );
  }
}

function font({ bold, italic, strike, underline, size, color, face }: CellLook): string {
  return `<font>${bold ? '<b/>' : ''}${italic ? '<i/>' : ''}${strike ? '<strike/>' : ''}${underline ? '<u/>' : ''}<sz val="${size ?? SIZE}"/>${color === undefined ? '' : `<color rgb="${rgb(color)}"/>`}<name val="${escaped(face ?? FACE)}"/><family val="2"/></font>`;
}

const SIDES: readonly Side[] = ['left', 'right', 'top', 'bottom'];

function border(sides: Readonly<Partial<Record<Side, Border>>>): string {
  const one = (side: Side): string => {
    const { line, color } = sides[side] ?? {};
    return line === undefined
      ? `<${side}/>`
      : `<${side} style="${line}">${color === undefined ? '<color auto="1"/>' : `<color rgb="${rgb(color)}"/>`}</${side}>`;
  };
  return `<border>${SIDES.map(one).join('')}<diagonal/></border>`;
}

function look(
  fontId: number,
  fillId: number,
  borderId: number,
  formatId: number,
  { wrap, align, vertical = wrap ? 'top' : undefined, unlocked }: CellLook,
): string {
  const alignment =
    wrap || align || vertical
      ? `<alignment${align ? ` horizontal="${align}"` : ''}${vertical ? ` vertical="${vertical}"` : ''}${wrap ? ' wrapText="1"' : ''}/>`
      : '';
  const protection = unlocked ? '<protection locked="0"/>' : '';
  return `<xf numFmtId="${formatId}" fontId="${fontId}" fillId="${fillId}" borderId="${borderId}" xfId="0"${formatId > 0 ? ' applyNumberFormat="1"' : ''}${fontId > 0 ? ' applyFont="1"' : ''}${fillId > 0 ? ' applyFill="1"' : ''}${borderId > 0 ? ' applyBorder="1"' : ''}${alignment === '' ? '' : ' applyAlignment="1"'}${protection === '' ? '' : ' applyProtection="1"'}${alignment + protection === '' ? '/>' : `>${alignment}${protection}</xf>`}`;
}

/** `#dfe6e4` as the standard writes it. */
const rgb = (color: string): string => `FF${color.slice(1).toUpperCase()}`;

/** Where an entry stands in a list, put in at its first use. */
function place(list: string[], entry: string): number {
  const at = list.indexOf(entry);
  return at >= 0 ? at : list.push(entry) - 1;
}
