/**
 * Huffman codes for deflate: limited length, canonical order, bits reversed for a writer that fills bytes from the
 * lowest bit (RFC 1951, 3.1.1 and 3.2.2).
 */

/**
 * Code lengths for the given frequencies; 0 where a symbol does not occur. At least one symbol gets a code, since
 * deflate cannot write an empty tree; a lone symbol gets a code of 1 bit.
 * @param limit longest code allowed; 2^limit ≥ number of symbols that occur.
 */
export const codeLengths = (frequency: Uint32Array, limit: number): Uint8Array => {
  const order = bySize(frequency);
  const lengths = new Uint8Array(frequency.length);
  if (order.length < 2) {
    lengths[order[0] ?? 0] = 1;
    return lengths;
  }
  const counts = limited(depthCounts(order.map((symbol) => frequency[symbol]!)), limit);
  let at = 0;
  for (let length = limit; length > 0; length -= 1)
    for (let left = counts[length]!; left > 0; left -= 1) lengths[order[at++]!] = length;
  return lengths;
};

/** The symbols that occur, rarest first. */
const bySize = (frequency: Uint32Array): Uint32Array => {
  const keys = new Float64Array(frequency.length);
  let count = 0;
  for (let symbol = 0; symbol < frequency.length; symbol += 1)
    if (frequency[symbol]! > 0) keys[count++] = frequency[symbol]! * 512 + symbol;
  const order = new Uint32Array(count);
  const sorted = keys.subarray(0, count).sort();
  // Plain loops and whole-number bits: this runs for every block.
  for (let i = 0; i < count; i += 1) order[i] = sorted[i]! & 511;
  return order;
};

/**
 * How many leaves an unlimited Huffman tree has at each depth, by the two-queue method: inner nodes are made in
 * rising order, so the next two smallest are always at the front of the leaves or of the inner nodes.
 * @param weight rising, two or more.
 */
const depthCounts = (weight: Uint32Array): Uint32Array => {
  const inner = weight.length - 1;
  const sum = new Float64Array(inner);
  const leafParent = new Uint16Array(weight.length);
  const innerParent = new Uint16Array(inner);
  let leaf = 0;
  let node = 0;
  for (let made = 0; made < inner; made += 1)
    for (let child = 0; child < 2; child += 1) {
      const takeLeaf = leaf < weight.length && (node >= made || weight[leaf]! <= sum[node]!);
      sum[made]! += takeLeaf ? weight[leaf]! : sum[node]!;
      if (takeLeaf) leafParent[leaf++] = made;
      else innerParent[node++] = made;
    }
  const depth = new Uint16Array(inner);
  for (let at = inner - 2; at >= 0; at -= 1) depth[at] = depth[innerParent[at]!]! + 1;
  const counts = new Uint32Array(weight.length);
  for (let at = 0; at < weight.length; at += 1) counts[depth[leafParent[at]!]! + 1]! += 1;
  return counts;
};

/**
 * Moves leaves deeper than the limit up to it. While the codes then take more room than there is, splits the deepest
 * leaf above the limit and gives it one leaf from the limit as its twin.
 */
const limited = (counts: Uint32Array, limit: number): Uint32Array => {
  const out = new Uint32Array(limit + 1);
  for (let depth = 1; depth < counts.length; depth += 1)
    out[Math.min(depth, limit)]! += counts[depth]!;
  let room = 0;
  for (let depth = 1; depth <= limit; depth += 1) room += out[depth]! * 2 ** (limit - depth);
  for (; room > 2 ** limit; room -= 1) {
    let depth = limit - 1;
    while (out[depth] === 0) depth -= 1;
    out[depth]! -= 1;
    out[depth + 1]! += 2;
    out[limit]! -= 1;
  }
  return out;
};

/** The code of each symbol with its bits reversed, ready to write; 0 where a symbol has none. */
export const canonicalCodes = (lengths: Uint8Array): Uint16Array => {
  const next = new Uint16Array(17);
  for (const length of lengths) if (length > 0) next[length + 1]! += 1;
  for (let length = 1; length < 17; length += 1)
    next[length] = (next[length]! + next[length - 1]!) << 1;
  const codes = new Uint16Array(lengths.length);
  for (let symbol = 0; symbol < lengths.length; symbol += 1) {
    const length = lengths[symbol]!;
    if (length > 0) codes[symbol] = reversed(next[length]!++, length);
  }
  return codes;
};

/** Each byte with its bits in reverse order. */
const mirrored = Uint8Array.from({ length: 256 }, (_, byte) => {
  let out = 0;
  for (let bit = 0; bit < 8; bit += 1) out |= ((byte >> bit) & 1) << (7 - bit);
  return out;
});

const reversed = (code: number, length: number): number =>
  ((mirrored[code & 255]! << 8) | mirrored[code >> 8]!) >> (16 - length);
