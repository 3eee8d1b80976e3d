/**
 * The mixed pictures of the tilt proof, made of its frames in linear light, as in the weave. Pictures that did not
 * change since the last scene are the same objects, so they are not sent again.
 */
import { code8OfLinear, linearOfCode8 } from '../colour/srgb.ts';
import type { PictureMix } from '../weave/mix-slices.ts';
import { layOver } from '../weave/mix-slices.ts';
import { encoded, fitLinear } from './fit-picture.ts';
import type { Picture } from './scene.ts';

interface Kept {
  readonly sources: readonly Picture[];
  readonly shares: string;
  readonly picture: Picture;
}

let kept: readonly Kept[] = [];
const code8 = code8OfLinear();
const light = linearOfCode8();

/** A tone needs only one sample. */
const plainPicture = (level: number): Picture => {
  const code = code8[Math.round(level)]!;
  return { columns: 1, rows: 1, pixels: Uint8Array.of(code, code, code, 255) };
};

/** Pictures of one sheet have one size. Otherwise the picture with the larger share stands for the mix. */
const mixOfTwo = (a: Picture, b: Picture, shareA: number, shareB: number): Picture => {
  if (a.columns !== b.columns || a.rows !== b.rows) return shareA < shareB ? b : a;
  const pixels = new Uint8Array(a.pixels.length).fill(255);
  const first = light.map((value) => value * shareA + 0.5);
  const second = light.map((value) => value * shareB);
  for (let i = 0; i < pixels.length; i += 4)
    for (let c = i; c < i + 3; c += 1)
      pixels[c] = code8[(first[a.pixels[c]!]! + second[b.pixels[c]!]!) | 0]!;
  return { columns: a.columns, rows: a.rows, pixels };
};

const mixed = (sources: readonly Picture[], { parts, light: level }: PictureMix): Picture => {
  const [a, b] = sources;
  const [partA, partB] = parts;
  if (a === undefined || partA === undefined) return plainPicture(level);
  return b === undefined || partB === undefined ? a : mixOfTwo(a, b, partA.share, partB.share);
};

const linearKept = new WeakMap<Picture, Uint16Array>();
const linearOf = (picture: Picture): Uint16Array => {
  const found = linearKept.get(picture) ?? fitLinear(picture, picture.columns, picture.rows).light;
  linearKept.set(picture, found);
  return found;
};

/** Lays a title over a picture: some tens of milliseconds for each slot. */
const withTitle = (under: Picture, onWhite: Picture, onBlack: Picture, shift: number): Picture => {
  const { columns, rows } = onWhite;
  const { light: out } = fitLinear(under, columns, rows);
  layOver(out, columns, { onWhite: linearOf(onWhite), onBlack: linearOf(onBlack), shift });
  return encoded(out, columns, rows);
};

const make = (sources: readonly Picture[], mix: PictureMix, lenticules: number): Picture => {
  const under = mixed(sources.slice(0, mix.parts.length), mix);
  const [onWhite, onBlack] = sources.slice(mix.parts.length);
  if (mix.over === undefined || onWhite === undefined || onBlack === undefined) return under;
  // Large pictures are averaged down to fewer samples than lenticules.
  const perLenticule = mix.over.shift === 0 ? 0 : onWhite.columns / lenticules;
  return withTitle(under, onWhite, onBlack, mix.over.shift * perLenticule);
};

/** The frames followed by the mixes; undefined where a frame is not ready. */
export const withMixes = (
  frames: readonly (Picture | undefined)[],
  mixes: readonly PictureMix[],
  lenticules: number,
): (Picture | undefined)[] => {
  const now: Kept[] = [];
  const made = mixes.map((mix) => {
    const { over } = mix;
    const sources = mix.parts.map(({ frame }) => frames[frame]);
    if (over !== undefined) sources.push(frames[over.onWhite], frames[over.onBlack]);
    const ready = sources.filter((source) => source !== undefined);
    if (ready.length < sources.length) return undefined;
    const shares = JSON.stringify([
      mix.light,
      mix.parts.map(({ share }) => share),
      over?.shift ?? null,
      lenticules,
    ]);
    const entry = kept.find(
      (one) => one.shares === shares && one.sources.every((source, i) => source === ready[i]),
    ) ?? { sources: ready, shares, picture: make(ready, mix, lenticules) };
    now.push(entry);
    return entry.picture;
  });
  kept = now;
  return [...frames, ...made];
};
