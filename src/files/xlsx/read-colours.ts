import { partText, readXml } from './xml.ts';
import type { Archive } from './zip.ts';

/** The palette that a colour of a cell may point into by number. Source: ISO/IEC 29500-1, 18.8.27 (indexedColors). */
const INDEXED = (
  '000000 FFFFFF FF0000 00FF00 0000FF FFFF00 FF00FF 00FFFF 000000 FFFFFF FF0000 00FF00 0000FF FFFF00 FF00FF 00FFFF ' +
  '800000 008000 000080 808000 800080 008080 C0C0C0 808080 9999FF 993366 FFFFCC CCFFFF 660066 FF8080 0066CC CCCCFF ' +
  '000080 FF00FF FFFF00 00FFFF 800080 800000 008080 0000FF 00CCFF CCFFFF CCFFCC FFFF99 99CCFF FF99CC CC99FF FFCC99 ' +
  '3366FF 33CCCC 99CC00 FFCC00 FF9900 FF6600 666699 969696 003366 339966 003300 333300 993300 993366 333399 333333'
).split(' ');
/** The order in which cells count the colours of a theme; its part has the dark one of each pair first. */
const THEME = [
  'lt1',
  'dk1',
  'lt2',
  'dk2',
  'accent1',
  'accent2',
  'accent3',
  'accent4',
  'accent5',
  'accent6',
  'hlink',
  'folHlink',
];

export type Colours = (attributes: Readonly<Record<string, string>>) => string | undefined;

/** Reads colours of cells, of which some stand in the theme, as `#rrggbb`; an automatic one is none. */
export function readColours(archive: Archive, theme: string | undefined): Colours {
  const named = new Map<string, string>();
  if (theme !== undefined && archive.has(theme)) {
    let name = '';
    readXml(theme, partText(theme, archive.read(theme)), {
      open: (element, attributes) => {
        if (THEME.includes(element)) name = element;
        const value =
          element === 'srgbClr' ? attributes['val'] : element === 'sysClr' ? attributes['lastClr'] : undefined;
        if (name !== '' && value !== undefined) {
          if (!named.has(name)) named.set(name, value);
          name = '';
        }
      },
    });
  }
  return ({ rgb, indexed, theme: place, tint }) => {
    const plain =
      rgb?.slice(-6) ?? (place === undefined ? INDEXED[Number(indexed)] : named.get(THEME[Number(place)] ?? ''));
    if (plain === undefined || !/^[0-9a-f]{6}$/i.test(plain)) return undefined;
    return `#${tinted(plain, Number(tint ?? 0)).toLowerCase()}`;
  };
}

/** A colour made lighter or darker by a share. Source: ISO/IEC 29500-1, 18.8.19 (tint); done on each of red, green and blue. */
function tinted(colour: string, tint: number): string {
  if (!(tint !== 0)) return colour;
  const part = (at: number): string => {
    const value = parseInt(colour.slice(at, at + 2), 16);
    const made = tint < 0 ? value * (1 + tint) : value + (255 - value) * tint;
    return Math.round(Math.min(255, Math.max(0, made)))
      .toString(16)
      .padStart(2, '0');
  };
  return part(0) + part(2) + part(4);
}
