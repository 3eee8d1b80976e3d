/**
 * PNG out and in. Reading is fast-png's. Writing is done here because fast-png 8 writes every row unfiltered, which
 * doubles the size of the depth maps, and cannot say that colours are sRGB; sections cited are of the W3C PNG specification, third edition.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { deflateSync } from 'node:zlib';
import { decode } from 'fast-png';

const CRC = new Uint32Array(256).map((_, n) => {
  for (let k = 0; k < 8; k++) n = n & 1 ? 0xedb88320 ^ (n >>> 1) : n >>> 1;
  return n >>> 0;
});

/** Section 5.3: length, type, data, and a check value over type and data. */
function chunk(type, data) {
  const out = Buffer.alloc(data.length + 12);
  out.writeUInt32BE(data.length, 0);
  out.write(type, 4, 'latin1');
  out.set(data, 8);
  let crc = 0xffffffff;
  for (let i = 4; i < data.length + 8; i++) crc = CRC[(crc ^ out[i]) & 255] ^ (crc >>> 8);
  out.writeUInt32BE((crc ^ 0xffffffff) >>> 0, data.length + 8);
  return out;
}

function paeth(a, b, c) {
  const p = a + b - c;
  const pa = Math.abs(p - a);
  const pb = Math.abs(p - b);
  const pc = Math.abs(p - c);
  return pa <= pb && pa <= pc ? a : pb <= pc ? b : c;
}

/** Section 9.2 and the advice of 12.7: for each row the filter whose bytes, read as signed, are smallest in sum. */
function filterRows(bytes, rowBytes, height, step, filters) {
  const out = new Uint8Array((rowBytes + 1) * height);
  const trial = Array.from({ length: 5 }, () => new Uint8Array(rowBytes));
  for (let row = 0; row < height; row++) {
    const at = row * rowBytes;
    let best = 0;
    let bestSum = Infinity;
    for (const filter of filters) {
      const line = trial[filter];
      let sum = 0;
      for (let i = 0; i < rowBytes; i++) {
        const a = i >= step ? bytes[at + i - step] : 0;
        const b = row ? bytes[at - rowBytes + i] : 0;
        const c = row && i >= step ? bytes[at - rowBytes + i - step] : 0;
        const guess =
          filter === 0
            ? 0
            : filter === 1
              ? a
              : filter === 2
                ? b
                : filter === 3
                  ? (a + b) >> 1
                  : paeth(a, b, c);
        const left = (bytes[at + i] - guess) & 255;
        line[i] = left;
        sum += left < 128 ? left : 256 - left;
      }
      if (sum < bestSum) {
        bestSum = sum;
        best = filter;
      }
    }
    out[at + row] = best;
    out.set(trial[best], at + row + 1);
  }
  return out;
}

/**
 * data, row-major: Uint8Array of palette numbers (with palette: [r, g, b] sRGB codes each), Uint8Array of RGB sRGB codes,
 * or Uint16Array of grey.
 * Palette numbers are left unfiltered, as section 12.7 advises: their differences mean nothing.
 */
export function writePng(path, { width, height, data, palette }) {
  const wide = data instanceof Uint16Array;
  const pixelBytes = wide ? 2 : palette ? 1 : 3;
  const rowBytes = width * pixelBytes;
  let bytes = data;
  if (wide) {
    bytes = new Uint8Array(rowBytes * height);
    data.forEach((value, i) => {
      bytes[2 * i] = value >> 8;
      bytes[2 * i + 1] = value & 255;
    });
  }
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set(wide ? [16, 0, 0, 0, 0] : [8, palette ? 3 : 2, 0, 0, 0], 8);
  const rows = filterRows(bytes, rowBytes, height, pixelBytes, palette ? [0] : [0, 1, 2, 3, 4]);
  const packed = deflateSync(rows, { level: 9, memLevel: 8 });
  writeFileSync(
    path,
    Buffer.concat([
      Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]),
      chunk('IHDR', header),
      ...(wide ? [] : [chunk('sRGB', Buffer.from([0]))]),
      ...(palette ? [chunk('PLTE', Buffer.from(palette.flat()))] : []),
      chunk('IDAT', packed),
      chunk('IEND', Buffer.alloc(0)),
    ]),
  );
}

export const readPng = (path) => decode(readFileSync(path));
