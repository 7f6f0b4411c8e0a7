/**
 * Writes the type library that tells the program the functions' arguments: interfaces in one module, in the binary
 * format of the program's own `unoidl-write`. All numbers are little-endian; a place is counted from the beginning.
 *
 *   file       "UNOIDL", ff, 00, place and size of the root map, anything, entities and maps
 *   map        for each entry, by name: place of its name, place of its entity
 *   module     00, number of entries, map
 *   interface  05, bases (name), optional bases, attributes, methods
 *   method     name, type of the result, parameters (00 for "in", name, type), exceptions
 *   name       in a map ended by 00; elsewhere its length and its letters, or 80000000 + place of an earlier one
 *
 * Source: LibreOffice 7.4, unoidl/source/unoidlprovider.cxx, its reader; a test compares with what `unoidl-write` writes.
 */
import { ofCells, type Service } from './service.ts';

const MAGIC = Buffer.from('UNOIDL\xff\0', 'latin1');
const MODULE = 0;
const INTERFACE = 5;
const IN = 0;
const EARLIER = 0x80000000;
const BASE = 'com.sun.star.uno.XInterface';
const ANYTHING = 'any';
/** The program hands its document over in a parameter of this type, which no formula gives. */
const DOCUMENT = { id: 'document', type: 'com.sun.star.beans.XPropertySet' };
const CELLS = 'com.sun.star.table.XCellRange';
/** By rows; every result comes so, also a single value. */
const RESULT = '[][]any';

interface Entry {
  readonly name: string;
  readonly at: number;
}

/** The library of the services' interfaces; `module` is the name of their module, `org.example`. */
export function typeLibrary(module: string, services: readonly Service[]): Buffer {
  const out = new Writer();
  const interfaces = services.toSorted(byName((s) => s.interface)).map((s): Entry => {
    const at = out.at;
    out.interface(s);
    return { name: s.interface, at };
  });
  const root = module.split('.').reduceRight((entries: readonly Entry[], name): readonly Entry[] => {
    return [{ name, at: out.module(entries) }];
  }, interfaces);
  return out.finished(out.map(root), root.length);
}

class Writer {
  private readonly pieces: Buffer[] = [];
  private readonly earlier = new Map<string, number>();
  at = MAGIC.length + 8;

  interface({ methods }: Service): void {
    this.byte(INTERFACE);
    this.number(1);
    this.name(BASE);
    this.number(0);
    this.number(0);
    this.number(methods.length);
    for (const method of methods) {
      const given = method.parameters.map((p) => ({ id: p.id, type: p.ofCells ? CELLS : ANYTHING }));
      const all = ofCells(method) ? [DOCUMENT, ...given] : given;
      this.name(method.id);
      this.name(RESULT);
      this.number(all.length);
      for (const p of all) {
        this.byte(IN);
        this.name(p.id);
        this.name(p.type);
      }
      this.number(0);
    }
  }

  module(entries: readonly Entry[]): number {
    const names = this.names(entries);
    const { at } = this;
    this.byte(MODULE);
    this.number(entries.length);
    this.places(entries, names);
    return at;
  }

  map(entries: readonly Entry[]): number {
    const names = this.names(entries);
    const { at } = this;
    this.places(entries, names);
    return at;
  }

  finished(root: number, size: number): Buffer {
    const head = Buffer.alloc(8);
    head.writeUInt32LE(root, 0);
    head.writeUInt32LE(size, 4);
    return Buffer.concat([MAGIC, head, ...this.pieces]);
  }

  private names(entries: readonly Entry[]): readonly number[] {
    return entries.map(({ name }) => {
      const { at } = this;
      this.put(Buffer.from(`${name}\0`, 'latin1'));
      return at;
    });
  }

  private places(entries: readonly Entry[], names: readonly number[]): void {
    for (const [i, { at }] of entries.entries()) {
      this.number(names[i]!);
      this.number(at);
    }
  }

  private name(text: string): void {
    const before = this.earlier.get(text);
    if (before !== undefined) {
      this.number(EARLIER + before);
      return;
    }
    this.earlier.set(text, this.at);
    this.number(text.length);
    this.put(Buffer.from(text, 'latin1'));
  }

  private byte(value: number): void {
    this.put(Buffer.from([value]));
  }

  private number(value: number): void {
    const bytes = Buffer.alloc(4);
    bytes.writeUInt32LE(value);
    this.put(bytes);
  }

  private put(bytes: Buffer): void {
    this.pieces.push(bytes);
    this.at += bytes.length;
  }
}

const byName =
  <T>(name: (of: T) => string) =>
  (a: T, b: T): number =>
    name(a) < name(b) ? -1 : 1;
