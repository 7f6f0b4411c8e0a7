import { SaxesParser } from 'saxes';
import { LIMITS } from './limits.ts';
import { UnreadableFile } from './unreadable.ts';

export interface XmlHandler {
  /**
   * An element of the part's own namespace, that of its root, comes by its bare name, any other as `{namespace}name`:
   * extensions hold elements of the same names. So do attributes with a prefix. `end` is the place in the text just
   * after the tag.
   */
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
  // A prefix that is not declared, as in a piece of a part, names itself.
  const parser = new SaxesParser({ xmlns: true, resolvePrefix: (prefix: string) => prefix });
  let depth = 0;
  let own: string | undefined;
  const nameOf = ({ uri, local }: { readonly uri: string; readonly local: string }): string =>
    uri === own ? local : qualified(uri, local);
  parser.on('doctype', () => refuse('it has a document type, which no workbook has'));
  parser.on('error', (error) => refuse(error.message));
  parser.on('xmldecl', ({ encoding }) => {
    if (encoding !== undefined && !/^utf-?8$/i.test(encoding)) refuse(`its encoding is ${encoding}; must be UTF-8`);
  });
  parser.on('opentag', (tag) => {
    if (++depth > LIMITS.depth) refuse(`its elements stand more than ${LIMITS.depth} deep inside one another`);
    own ??= tag.uri;
    if (!handler.open) return;
    const attributes: Record<string, string> = {};
    for (const { uri, local, value } of Object.values(tag.attributes))
      attributes[uri === '' ? local : qualified(uri, local)] = value;
    handler.open(nameOf(tag), attributes, parser.position + bom, tag.isSelfClosing);
  });
  parser.on('closetag', (tag) => {
    depth--;
    handler.close?.(nameOf(tag), parser.position + bom);
  });
  if (handler.text) {
    parser.on('text', (piece) => handler.text?.(piece));
    parser.on('cdata', (piece) => handler.text?.(piece));
  }
  parser.write(bom === 1 ? xml.slice(1) : xml).close();
}

const qualified = (uri: string, local: string): string => `{${uri}}${local}`;

/** A truth value as an attribute. Source: W3C XML Schema Part 2, 3.2.2. */
export const isTrue = (attribute: string | undefined): boolean => attribute === '1' || attribute === 'true';

/** Namespaces of references between parts. Source: ISO/IEC 29500-1 (strict) and 29500-4 (transitional). */
const REFERENCES = [
  'http://schemas.openxmlformats.org/officeDocument/2006/relationships',
  'http://purl.oclc.org/ooxml/officeDocument/relationships',
];

/** The id of the part that an element refers to: its attribute `r:id`. */
export function referenceOf(attributes: Readonly<Record<string, string>>): string | undefined {
  return REFERENCES.map((uri) => attributes[qualified(uri, 'id')]).find((id) => id !== undefined);
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
