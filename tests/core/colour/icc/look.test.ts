/** What of pictures is missed in print, on a table made by hand: blue above the middle cannot be shown. */
import { expect, test } from 'vitest';
import { missedIn, seenInPrint } from '../../../../src/core/colour/icc/look.ts';

const EDGE = 52;
/** Red and green as they are; blue at most 127, and missed by ΔE00 10 beyond that. */
const table = () => {
  const nodes = new Uint16Array(EDGE ** 3 * 4);
  for (let place = 0; place < EDGE ** 3; place += 1) {
    const [red, green, blue] = [
      Math.floor(place / EDGE ** 2),
      Math.floor(place / EDGE) % EDGE,
      place % EDGE,
    ].map((node) => node * 5 * 257) as [number, number, number];
    nodes.set([red, green, Math.min(blue, 125 * 257), blue > 130 * 257 ? 100 * 257 : 0], place * 4);
  }
  return { channels: 4 as const, nodes };
};

test('pixels are shown as printed, and what is missed is marked only when it is asked for', () => {
  const pixels = Uint8Array.of(10, 20, 30, 255, 10, 20, 200, 255);
  const seen = new Uint8Array(8);
  seenInPrint(pixels, table(), false, seen);
  expect([...seen]).toEqual([10, 20, 30, 255, 10, 20, 125, 255]);
  seenInPrint(pixels, table(), true, seen);
  expect([...seen]).toEqual([10, 20, 30, 255, 255, 0, 255, 255]);
});

test('shares of a picture are missed, and a flip loses what differs only there', () => {
  const dot = (blue: number) => [10, 20, blue];
  const pictures = [
    // The first dot differs in what is missed, the second in what is shown, the third not at all, the fourth in both.
    Uint8Array.from([dot(180), dot(20), dot(60), dot(200)].flat()),
    Uint8Array.from([dot(240), dot(90), dot(60), dot(40)].flat()),
  ];
  expect(missedIn(pictures, table())).toEqual({ shares: [0.5, 0.25], lost: [0.25] });
});
