/**
 * The heavy loops, compiled from workers/kernels, and room in the memory that they work on. Each thread has one
 * instance, which whoever starts the thread loads and hands over here: this folder knows no network and no files.
 */

/** What the module exports. Arguments are described where the kernels are written. */
export interface Kernels {
  readonly memory: { readonly buffer: ArrayBuffer; grow(pages: number): number };
  roomFrom(): number;
  proofRow(
    line: number,
    start: number,
    at: number,
    share: number,
    pixels: number,
    table: number,
    pass: number,
    out: number,
    step: number,
  ): void;
  weaveRow(
    row: number,
    start: number,
    at: number,
    weight: number,
    dots: number,
    into: number,
  ): void;
  blendRow(
    upper: number,
    lower: number,
    part: number,
    red: number,
    green: number,
    blue: number,
    dots: number,
    out: number,
  ): void;
  mixRow(rows: number, shares: number, count: number, samples: number, into: number): void;
  stretchRow(
    line: number,
    steps: number,
    next: number,
    dots: number,
    red: number,
    green: number,
    blue: number,
    out: number,
  ): void;
  lightRow(codes: number, channels: number, table: number, width: number, line: number): void;
  averageRow(
    line: number,
    start: number,
    source: number,
    weight: number,
    paper: number,
    samples: number,
    into: number,
  ): void;
  addRow(row: number, share: number, samples: number, sum: number): void;
  roundRow(sum: number, samples: number, out: number): void;
  softenRow(source: number, widths: number, halves: number, samples: number, into: number): void;
  convertDots(
    codes: number,
    dots: number,
    places: number,
    across: number,
    whole: number,
    table: number,
    channels: number,
    out: number,
  ): void;
  filterRows(
    rows: number,
    rowBytes: number,
    pixel: number,
    count: number,
    hasAbove: number,
    kind: number,
    numbered: number,
    out: number,
  ): void;
  adler32(at: number, length: number, before: number): number;
  likelyRib(first: number, end: number, most: number): number;
  searchNear(
    first: number,
    at: number,
    end: number,
    rib: number,
    pairs: number,
    counts: number,
  ): number;
  searchFar(
    first: number,
    at: number,
    end: number,
    seen: number,
    pairs: number,
    counts: number,
  ): number;
  writeBody(
    from: number,
    pairs: number,
    count: number,
    codes: number,
    out: number,
    held: number,
  ): number;
  startsRow(
    across: number,
    along: number,
    columns: number,
    rows: number,
    row: number,
    places: number,
    start: number,
    entries: number,
  ): void;
  wholeRow(
    pictures: number,
    y: number,
    places: number,
    start: number,
    entries: number,
    climbs: number,
    out: number,
    scratch: number,
  ): void;
  refineRow(pictures: number, y: number, places: number, out: number, scratch: number): void;
  slopeRow(
    sequence: number,
    y: number,
    places: number,
    ranges: number,
    out: number,
    scratch: number,
  ): void;
}

let loaded: Kernels | undefined;

export const useKernels = (kernels: Kernels): void => {
  loaded = kernels;
};

/** @throws Error in a thread that was given none. */
export const kernels = (): Kernels => {
  if (loaded === undefined) throw new Error('The kernels are not loaded in this thread.');
  return loaded;
};

/** Bytes of a page of memory (WebAssembly core specification, 4.2.8). */
const PAGE = 65536;
/** As wide as the widest load: a room begins at a multiple of this. */
const ALIGNED = 16;
/** Kernels may read and write this far beyond a room's end: they take several numbers at once. */
const BEYOND = 64;

/**
 * Lays out rooms in the kernels' memory, which grows when they do not fit and keeps its size. Whatever a call
 * before this laid out is gone, and so are views of it: take views after this, and copy out what stays.
 * @param sizes of the rooms, bytes
 * @returns the address of each. What lies in it is undefined.
 * @throws RangeError where the memory cannot grow so far.
 */
export const layRooms = <Sizes extends readonly number[]>(
  ...sizes: Sizes
): { [Room in keyof Sizes]: number } => {
  const { memory, roomFrom } = kernels();
  let end = roomFrom();
  const rooms = sizes.map((size) => {
    const at = Math.ceil(end / ALIGNED) * ALIGNED;
    end = at + size + BEYOND;
    return at;
  });
  const missing = end - memory.buffer.byteLength;
  if (missing > 0) memory.grow(Math.ceil(missing / PAGE));
  return rooms as { [Room in keyof Sizes]: number };
};

/** The bytes of a room. */
export const roomBytes = (at: number, length: number): Uint8Array<ArrayBuffer> =>
  new Uint8Array(kernels().memory.buffer, at, length);

/** The numbers of a room. */
export const roomFloats = (at: number, length: number): Float32Array<ArrayBuffer> =>
  new Float32Array(kernels().memory.buffer, at, length);

/** Whole numbers of 32 bits in a room; addresses among them may be those of what is not laid. */
export const roomWords = (at: number, length: number): Int32Array<ArrayBuffer> =>
  new Int32Array(kernels().memory.buffer, at, length);
