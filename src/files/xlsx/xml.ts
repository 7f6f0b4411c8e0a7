import { SaxesParser } from 'saxes';
import { LIMITS } from './limits.ts';
import { UnreadableFile } from './unreadable.ts';

export interface XmlHandler {
  /** Names come without their namespace prefix; `end` is the place in the text just after the tag. */
  open?(name: string, attributes: Readonly<Record<string, string>>, end: number, empty: boolean): void;
  text?(text: string): void;
  /** `end` is the place in the text just after the closing tag. */
  close?(name: string, end: number): void;
}

/**
 * Reads a part as XML. A document type is refused, so no entity can be declared: none can grow or point to a file.
 * Throws UnreadableFile.
 */
export function readXml(part: string, xml: string, handler: XmlHandler): void {
  const refuse = (why: string): never => {
    throw new UnreadableFile(`the part ${part} cannot be read: ${why}`);
  };
  const bom = xml.startsWith('\ufeff') ? 1 : 0;
  const parser = new SaxesParser();
  let depth = 0;
  parser.on('doctype', () => refuse('it has a document type, which no workbook has'));
  parser.on('error', (error) => refuse(error.message));
  parser.on('xmldecl', ({ encoding }) => {
    if (encoding !== undefined && !/^utf-?8$/i.test(encoding)) refuse(`its encoding is ${encoding}; must be UTF-8`);
  });
  parser.on('opentag', ({ name, attributes, isSelfClosing }) => {
    if (++depth > LIMITS.depth) refuse(`its elements stand more than ${LIMITS.depth} deep inside one another`);
    handler.open?.(localName(name), attributes, parser.position + bom, isSelfClosing);
  });
  parser.on('closetag', ({ name }) => {
    depth--;
    handler.close?.(localName(name), parser.position + bom);
  });
  if (handler.text) {
    parser.on('text', (piece) => handler.text?.(piece));
    parser.on('cdata', (piece) => handler.text?.(piece));
  }
  parser.write(bom === 1 ? xml.slice(1) : xml).close();
}

const localName = (name: string): string => (name.includes(':') ? name.slice(name.indexOf(':') + 1) : name);

/** An attribute whatever its namespace prefix: `r:id` for `id`. */
export function attribute(attributes: Readonly<Record<string, string>>, name: string): string | undefined {
  return attributes[name] ?? Object.entries(attributes).find(([key]) => localName(key) === name && key !== name)?.[1];
}

/** The text of a part. A byte order mark stays, so that the text has the bytes it came from. */
export function partText(part: string, bytes: Uint8Array): string {
  if ((bytes[0] === 0xfe && bytes[1] === 0xff) || (bytes[0] === 0xff && bytes[1] === 0xfe)) {
    throw new UnreadableFile(
      `the part ${part} is in UTF-16; open the workbook in the spreadsheet program and save it again`,
    );
  }
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    throw new UnreadableFile(`the part ${part} is damaged: it is no UTF-8 text`);
  }
}

/** Characters that XML 1.0 cannot hold. */
const FORBIDDEN =
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/** A text for an element or an attribute in double quotes. */
export function escaped(text: string): string {
  return text.replace(FORBIDDEN, '\ufffd').replace(/[&<>"\r\n\t]/g, (c) => `&#${c.charCodeAt(0)};`);
}
