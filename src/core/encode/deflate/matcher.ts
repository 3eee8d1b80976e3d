/**
 * Raw deflate of the filtered rows of a woven sheet. It favours speed over size, and uses one of two searches for
 * repeats.
 */
import { BitWriter } from './bit-writer.ts';
import type { Block } from './blocks.ts';
import { emptyBlock, roomFor, writeFlush } from './blocks.ts';
import type { Stretch } from './repeats.ts';
import { BLOCK_SYMBOLS, MARGIN, TAIL } from './repeats.ts';
import { searchFar } from './search-far.ts';
import { likelyRib, searchNear } from './search-near.ts';

export type Search = 'near' | 'far';

/** Raw deflate of `raw`, ended by a sync flush. No match reaches before its first byte. */
export const deflateRows = (raw: Uint8Array, search: Search): Uint8Array<ArrayBuffer> => {
  const stretch = layOut(raw);
  if (search === 'near') searchNear(stretch, likelyRib(stretch));
  else searchFar(stretch);
  writeFlush(stretch.out);
  return stretch.out.bytes.slice(0, stretch.out.at);
};

/**
 * Buffers kept from call to call and grown when needed: fresh memory for every band costs up to a tenth of the
 * search. No call can see what an earlier one left in them.
 */
let rooms: { bytes: Uint8Array; view: DataView; out: BitWriter; block: Block } | undefined;

const layOut = (raw: Uint8Array): Stretch => {
  const end = MARGIN + raw.length;
  if (rooms === undefined || rooms.bytes.length < end + TAIL) {
    const bytes = new Uint8Array(end + TAIL);
    rooms = {
      bytes,
      view: new DataView(bytes.buffer),
      out: new BitWriter(roomFor(raw.length)),
      block: rooms?.block ?? emptyBlock(BLOCK_SYMBOLS),
    };
  }
  rooms.bytes.set(raw, MARGIN);
  rooms.bytes.fill(0, end, end + TAIL);
  rooms.out.reset();
  return { ...rooms, end };
};
