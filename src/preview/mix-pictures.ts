/**
 * The mixed pictures of the tilt proof, made of its frames as the weave makes the sheet's: in linear
 * light. What did not change since the last scene is the same object again, so it is not sent anew.
 */
import { code8OfLinear, linearOfCode8 } from '../core/colour/srgb.ts';
import type { PictureMix } from '../core/weave/mix-slices.ts';
import type { Picture } from './scene.ts';

interface Kept {
  readonly sources: readonly Picture[];
  readonly shares: string;
  readonly picture: Picture;
}

let kept: readonly Kept[] = [];
const code8 = code8OfLinear();
const light = linearOfCode8();

/** A tone needs no more than one sample. */
const plainPicture = (level: number): Picture => {
  const code = code8[Math.round(level)] as number;
  return { columns: 1, rows: 1, pixels: Uint8Array.of(code, code, code, 255) };
};

/** Both have one size: they were prepared for one sheet. Else the first alone stands for the mix. */
const mixOfTwo = (a: Picture, b: Picture, shareA: number, shareB: number): Picture => {
  if (a.columns !== b.columns || a.rows !== b.rows) return shareA < shareB ? b : a;
  const pixels = new Uint8Array(a.pixels.length).fill(255);
  const first = light.map((value) => value * shareA + 0.5);
  const second = light.map((value) => value * shareB);
  for (let i = 0; i < pixels.length; i += 4)
    for (let c = i; c < i + 3; c += 1)
      pixels[c] = code8[
        ((first[a.pixels[c] as number] as number) + (second[b.pixels[c] as number] as number)) | 0
      ] as number;
  return { columns: a.columns, rows: a.rows, pixels };
};

const make = (sources: readonly Picture[], { parts, light: level }: PictureMix): Picture => {
  const [a, b] = sources;
  const [partA, partB] = parts;
  if (a === undefined || partA === undefined) return plainPicture(level);
  return b === undefined || partB === undefined ? a : mixOfTwo(a, b, partA.share, partB.share);
};

/** The frames, and behind them the mixes; undefined where a frame is not ready yet. */
export const withMixes = (
  frames: readonly (Picture | undefined)[],
  mixes: readonly PictureMix[],
): (Picture | undefined)[] => {
  const now: Kept[] = [];
  const made = mixes.map((mix) => {
    const sources = mix.parts.map(({ frame }) => frames[frame]);
    const ready = sources.filter((source) => source !== undefined);
    if (ready.length < sources.length) return undefined;
    const shares = JSON.stringify([mix.light, mix.parts.map(({ share }) => share)]);
    const entry = kept.find(
      (one) => one.shares === shares && one.sources.every((source, i) => source === ready[i]),
    ) ?? { sources: ready, shares, picture: make(ready, mix) };
    now.push(entry);
    return entry.picture;
  });
  kept = now;
  return [...frames, ...made];
};
