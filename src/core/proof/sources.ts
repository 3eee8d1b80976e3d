/** What a scene of the tilt proof is made of: prepared pictures, and how they are mixed into those that are seen. */
import type { Clipped, GhostTrim } from '../weave/ghost.ts';
import type { PictureMix } from '../weave/mix-slices.ts';
import { clippedOf, seenTrimmed } from './ghost-pictures.ts';
import { withMixes } from './mix-pictures.ts';
import type { Picture, ProofScene } from './scene.ts';

export interface ProofSources extends Omit<ProofScene, 'frames' | 'slots'> {
  /** Each once; undefined where one is not ready yet. */
  readonly pictures: readonly (Picture | undefined)[];
  readonly mixes: readonly PictureMix[];
  /** For each view slot an index into `pictures` followed by `mixes`. */
  readonly slots: readonly number[];
  /** Ghost removal, where there is any. */
  readonly trim?: GhostTrim | undefined;
  /** The print has its views in the opposite order. */
  readonly reversed?: boolean;
}

type Shown = Pick<ProofScene, 'frames' | 'slots'>;

/** The pictures in the slots; those that are only parts of a mix are left out, so that they are not drawn from. */
const slotsShown = ({ pictures, mixes, slots, lenticules }: ProofSources): Shown => {
  const all = withMixes(pictures, mixes, lenticules);
  const shown = [...new Set(slots)];
  return {
    frames: shown.map((index) => all[index]),
    slots: slots.map((index) => shown.indexOf(index)),
  };
};

const allReady = ({ frames, slots }: Shown) => {
  const ready = frames.filter((frame) => frame !== undefined);
  return ready.length > 0 && ready.length === frames.length ? { frames: ready, slots } : undefined;
};

/** What ghost removal clips; undefined without ghost removal and until every picture is ready. */
export const ghostClippedOf = (sources: ProofSources): readonly Clipped[] | undefined => {
  const { ribs, trim } = sources;
  const ready = trim === undefined ? undefined : allReady(slotsShown(sources));
  return trim === undefined || ready === undefined ? undefined : clippedOf(ready, ribs, trim);
};

/** With ghost removal: the slots as the print shows them, once all are ready. */
const trimmedSlots = ({ ribs, trim }: ProofSources, shown: Shown): Shown => {
  const ready = allReady(shown);
  return trim === undefined || ready === undefined ? shown : seenTrimmed(ready, ribs, trim);
};

/** The scene, mixed: some tens of milliseconds for each picture that is new. */
export const sceneOf = (sources: ProofSources): ProofScene => {
  const { pictures: _pictures, mixes: _mixes, trim: _trim, reversed, ...rest } = sources;
  const { frames, slots } = trimmedSlots(sources, slotsShown(sources));
  return { ...rest, frames, slots: reversed === true ? [...slots].reverse() : slots };
};
