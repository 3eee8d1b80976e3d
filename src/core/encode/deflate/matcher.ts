/**
 * Raw deflate of the filtered rows of a woven sheet. It favours speed over size, and uses one of two searches for
 * repeats.
 */
import { kernels, roomBytes } from '../../numeric/kernels.ts';
import { BitWriter } from './bit-writer.ts';
import { openBlock, writeBlock, writeFlush } from './blocks.ts';
import type { DeflateRooms } from './rooms.ts';
import { FARTHEST_RIB, forgetSeen, layDeflate } from './rooms.ts';

export type Search = 'near' | 'far';

/** Raw deflate of `raw`, ended by a sync flush. No match reaches before its first byte. */
export const deflateRows = (raw: Uint8Array, search: Search): Uint8Array<ArrayBuffer> => {
  const rooms = layDeflate(raw.length);
  roomBytes(rooms.first, raw.length).set(raw);
  return deflateLaid(rooms, search);
};

/** The same of what has been put into its room already. */
export const deflateLaid = (rooms: DeflateRooms, search: Search): Uint8Array<ArrayBuffer> => {
  const { first, end, pairs, counts, out } = rooms;
  const fill = search === 'near' ? nearFiller(rooms) : farFiller(rooms);
  const { buffer } = kernels().memory;
  const writer = new BitWriter(buffer, out);
  const block = openBlock(buffer, rooms);
  for (let at = first; at < end;) {
    const from = at;
    at = fill(at, pairs, counts);
    writeBlock(writer, block, from, at);
  }
  writeFlush(writer);
  return roomBytes(out, writer.at).slice();
};

type Filler = (at: number, pairs: number, counts: number) => number;

const nearFiller = ({ first, end }: DeflateRooms): Filler => {
  const { searchNear, likelyRib } = kernels();
  const rib = likelyRib(first, end, FARTHEST_RIB);
  return (at, pairs, counts) => searchNear(first, at, end, rib, pairs, counts);
};

const farFiller = (rooms: DeflateRooms): Filler => {
  const { first, end, seen } = rooms;
  const { searchFar } = kernels();
  forgetSeen(rooms);
  return (at, pairs, counts) => searchFar(first, at, end, seen, pairs, counts);
};
