/** A flip of two flat pictures, each in a channel of its own, seen through the lens bench. */
import type { Ahead } from '../../src/core/frames/flip-ahead.ts';
import { compileSlots } from '../../src/core/frames/recipes.ts';
import type { FrameSlice } from '../../src/core/weave/band.ts';
import { weaveRows } from '../../src/core/weave/band.ts';
import { columnMap, lenticulesOver } from '../../src/core/weave/column-map.ts';
import { sheetSpecOf } from '../../src/job/facts/sheet.ts';
import type { Job } from '../../src/job/schema/job.ts';
import { newJob } from '../../src/job/schema/job.ts';
import { lookThrough } from './lens-bench.ts';
import { lensInFocus, printOf } from './press.ts';
import { benchGap } from './traced-by-bench.ts';

export const DISTANCE_MM = 400;
export const lens = lensInFocus(60, 0.3);
/** Relation 4, with g′ by the bench’s own trace. */
export const ZONE_MM = (DISTANCE_MM * lens.pitchMm) / benchGap(lens);

/** A flip of two flat pictures, 60 mm across its ribs. */
export const flipJob = (ribs: Job['ribs'], ahead?: Ahead, guardSlots = 0): Job => {
  const frame = (id: string): Job['frames'][number] => ({
    id,
    name: `${id}.png`,
    byteLength: 1,
    widthPx: 100,
    heightPx: 100,
    kind: 'PNG',
    sceneLinear: false,
    meanLight: 0.5,
  });
  return {
    ...newJob(),
    lens: { ...newJob().lens, ...lens },
    ribs,
    printer: { carriageDpi: 1440, feedDpi: 150 },
    print: {
      widthMm: ribs === 'upright' ? 60 : 2,
      heightMm: ribs === 'upright' ? 2 : 60,
      viewingDistanceMm: DISTANCE_MM,
    },
    viewSlots: 12,
    frames: ['lamp lit', 'lamp out'].map(frame),
    recipe: {
      kind: 'flip',
      pictures: ['lamp lit', 'lamp out'],
      guardSlots,
      guard: 'black',
      ...(ahead && { ahead }),
    },
  };
};

/** Each picture in a channel of its own, so that a channel tells the share of its picture. */
const flat = (columns: number, channel: number): FrameSlice => ({
  columns,
  rows: 1,
  firstRow: 0,
  pixels: Uint16Array.from({ length: columns * 3 }, (_, i) => (i % 3 === channel ? 65535 : 0)),
});

/** The shares of both pictures that an eye sees, mean over the ribs, by its place across them. */
export const eyesOn = (job: Job): ((acrossMm: number) => readonly [lit: number, out: number]) => {
  const spec = sheetSpecOf(job);
  const columns = lenticulesOver(spec).count;
  // The last is a guard: no light of either.
  const frames = [flat(columns, 0), flat(columns, 1), flat(columns, -1)];
  const lying = job.ribs === 'lying';
  const slots = compileSlots(job.recipe, ['lamp lit', 'lamp out'], job.viewSlots).map(({ parts }) =>
    ['lamp lit', 'lamp out'].indexOf(parts[0]?.frame ?? ''),
  );
  const shown = slots.map((slot) => (slot < 0 ? 2 : slot));
  const turned = frames.map((frame) => (lying ? { ...frame, columns: 1, rows: columns } : frame));
  const rows = { firstRow: 0, rowCount: spec.heightDots };
  const rgb = weaveRows(spec, columnMap(spec), { slots: shown, frames: turned }, rows);
  const print = printOf(spec, rgb);
  return (acrossMm) => {
    const { light, ribs } = lookThrough(lens, print, { acrossMm, distanceMm: DISTANCE_MM });
    let [lit, out] = [0, 0];
    for (let rib = 0; rib < ribs; rib += 1) {
      lit += light[rib * 3]! / ribs;
      out += light[rib * 3 + 1]! / ribs;
    }
    return [lit, out];
  };
};
