/** Makes a browser's screenshot small: at most 256 colours, as a palette. */
import { crc32, deflateSync, inflateSync } from 'node:zlib';

const SIGNATURE = Buffer.from('89504e470d0a1a0a', 'hex');
const MOST_COLOURS = 256;

/** 8-bit RGB or RGBA without interlacing, as browsers write; see the PNG specification (W3C, third edition), chapters 7, 9 and 11. */
export function smallPng(png: Buffer): Buffer {
  const { width, height, pixels } = decode(png);
  const paletteOf = (bits: number): { readonly colours: readonly number[]; readonly index: Buffer } => {
    const keep = (0xff << (8 - bits)) & 0xff;
    const round = (v: number): number => Math.round((v & keep) * (255 / keep));
    const found = new Map<number, number>();
    const index = Buffer.alloc(width * height);
    for (let i = 0; i < index.length; i++) {
      const colour =
        (round(pixels[3 * i] ?? 0) << 16) | (round(pixels[3 * i + 1] ?? 0) << 8) | round(pixels[3 * i + 2] ?? 0);
      let at = found.get(colour);
      if (at === undefined) found.set(colour, (at = found.size));
      index[i] = at;
    }
    return { colours: [...found.keys()], index };
  };
  let bits = 8;
  let palette = paletteOf(bits);
  while (palette.colours.length > MOST_COLOURS) palette = paletteOf(--bits);
  const rows = Buffer.concat(
    Array.from({ length: height }, (_, y) =>
      Buffer.concat([Buffer.from([0]), palette.index.subarray(y * width, (y + 1) * width)]),
    ),
  );
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([8, 3, 0, 0, 0], 8);
  return Buffer.concat([
    SIGNATURE,
    chunk('IHDR', header),
    chunk('PLTE', Buffer.from(palette.colours.flatMap((c) => [c >> 16, (c >> 8) & 0xff, c & 0xff]))),
    chunk('IDAT', deflateSync(rows, { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function chunk(name: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(data.length);
  const check = Buffer.alloc(4);
  check.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, check]);
}

/** Size and RGB of every pixel. */
export function decode(png: Buffer): { readonly width: number; readonly height: number; readonly pixels: Buffer } {
  if (!png.subarray(0, 8).equals(SIGNATURE)) throw new Error('this is no PNG');
  let header: Buffer = Buffer.alloc(13);
  const data: Buffer[] = [];
  for (let at = 8; at < png.length;) {
    const length = png.readUInt32BE(at);
    const name = png.toString('latin1', at + 4, at + 8);
    const body = png.subarray(at + 8, at + 8 + length);
    if (name === 'IHDR') header = body;
    if (name === 'IDAT') data.push(body);
    at += 12 + length;
  }
  const [width, height] = [header.readUInt32BE(0), header.readUInt32BE(4)];
  const [depth, type, , , interlace] = header.subarray(8);
  const channels = type === 2 ? 3 : type === 6 ? 4 : 0;
  if (depth !== 8 || channels === 0 || interlace !== 0)
    throw new Error('only 8-bit RGB or RGBA without interlacing is read');
  const raw = inflateSync(Buffer.concat(data));
  const stride = width * channels;
  const lines = Buffer.alloc(stride * height);
  for (let y = 0; y < height; y++) {
    const filter = raw[y * (stride + 1)] ?? 0;
    for (let x = 0; x < stride; x++) {
      const left = x < channels ? 0 : (lines[y * stride + x - channels] ?? 0);
      const up = y === 0 ? 0 : (lines[(y - 1) * stride + x] ?? 0);
      const corner = x < channels || y === 0 ? 0 : (lines[(y - 1) * stride + x - channels] ?? 0);
      lines[y * stride + x] = ((raw[y * (stride + 1) + 1 + x] ?? 0) + predicted(filter, left, up, corner)) & 0xff;
    }
  }
  const pixels = channels === 3 ? lines : Buffer.from(lines.filter((_, i) => i % 4 !== 3));
  return { width, height, pixels };
}

function predicted(filter: number, left: number, up: number, corner: number): number {
  switch (filter) {
    case 1:
      return left;
    case 2:
      return up;
    case 3:
      return (left + up) >> 1;
    case 4: {
      const [a, b, c] = [left, up, corner].map((v) => Math.abs(left + up - corner - v)) as [number, number, number];
      return a <= b && a <= c ? left : b <= c ? up : corner;
    }
    default:
      return 0;
  }
}
