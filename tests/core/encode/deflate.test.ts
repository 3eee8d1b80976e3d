import { inflateRawSync, inflateSync } from 'node:zlib';
import fc from 'fast-check';
import { Inflate } from 'pako';
import { describe, expect, test } from 'vitest';
import { adler32, combineAdler32, crc32 } from '../../../src/core/encode/checksum.ts';
import { canonicalCodes, codeLengths } from '../../../src/core/encode/deflate/huffman.ts';
import type { Search } from '../../../src/core/encode/deflate/matcher.ts';
import { deflateSegment, zlibEnd, zlibHead } from '../../../src/core/encode/deflate/segment.ts';

const ascii = (text: string) => Uint8Array.from(text, (c) => c.charCodeAt(0));

/** Segments bound into one zlib stream, as a sheet binds them. */
const bind = (pieces: readonly Uint8Array[], search?: Search) => {
  const segments = pieces.map((piece) => deflateSegment(piece, search));
  const adler = segments.reduce((sum, s) => combineAdler32(sum, s.adler32, s.rawLength), 1);
  return Buffer.concat([zlibHead(), ...segments.map((s) => s.bytes), zlibEnd(adler)]);
};

/** By either search, and by the one that is found to serve. */
const expectBack = (pieces: readonly Uint8Array[]) => {
  const whole = Buffer.concat(pieces);
  for (const search of [undefined, 'near', 'far'] as const) {
    const stream = bind(pieces, search);
    // Two independent inflaters, and both check the Adler-32.
    expect(inflateSync(stream).equals(whole)).toBe(true);
    const pako = new Inflate();
    pako.push(stream, true);
    expect(pako.err).toBe(0);
    expect(Buffer.from((pako.result as Uint8Array | undefined) ?? []).equals(whole)).toBe(true);
  }
};

describe('checksums', () => {
  test('CRC-32 of "123456789" is CBF43926 (check value of the CRC-32/ISO-HDLC catalogue)', () => {
    expect(crc32(ascii('123456789'))).toBe(0xcbf43926);
  });
  test('Adler-32 of "Wikipedia" is 11E60398 (published worked example)', () => {
    expect(adler32(ascii('Wikipedia'))).toBe(0x11e60398);
  });
  test('combining the sums of two parts gives the sum of the whole', () => {
    fc.assert(
      fc.property(
        fc.uint8Array({ maxLength: 9000 }),
        fc.uint8Array({ maxLength: 9000 }),
        (a, b) => {
          const whole = adler32(Uint8Array.of(...a, ...b));
          expect(combineAdler32(adler32(a), adler32(b), b.length)).toBe(whole);
        },
      ),
    );
  });
});

describe('Huffman codes', () => {
  /** Kraft's sum: one exactly for a complete code, above it the code cannot be told apart. */
  const kraft = (lengths: Uint8Array) =>
    lengths.reduce((sum, length) => sum + (length > 0 ? 2 ** -length : 0), 0);

  test('Fibonacci weights, which ask for the deepest tree, stay within 15 bits and complete', () => {
    const fibonacci = new Uint32Array(286);
    let [a, b] = [1, 1];
    for (let i = 0; i < 40; i += 1) {
      fibonacci[i] = a;
      [a, b] = [b, a + b];
    }
    const lengths = codeLengths(fibonacci, 15);
    expect(Math.max(...lengths)).toBe(15);
    expect(kraft(lengths)).toBe(1);
  });
  test('any weights: complete, within the limit, rarer never shorter', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 1_000_000 }), { minLength: 2, maxLength: 286 }),
        (weights) => {
          const lengths = codeLengths(Uint32Array.from(weights), 15);
          const used = weights.filter((weight) => weight > 0).length;
          expect(kraft(lengths)).toBeLessThanOrEqual(1);
          if (used > 1) expect(kraft(lengths)).toBe(1);
          for (const [i, weight] of weights.entries()) {
            expect((lengths[i] as number) > 0).toBe(weight > 0 || (used === 0 && i === 0));
            for (const [j, other] of weights.entries())
              if (weight > other && other > 0)
                expect(lengths[i]).toBeLessThanOrEqual(lengths[j] as number);
          }
        },
      ),
      { numRuns: 60 },
    );
  });
  test('the worked example of RFC 1951, 3.2.2: lengths 3 3 3 3 3 2 4 4', () => {
    // Codes there, highest bit first: 010 011 100 101 110 00 1110 1111.
    const codes = canonicalCodes(Uint8Array.of(3, 3, 3, 3, 3, 2, 4, 4));
    const reversed = (text: string) => parseInt(Array.from(text).reverse().join(''), 2);
    expect([...codes]).toEqual(
      ['010', '011', '100', '101', '110', '00', '1110', '1111'].map(reversed),
    );
  });
});

describe('segments', () => {
  test('end at a byte boundary with a sync flush, so that any may follow any', () => {
    for (const piece of [new Uint8Array(0), Uint8Array.of(7), ascii('palm house')])
      expect([...deflateSegment(piece).bytes.slice(-4)]).toEqual([0, 0, 0xff, 0xff]);
  });
  test('any bytes in any pieces come back through two inflaters', () => {
    fc.assert(
      fc.property(fc.array(fc.uint8Array({ maxLength: 4000 }), { maxLength: 5 }), expectBack),
      { numRuns: 60 },
    );
  });
  test('runs of one byte and of one pixel, of every length up to 600', () => {
    const parts: Uint8Array[] = [];
    for (let length = 1; length <= 600; length += 1) {
      parts.push(new Uint8Array(length).fill(length & 255));
      parts.push(Uint8Array.from({ length: 3 * length }, (_, i) => (i % 3) * 85 + (length & 1)));
    }
    expectBack([Buffer.concat(parts)]);
  });
  test('repeats at every distance about the window’s end, 32 768', () => {
    for (const distance of [17, 256, 257, 17281, 32766, 32767, 32768, 32769]) {
      const noise = Uint8Array.from(
        { length: distance },
        (_, i) => (Math.imul(i + 1, 2654435761) >>> 13) & 255,
      );
      expectBack([Buffer.concat([noise, noise.subarray(0, Math.min(distance, 3000))])]);
    }
  });
  test('residuals of a woven sheet, megabytes of them, and what cannot be squeezed', () => {
    const residuals = Uint8Array.from({ length: 2_000_000 }, (_, i) => {
      const wave = Math.sin(i / 36) * Math.sin(i / 5000) * 3;
      return Math.round(wave) & 255;
    });
    expectBack([residuals.subarray(0, 700_001), residuals.subarray(700_001)]);
    let state = 1;
    const noise = Uint8Array.from({ length: 300_000 }, () => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return state >>> 24;
    });
    expectBack([noise]);
    // Stored blocks: five bytes to each 65 535 and the flush, RFC 1951 3.2.4; one in a thousand at most.
    expect(deflateSegment(noise).bytes.length).toBeLessThan(noise.length * 1.001);
  });
  test('what repeats at any distance a rib may have', () => {
    for (let dots = 1; dots <= 90; dots += 1) {
      const rib = Uint8Array.from({ length: 3 * dots }, (_, i) => Math.imul(i + 7, 40503) >>> 8);
      expectBack([Buffer.concat(Array.from({ length: 40 }, () => rib))]);
    }
  });
  test('literals, lengths and distances that all occur, some of them once in a block', () => {
    // Weights that would ask for codes longer than the writer’s own limits of 12 and 11 bits.
    const parts: Uint8Array[] = [];
    let size = 1;
    for (let byte = 0; byte < 20; byte += 1) {
      for (let i = 0; i < size; i += 1) parts.push(Uint8Array.of(byte, 255 - byte));
      size = Math.ceil(size * 1.6);
    }
    for (let length = 4; length < 300; length += 1)
      parts.push(
        Uint8Array.from({ length }, (_, i) => Math.imul(i + length, 2654435761) >>> 24),
        new Uint8Array(length),
      );
    const whole = Buffer.concat(parts);
    expectBack([whole, whole.subarray(0, 9000), whole]);
  });
  test('a piece comes out the same whatever was deflated before it', () => {
    const small = Uint8Array.from({ length: 5000 }, (_, i) => (i % 36) * (i >> 9));
    const large = new Uint8Array(400_000).fill(200);
    for (const search of ['near', 'far'] as const) {
      const first = deflateSegment(small, search);
      deflateSegment(large, search);
      expect(deflateSegment(small, search)).toEqual(first);
    }
  });
  test('no match reaches before its own piece', () => {
    const piece = new Uint8Array(5000).fill(9);
    const { bytes } = deflateSegment(piece);
    const end = Uint8Array.of(3, 0);
    expect(inflateRawSync(Buffer.concat([bytes, end])).equals(Buffer.from(piece))).toBe(true);
  });
});
