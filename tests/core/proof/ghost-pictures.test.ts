/** The proof of a print with ghost removal: what is seen is what was meant, lowered; clipping shows as ghosts. */
import { describe, expect, it } from 'vitest';
import { linearToSrgb, srgbToLinear } from '../../../src/core/colour/srgb.ts';
import { seenTrimmed } from '../../../src/core/proof/ghost-pictures.ts';
import type { Picture } from '../../../src/core/proof/scene.ts';

const plain = (code: number): Picture => ({
  columns: 8,
  rows: 4,
  pixels: Uint8Array.from({ length: 8 * 4 * 4 }, (_, i) => (i % 4 === 3 ? 255 : code)),
});
const code = (light: number) => Math.round(255 * linearToSrgb(light));
const seenCodes = (codes: readonly [number, number], leak: number, lift: number) => {
  const shown = { frames: codes.map(plain), slots: [0, 1] };
  const { frames, slots } = seenTrimmed(shown, 'upright', { leak, reachSlots: 1, lift });
  return slots.map((slot) => frames[slot]?.pixels[0]);
};

describe('a proof with ghost removal', () => {
  it('lowered: shows (c + (1 − c) I) / (1 + c) of each picture', () => {
    const c = 0.2;
    const meant = (own: number) => code((c + (1 - c) * srgbToLinear(own / 255)) / (1 + c));
    expect(seenCodes([30, 220], c, c)).toEqual([meant(30), meant(220)]);
  });

  it('kept: shows I / (1 + c) where nothing is clipped', () => {
    const c = 0.1;
    const meant = (own: number) => code(srgbToLinear(own / 255) / (1 + c));
    expect(seenCodes([150, 170], c, 0)).toEqual([meant(150), meant(170)]);
  });

  it('kept: shows the ghost that is left where black cannot be made darker', () => {
    // Black beside white: D = 0 and 1 once cut off, so black is seen as c / (1 + c), white as 1 / (1 + c).
    const c = 0.25;
    expect(seenCodes([0, 255], c, 0)).toEqual([code(c / (1 + c)), code(1 / (1 + c))]);
  });
});
