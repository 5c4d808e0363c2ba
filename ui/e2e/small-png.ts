// A PNG (ISO/IEC 15948) in at most 256 colours: a fraction of the bytes, and of a screen nothing that is seen is lost.
import { deflateSync, inflateSync } from 'node:zlib';

const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);

const checks = Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit += 1) value = value & 1 ? 0xedb88320 ^ (value >>> 1) : value >>> 1;
  return value;
});
/** Annex D of the standard. */
const checkOf = (bytes: Buffer): number =>
  (bytes.reduce((sum, byte) => (checks[(sum ^ byte) & 255] ?? 0) ^ (sum >>> 8), -1) ^ -1) >>> 0;

function chunk(name: string, data: Buffer): Buffer {
  const named = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  check.writeUInt32BE(checkOf(named));
  return Buffer.concat([length, named, check]);
}

function chunksOf(png: Buffer): { name: string; data: Buffer }[] {
  const found: { name: string; data: Buffer }[] = [];
  for (let at = signature.length; at < png.length;) {
    const length = png.readUInt32BE(at);
    found.push({
      name: png.toString('latin1', at + 4, at + 8),
      data: png.subarray(at + 8, at + 8 + length),
    });
    at += 12 + length;
  }
  return found;
}

/** Clause 9.4: of left, above, and above left the one nearest to left + above - above left. */
function nearest(left: number, above: number, corner: number): number {
  const aim = left + above - corner;
  const [l, a, c] = [Math.abs(aim - left), Math.abs(aim - above), Math.abs(aim - corner)];
  return l <= a && l <= c ? left : a <= c ? above : corner;
}

interface Pixels {
  width: number;
  height: number;
  /** How many bytes of `bytes` a pixel has: red, green, blue, and perhaps how opaque. */
  size: number;
  bytes: Buffer;
}

function pixelsOf(png: Buffer): Pixels {
  const chunks = chunksOf(png);
  const head = chunks[0]?.data ?? Buffer.alloc(13);
  const [width, height, size] = [head.readUInt32BE(0), head.readUInt32BE(4), head[9] === 6 ? 4 : 3];
  const packed = inflateSync(
    Buffer.concat(chunks.filter(({ name }) => name === 'IDAT').map(({ data }) => data)),
  );
  const row = width * size;
  const bytes = Buffer.alloc(row * height);
  for (let y = 0; y < height; y += 1) {
    const filter = packed[y * (row + 1)];
    for (let x = 0; x < row; x += 1) {
      const at = y * row + x;
      const left = x < size ? 0 : (bytes[at - size] ?? 0);
      const above = y === 0 ? 0 : (bytes[at - row] ?? 0);
      const corner = x < size || y === 0 ? 0 : (bytes[at - row - size] ?? 0);
      const guess = [0, left, above, (left + above) >> 1, nearest(left, above, corner)][filter ?? 0] ?? 0;
      bytes[at] = (packed[y * (row + 1) + 1 + x] ?? 0) + guess;
    }
  }
  return { width, height, size, bytes };
}

type Colour = [number, number, number];
/** Colours as near as this are one. */
const keyOf = ([r, g, b]: Colour): number => ((r >> 3) << 10) | ((g >> 3) << 5) | (b >> 3);

/** The colours that most pixels have; every pixel by the nearest of them. */
function paletteOf({ bytes, size }: Pixels): { palette: Colour[]; indices: Buffer } {
  const at = (pixel: number): Colour => [...bytes.subarray(pixel * size, pixel * size + 3)] as Colour;
  const counts = new Map<number, { colour: Colour; count: number }>();
  const pixels = bytes.length / size;
  for (let pixel = 0; pixel < pixels; pixel += 1) {
    const colour = at(pixel);
    const one = counts.get(keyOf(colour)) ?? { colour, count: 0 };
    one.count += 1;
    counts.set(keyOf(colour), one);
  }
  const ranked = [...counts.values()].sort((a, b) => b.count - a.count);
  const palette = ranked.slice(0, 256).map(({ colour }) => colour);
  const far = (a: Colour, b: Colour): number => a.reduce((sum, one, i) => sum + (one - (b[i] ?? 0)) ** 2, 0);
  const places = new Map<number, number>();
  for (const { colour } of ranked) {
    let best = 0;
    palette.forEach((one, index) => {
      if (far(one, colour) < far(palette[best] ?? one, colour)) best = index;
    });
    places.set(keyOf(colour), best);
  }
  const indices = Buffer.alloc(pixels);
  for (let pixel = 0; pixel < pixels; pixel += 1) indices[pixel] = places.get(keyOf(at(pixel))) ?? 0;
  return { palette, indices };
}

/** The same picture in at most 256 colours. `png`: eight bits for each of three or four channels, not interlaced. */
export function smallPng(png: Buffer): Buffer {
  const pixels = pixelsOf(png);
  const { palette, indices } = paletteOf(pixels);
  const { width, height } = pixels;
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 3, 0, 0, 0], 8);
  const rows = Array.from({ length: height }, (_, y) =>
    Buffer.concat([Buffer.from([0]), indices.subarray(y * width, (y + 1) * width)]),
  );
  return Buffer.concat([
    signature,
    chunk('IHDR', head),
    chunk('PLTE', Buffer.from(palette.flat())),
    chunk('IDAT', deflateSync(Buffer.concat(rows), { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}
