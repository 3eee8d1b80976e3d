/** Ways in which a file goes wrong: by accident, and by intent. */
import { crc32 } from 'node:zlib';
import type { Random } from './random.ts';

type Bytes = Uint8Array<ArrayBuffer>;

/** Numbers at the edges of what fields hold. */
const EDGES = [
  0, 1, 2, 3, 7, 8, 255, 256, 257, 0x7fff, 0x8000, 0xffff, 0x10000, 20000, 20001, 100000, 0xffffff,
  0x1000000, 0x7ffffffe, 0x7fffffff, 0x80000000, 0x80000001, 0xfffffffe, 0xffffffff,
];

const joined = (...parts: Uint8Array[]): Bytes => {
  const out = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
};

/** Half of all places lie in the first 512 bytes, where headers are. */
const placeIn = (bytes: Bytes, random: Random): number =>
  random.below(random.below(2) === 0 ? Math.min(512, bytes.length) : bytes.length);

const flipBits = (bytes: Bytes, random: Random): Bytes => {
  for (let n = 1 + random.below(12); n > 0; n -= 1)
    bytes[placeIn(bytes, random)]! ^= 1 << random.below(8);
  return bytes;
};

const writeEdge = (bytes: Bytes, random: Random): Bytes => {
  const view = new DataView(bytes.buffer);
  for (let n = 1 + random.below(3); n > 0; n -= 1) {
    const width = random.pick([1, 2, 4]);
    const at = placeIn(bytes, random);
    if (at + width > bytes.length) continue;
    const value = random.pick(EDGES);
    const little = random.below(2) === 0;
    if (width === 1) view.setUint8(at, value & 255);
    else if (width === 2) view.setUint16(at, value & 65535, little);
    else view.setUint32(at, value, little);
  }
  return bytes;
};

const cut = (bytes: Bytes, random: Random): Bytes => bytes.slice(0, random.below(bytes.length));

const dropRange = (bytes: Bytes, random: Random): Bytes => {
  const from = placeIn(bytes, random);
  const to = Math.min(bytes.length, from + 1 + random.below(200));
  return joined(bytes.subarray(0, from), bytes.subarray(to));
};

const repeatRange = (bytes: Bytes, random: Random): Bytes => {
  const from = placeIn(bytes, random);
  const piece = bytes.subarray(from, from + 1 + random.below(300));
  const times = Array.from({ length: 1 + random.below(20) }, () => piece);
  return joined(bytes.subarray(0, from), ...times, bytes.subarray(from));
};

const fillRange = (bytes: Bytes, random: Random): Bytes => {
  const from = placeIn(bytes, random);
  bytes.fill(random.pick([0, 255, 65, 128]), from, from + 1 + random.below(400));
  return bytes;
};

const growTail = (bytes: Bytes, random: Random): Bytes =>
  joined(bytes, new Uint8Array(random.below(5000)).fill(random.below(256)));

/** The head of one file and the rest of another. */
const splice = (bytes: Bytes, random: Random, other: Bytes): Bytes =>
  joined(bytes.subarray(0, random.below(bytes.length)), other.subarray(random.below(other.length)));

const ways = [
  flipBits,
  flipBits,
  writeEdge,
  writeEdge,
  writeEdge,
  cut,
  dropRange,
  repeatRange,
  fillRange,
  growTail,
  splice,
];

const isPng = (bytes: Bytes): boolean =>
  [0x89, 0x50, 0x4e, 0x47].every((byte, i) => bytes[i] === byte);

/** Chunks get the checksums of what they hold now: a forger would see to that. */
export const mendPng = (bytes: Bytes): Bytes => {
  const view = new DataView(bytes.buffer);
  for (let at = 8; at + 12 <= bytes.length;) {
    const length = view.getUint32(at);
    if (at + 12 + length > bytes.length) break;
    view.setUint32(at + 8 + length, crc32(bytes.subarray(at + 4, at + 8 + length)));
    at += 12 + length;
  }
  return bytes;
};

/** A broken copy of `file`, by one to three ways. `other` lends its bytes. */
export const mutate = (file: Uint8Array, random: Random, other: Uint8Array): Bytes => {
  let bytes: Bytes = Uint8Array.from(file);
  for (let n = 1 + random.below(3); n > 0 && bytes.length > 0; n -= 1)
    bytes = random.pick(ways)(bytes, random, Uint8Array.from(other));
  return isPng(bytes) && random.below(4) > 0 ? mendPng(bytes) : bytes;
};
