/** Clips that wait for the person to choose frames. */
import { expect, it } from 'vitest';
import { createClips } from '../../../src/studio/frames/clips/state.ts';

const fileOf = (name: string) => new File([new Uint8Array(8)], name);

it('a stop is for one clip: the others go on', () => {
  const clips = createClips();
  const [pier, boat] = [clips.add(fileOf('pier.mp4'), false), clips.add(fileOf('boat.mp4'), false)];
  const [ofPier, ofBoat] = [clips.begin(pier.id), clips.begin(boat.id)];
  clips.stop(pier.id);
  expect([ofPier.aborted, ofBoat.aborted]).toEqual([true, false]);
  // Taking frames of it later begins anew.
  expect(clips.begin(pier.id).aborted).toBe(false);
});
