// @ts-check
/**
 * Sheets of two thousand million dots, woven once through pool, worker service and binder: a TIFF that passes 4 GiB and so
 * becomes a BigTIFF, and a PNG. Each is opened by two readers that share no code, which must agree on every row (by its
 * CRC-32) and with rows woven anew at places all over the sheet. Under 7 GB of disk at a time.
 *
 * `GIGADOTS=0.1 npm test -- wider large-sheets` for a smaller run; such a TIFF is a plain one.
 */
import assert from 'node:assert/strict';
import { createReadStream, mkdtempSync, rmSync, statSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { after, before, describe, it } from 'node:test';
import { crc32, createInflate } from 'node:zlib';
import { fromFile } from 'geotiff';
import sharp from 'sharp';
import { fileSink } from '../bench/shared/file-sink.mjs';
import { openModules } from '../bench/shared/modules.mjs';

const DOTS = Number(process.env['GIGADOTS'] ?? 2) * 1e9;
const WIDTH = 36_000;
const HEIGHT = Math.ceil(DOTS / WIDTH);
const ROW_BYTES = WIDTH * 3;
const SLOTS = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11];

const work = mkdtempSync(join(tmpdir(), 'tiltloom-large-'));
/** @type {Awaited<ReturnType<typeof openModules>>} */
let modules;

/** @type {import('../../src/core/weave/sheet-spec.ts').SheetSpec} */
const sheet = {
  widthDots: WIDTH,
  heightDots: HEIGHT,
  acrossDpi: 720,
  alongDpi: 720,
  ribs: 'upright',
  viewingPitchMm: 0.42391,
  lensPitchMm: 0.42391,
  offsetMm: 0,
  viewSlots: SLOTS.length,
  columns: 'blended',
};

/**
 * Prepared frames, 16-bit linear light.
 * @param {(at: number, view: number) => number} light of each sample; what is over 65535 is cut off.
 */
const framesOf = async (light) => {
  const { lenticulesOver } = await modules.load('/src/core/weave/column-map.ts');
  // Few rows of the sheet between two of the frames: more would resemble each other, and shrink.
  const [columns, rows] = [lenticulesOver(sheet).count, Math.ceil(HEIGHT / 14)];
  return SLOTS.map((view) => ({
    columns,
    rows,
    pixels: Uint16Array.from({ length: columns * rows * 3 }, (_, at) => light(at, view)),
  }));
};
/** Nothing repeats, so that the file is as large as its dots. */
const noise = (/** @type {number} */ at, /** @type {number} */ view) => {
  const mixed = Math.imul((at + 1) ^ ((view + 1) << 27), 0x85ebca6b);
  return Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35) >>> 16;
};
/** Nearly all repeats. */
const drift = (/** @type {number} */ at, /** @type {number} */ view) => (at >> 9) + view * 9000;

/**
 * @param {'tiff' | 'png'} fileType
 * @param {Awaited<ReturnType<typeof framesOf>>} frames
 */
const weave = async (fileType, frames) => {
  const { weaveSheet } = await modules.load('/src/calls/weave.ts');
  const path = join(work, `sheet.${fileType}`);
  const outcome = await weaveSheet(
    {
      sheet,
      fileType,
      stack: {
        slots: SLOTS,
        frames: frames.map(({ pixels, ...size }) => ({ ...size, pixels: new Blob([pixels]) })),
      },
      info: { width: WIDTH, height: HEIGHT, horizontalDpi: 720, verticalDpi: 720 },
    },
    await fileSink(path),
    { signal: new AbortController().signal, report: () => undefined },
  );
  assert.deepEqual(outcome, { done: true, value: { byteLength: statSync(path).size } });
  return path;
};

/** Checksums of rows woven anew, one alone, by their number. */
const wovenAnew = async (/** @type {Awaited<ReturnType<typeof framesOf>>} */ frames) => {
  const { weaveRows } = await modules.load('/src/core/weave/band.ts');
  const { columnMap } = await modules.load('/src/core/weave/column-map.ts');
  const map = columnMap(sheet);
  const stack = { slots: SLOTS, frames: frames.map((frame) => ({ ...frame, firstRow: 0 })) };
  const places = [0, 31, 32, 63, 64, HEIGHT - 2, HEIGHT - 1];
  for (let row = 0; row < HEIGHT; row += Math.ceil(HEIGHT / 60)) places.push(row);
  return new Map(
    places.map((firstRow) => [
      firstRow,
      crc32(weaveRows(sheet, map, stack, { firstRow, rowCount: 1 })),
    ]),
  );
};

/** CRC-32 of each row, from pieces of any length. */
const rowSums = async (/** @type {AsyncIterable<Uint8Array>} */ pieces) => {
  /** @type {number[]} */
  const sums = [];
  let sum = 0;
  let filled = 0;
  for await (const piece of pieces)
    for (let at = 0; at < piece.length;) {
      const part = piece.subarray(at, at + ROW_BYTES - filled);
      sum = crc32(part, sum);
      filled += part.length;
      at += part.length;
      if (filled < ROW_BYTES) continue;
      sums.push(sum);
      [sum, filled] = [0, 0];
    }
  assert.equal(filled, 0, 'a row breaks off');
  return sums;
};

const STRETCH = 512;
/** @param {(top: number, bottom: number) => Promise<Uint8Array>} read */
async function* byStretches(read) {
  for (let top = 0; top < HEIGHT; top += STRETCH)
    yield await read(top, Math.min(HEIGHT, top + STRETCH));
}

const tiffByLibtiff = (/** @type {string} */ path) =>
  rowSums(
    byStretches((top, bottom) =>
      sharp(path, { limitInputPixels: false })
        .extract({ left: 0, top, width: WIDTH, height: bottom - top })
        .raw()
        .toBuffer(),
    ),
  );

const tiffByGeotiff = async (/** @type {string} */ path) => {
  const image = await (await fromFile(path)).getImage();
  assert.deepEqual([image.getWidth(), image.getHeight()], [WIDTH, HEIGHT]);
  return rowSums(
    byStretches(async (top, bottom) => {
      const window = [0, top, WIDTH, bottom];
      return /** @type {Uint8Array} */ (await image.readRasters({ window, interleave: true }));
    }),
  );
};

/** libvips unpacks it onto the disk, in its own format: 64 bytes, the dots, and some words on them. */
const pngByLibspng = async (/** @type {string} */ path) => {
  const unpacked = join(work, 'dots.v');
  await sharp(path, { limitInputPixels: false, sequentialRead: true }).toFile(unpacked);
  const sums = await rowSums(
    createReadStream(unpacked, { start: 64, end: 63 + HEIGHT * ROW_BYTES }),
  );
  rmSync(unpacked);
  return sums;
};

/** The data of its IDAT chunks (W3C PNG, 5.3). */
async function* idatOf(/** @type {string} */ path) {
  const handle = await open(path);
  const head = new DataView(new ArrayBuffer(8));
  for (let at = 8; (await handle.read(head, 0, 8, at)).bytesRead === 8;) {
    const length = head.getUint32(0);
    if (head.getUint32(4) === 0x49444154) {
      const data = Buffer.alloc(length);
      await handle.read(data, 0, length, at + 8);
      yield data;
    }
    at += length + 12;
  }
  await handle.close();
}

/** PNG's predictor of type 4 (9.4). */
const paeth = (
  /** @type {number} */ left,
  /** @type {number} */ up,
  /** @type {number} */ corner,
) => {
  const toLeft = Math.abs(up - corner);
  const toUp = Math.abs(left - corner);
  const toCorner = Math.abs(left + up - 2 * corner);
  if (toLeft <= toUp && toLeft <= toCorner) return left;
  return toUp <= toCorner ? up : corner;
};

/** What PNG's filters took away, laid on again (9.2): of types 1, 2 and 4, which are those we write. */
const unfilter = (
  /** @type {number | undefined} */ type,
  /** @type {Uint8Array} */ row,
  /** @type {Uint8Array} */ above,
) => {
  const at = (/** @type {Uint8Array} */ bytes, /** @type {number} */ i) => bytes[i] ?? 0;
  if (type === 2) for (let i = 0; i < row.length; i += 1) row[i] = at(row, i) + at(above, i);
  else if (type === 1) for (let i = 3; i < row.length; i += 1) row[i] = at(row, i) + at(row, i - 3);
  else if (type === 4)
    for (let i = 0; i < row.length; i += 1)
      row[i] = at(row, i) + paeth(at(row, i - 3), at(above, i), at(above, i - 3));
  else assert.equal(type, 0, 'a filter that the studio does not write');
};

const pngByZlib = (/** @type {string} */ path) => {
  async function* rows() {
    let above = new Uint8Array(ROW_BYTES);
    let row = new Uint8Array(ROW_BYTES + 1);
    let filled = 0;
    for await (const piece of Readable.from(idatOf(path)).pipe(createInflate()))
      for (let at = 0; at < piece.length;) {
        const part = piece.subarray(at, at + row.length - filled);
        row.set(part, filled);
        filled += part.length;
        at += part.length;
        if (filled < row.length) continue;
        unfilter(row[0], row.subarray(1), above);
        above = row.subarray(1);
        yield above;
        row = new Uint8Array(ROW_BYTES + 1);
        filled = 0;
      }
    assert.equal(filled, 0, 'a row breaks off');
  }
  return rowSums(rows());
};

before(async () => {
  modules = await openModules();
  const { InProcessWorker } = await modules.load('/tests/contract/in-process-worker.ts');
  const { createWeaveService } = await modules.load('/workers/weave-service.ts');
  Object.assign(globalThis, {
    Worker: class extends InProcessWorker {
      constructor() {
        super(createWeaveService());
      }
    },
  });
});
after(async () => {
  rmSync(work, { recursive: true, force: true });
  await modules.close();
  // The pool's workers of this process listen on.
  setImmediate(() => process.exit());
});

/**
 * @param {string} path
 * @param {Awaited<ReturnType<typeof framesOf>>} frames
 * @param {((path: string) => Promise<number[]>)[]} readers
 */
const checkReaders = async (path, frames, readers) => {
  const want = await wovenAnew(frames);
  const [first, ...others] = await Promise.all(readers.map((read) => read(path)));
  assert.equal(first?.length, HEIGHT);
  for (const sums of others) assert.deepEqual(sums, first);
  for (const [row, sum] of want) assert.equal(first[row], sum, `row ${row}`);
};

describe(`a sheet of ${WIDTH} × ${HEIGHT} dots`, () => {
  it('as TIFF, of a size with its dots: libtiff and geotiff read every row', async () => {
    const frames = await framesOf(noise);
    const path = await weave('tiff', frames);
    const file = await open(path);
    const { buffer } = await file.read(Buffer.alloc(4), 0, 4, 0);
    await file.close();
    // TIFF 6.0, section 2: 42. BigTIFF: 43.
    assert.equal(buffer.readUInt16LE(2), statSync(path).size >= 2 ** 32 ? 43 : 42);
    // At two thousand million dots that is 4.5 GB.
    assert.ok(statSync(path).size > 0.75 * ROW_BYTES * HEIGHT, 'noise was not to shrink so far');
    await checkReaders(path, frames, [tiffByLibtiff, tiffByGeotiff]);
    rmSync(path);
  });

  it('as PNG: libvips and zlib read every row', async () => {
    const frames = await framesOf(drift);
    const path = await weave('png', frames);
    await checkReaders(path, frames, [pngByLibspng, pngByZlib]);
    rmSync(path);
  });
});
