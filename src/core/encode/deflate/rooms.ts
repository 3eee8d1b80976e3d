/** Where the bytes to deflate, the block that is being filled, and what is written lie in the kernels' memory. */
import { kernels, layRooms } from '../../numeric/kernels.ts';

/** Bytes before the first that a search may read but never match. */
const MARGIN = 256;
/** Zero bytes after the last that a search may read. */
const TAIL = 64;
/**
 * Literals and matches in a block: few enough for its codes to follow the picture, enough for its header to stay a
 * small share.
 */
const BLOCK_SYMBOLS = 32768;
/** Distances at which the rib is looked for. */
export const FARTHEST_RIB = MARGIN;

/** Addresses; what lies there is described in workers/kernels/repeats.ts, search-far.ts and body.ts. */
export interface DeflateRooms {
  /** The first byte to deflate, and the one after the last. */
  readonly first: number;
  readonly end: number;
  readonly pairs: number;
  readonly counts: number;
  readonly seen: number;
  readonly codes: number;
  readonly out: number;
  /** What the caller asked for beside these. */
  readonly beside: number;
}

/** Numbers in `counts`: four tables of plain bytes, lengths, distance codes, and how many pairs there are. */
export const LENGTHS_AT = 4 * 256;
export const DISTANCES_AT = LENGTHS_AT + 256;
export const PAIRS_AT = DISTANCES_AT + 32;
export const COUNTS = PAIRS_AT + 1;
/** Numbers in `codes`: bytes, lengths, distance codes. */
export const LENGTH_CODES_AT = 256;
export const DISTANCE_CODES_AT = LENGTH_CODES_AT + 256;
const CODES = DISTANCE_CODES_AT + 32;
/** Bytes in `seen`. */
const SEEN_BYTES = 4 * (2 * 65536 + 256);

/** Upper limit, in bytes, of the blocks for this many bytes: stored, with all headers and the flush. */
const roomFor = (rawLength: number): number => rawLength + (rawLength >> 8) + 1024;

/**
 * Lays out rooms for one piece. What the kernels' memory held before is gone.
 * @param rawLength bytes to deflate; the caller puts them at `first`.
 * @param beside bytes to lay out for the caller.
 */
export const layDeflate = (rawLength: number, beside = 0): DeflateRooms => {
  const [own, bytes, pairs, counts, seen, codes, out] = layRooms(
    beside,
    MARGIN + rawLength + TAIL,
    8 * (BLOCK_SYMBOLS + 1),
    4 * COUNTS,
    SEEN_BYTES,
    4 * CODES,
    roomFor(rawLength),
  );
  const first = bytes + MARGIN;
  const end = first + rawLength;
  const all = new Uint8Array(kernels().memory.buffer);
  // No call can see what an earlier one left: the same piece always makes the same bytes.
  all.fill(0, end, end + TAIL);
  all.fill(0, counts, counts + 4 * COUNTS);
  return { first, end, pairs, counts, seen, codes, out, beside: own };
};

/** Empties the table of the wide search. */
export const forgetSeen = ({ seen }: DeflateRooms): void => {
  new Uint8Array(kernels().memory.buffer, seen, SEEN_BYTES).fill(0);
};
