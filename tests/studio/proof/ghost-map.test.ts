/** The map of ghosts of a flip, from the proof's pictures to what helps. */
import * as v from 'valibot';
import { expect, it } from 'vitest';
import { encoded, fitLinear } from '../../../src/core/proof/fit-picture.ts';
import type { Picture } from '../../../src/core/proof/scene.ts';
import { easeFrame } from '../../../src/core/weave/ease.ts';
import { withoutEase } from '../../../src/job/edits/ghost-cures.ts';
import { editFlip } from '../../../src/job/edits/recipe.ts';
import { easeOf, sayEased } from '../../../src/job/facts/ghost-ease.ts';
import type { SlotPicture } from '../../../src/job/facts/slot-pictures.ts';
import { slotPicturesOf } from '../../../src/job/facts/slot-pictures.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { jobSchema, newJob } from '../../../src/job/schema/job.ts';
import type { Prepared } from '../../../src/state/work.ts';
import { keyMaker } from '../../../src/studio/prepare/stack.ts';
import {
  SEEN_STEPS,
  createGhostMapper,
  curesTried,
  worstOf,
} from '../../../src/studio/proof/ghost-map.ts';

const [columns, rows] = [80, 100];

/** Grey, with a white square in a corner: shares of the picture. */
const picture = (corner: readonly [x: number, y: number]): Picture => {
  const pixels = new Uint8Array(columns * rows * 4).fill(255);
  for (let i = 0; i < columns * rows; i += 1) {
    const [x, y] = [(i % columns) / columns, Math.floor(i / columns) / rows];
    const inside = Math.abs(x - corner[0]) < 0.12 && Math.abs(y - corner[1]) < 0.12;
    pixels.fill(inside ? 255 : 90, 4 * i, 4 * i + 3);
  }
  return { columns, rows, pixels };
};
const corners: readonly (readonly [number, number])[] = [
  [0.2, 0.2],
  [0.8, 0.8],
];
const ids = ['lamp lit', 'lamp out'];
const prepared = new Map(
  ids.map((id, at) => [id, { proof: picture(corners[at] ?? [0, 0]) } as unknown as Prepared]),
);

const flip = (guardSlots: number, viewSlots = 4): Job => ({
  ...newJob(),
  viewSlots,
  frames: ids.map((id) => ({
    id,
    name: `${id}.png`,
    byteLength: 1,
    widthPx: columns,
    heightPx: rows,
    kind: 'PNG',
    sceneLinear: false,
    meanLight: 0.5,
  })),
  recipe: { kind: 'flip', pictures: ids, guardSlots, guard: 'mean' },
});

it('marks in each picture where the other one shines through', () => {
  const views = createGhostMapper().viewsOf(flip(0), prepared) ?? [];
  expect(views.map(({ picture: number }) => number)).toEqual([0, 1]);
  for (const { picture: number, places } of views) {
    const [x, y] = corners[1 - number] ?? [0, 0];
    expect(places[0]?.steps).toBeGreaterThan(SEEN_STEPS);
    expect(places[0]?.from).toBe(1 - number);
    expect(Math.hypot((places[0]?.x ?? 9) - x, (places[0]?.y ?? 9) - y)).toBeLessThan(0.15);
  }
});

it('names what helps, and by how much: the map of the changed job says the same', async () => {
  const mapper = createGhostMapper();
  const job = flip(0);
  const now = worstOf(mapper.viewsOf(job, prepared) ?? []);
  const cures = await curesTried(mapper, job, prepared, new AbortController().signal);
  expect(cures.map(({ kind }) => kind)).toContain('guards');
  for (const { kind, edit, worst } of cures) {
    expect(worst).toBeLessThan(0.9 * now);
    // For lowered contrast pictures are prepared anew; these are not.
    const tried = kind === 'contrast';
    expect(worstOf(mapper.viewsOf(edit[1](job), prepared, tried) ?? [])).toBe(worst);
  }
});

it('tells a guard that mixes both pictures from one of plain grey, which is only a veil', () => {
  const { viewsOf } = createGhostMapper();
  const withGuard = (guard: 'mean' | 'grey') =>
    worstOf(viewsOf(editFlip(flip(1, 6), { guard }), prepared) ?? []);
  expect(withGuard('mean')).toBeGreaterThan(10 * SEEN_STEPS);
  expect(withGuard('grey')).toBeLessThan(0.3 * withGuard('mean'));
});

it('is not there while frames are prepared, and none for what is no flip', () => {
  const { viewsOf } = createGhostMapper();
  expect(viewsOf(flip(0), new Map())).toBeUndefined();
  const { recipe: _, ...depth } = editFlip(flip(0), {});
  expect(viewsOf(depth, prepared)).toEqual([]);
});

it('sees no ghost under an opaque title, and the rest as it was', () => {
  const flat = (light: (x: number, y: number) => number): Picture => {
    const pixels = new Uint8Array(columns * rows * 4).fill(255);
    for (let i = 0; i < columns * rows; i += 1)
      pixels.fill(light((i % columns) / columns, Math.floor(i / columns) / rows), 4 * i, 4 * i + 3);
    return { columns, rows, pixels };
  };
  // Black letters, so large that they cover the first lamp and what is around it.
  const covers = (x: number, y: number) => x < 0.5 && y < 0.5;
  const job = flip(0);
  const title = { ...(job.frames[0] as Job['frames'][number]), id: 't', name: 't.png' };
  const titled: Job = { ...job, frames: [...job.frames, title], title: { frame: 't', step: 0 } };
  const withTitle = new Map([
    ...prepared,
    ['t over white', { proof: flat((x, y) => (covers(x, y) ? 0 : 255)) } as unknown as Prepared],
    ['t over black', { proof: flat(() => 0) } as unknown as Prepared],
  ]);
  const { viewsOf } = createGhostMapper();
  const [first, second] = viewsOf(titled, withTitle) ?? [];
  const [bare] = viewsOf(job, prepared) ?? [];
  // The lamp was there; now it is as even as the title, by a veil at most.
  const covered = (second?.places ?? []).filter(({ x, y }) => x < 0.4 && y < 0.4);
  const steps = covered.map((place) => place.steps);
  expect(covered).toHaveLength(16);
  expect(Math.max(...steps) - Math.min(...steps)).toBeLessThan(0.01);
  expect(first?.places[0]?.steps).toBeGreaterThan(SEEN_STEPS);
  const [worst, before] = [first?.places[0], bare?.places[0]];
  expect([worst?.x, worst?.y]).toEqual([before?.x, before?.y]);
  // Its mean light is another, so the steps are too.
  expect((worst?.steps ?? 0) / (before?.steps ?? 1)).toBeGreaterThan(0.3);
});

it('lowers contrast where it ghosts, and says what the lowered pictures then show', async () => {
  const mapper = createGhostMapper();
  const job = flip(0);
  const now = worstOf(mapper.viewsOf(job, prepared) ?? []);
  const cures = await curesTried(mapper, job, prepared, new AbortController().signal);
  const cure = cures.find(({ kind }) => kind === 'contrast');
  if (cure === undefined) throw new Error('expected it to help');
  expect(cure.worst).toBeLessThan(0.9 * now);
  const eased = cure.edit[1](job);
  expect(sayEased(eased)).toMatch(/^Contrast is lowered in \d+ places? against ghosts/);
  // The pictures as a worker lowers them, for the proof and the weave alike.
  const lowered = new Map(
    ids.map((id, at) => {
      const before = picture(corners[at] ?? [0, 0]);
      const frame = fitLinear(before, columns, rows);
      const pixels = Uint16Array.from(frame.light);
      const mask = easeOf(eased, id);
      if (mask !== undefined) easeFrame({ pixels, columns, rows }, mask);
      return [id, { proof: encoded(pixels, columns, rows) } as unknown as Prepared];
    }),
  );
  const after = worstOf(mapper.viewsOf(eased, lowered) ?? []);
  expect(after / cure.worst).toBeCloseTo(1, 1);
  // One way, one way back; of another recipe nothing is lowered.
  expect(withoutEase[1](eased)).toEqual(job);
  const { recipe: _flip, ...depth } = eased;
  expect(sayEased(depth)).toBe('');
  const keyOf = (one: Job, at: number) =>
    keyMaker(one, undefined)(slotPicturesOf(one).pictures[at] as SlotPicture);
  expect([0, 1].some((at) => keyOf(eased, at) !== keyOf(job, at))).toBe(true);
  expect([0, 1].map((at) => keyOf(withoutEase[1](eased), at))).toEqual(
    [0, 1].map((at) => keyOf(job, at)),
  );
  expect(v.parse(jobSchema, structuredClone(eased))).toEqual(eased);
});
