/**
 * What a flip shows straight ahead, through the lens bench, which shares nothing with the studio: both eyes, from five
 * places, for both ways of the ribs.
 */
import { describe, expect, test } from 'vitest';
import type { Ahead } from '../../src/core/frames/flip-ahead.ts';
import { aheadZones, flipRuns } from '../../src/core/frames/flip-ahead.ts';
import { compileSlots, GHOST_SHARE } from '../../src/core/frames/recipes.ts';
import type { FrameSlice } from '../../src/core/weave/band.ts';
import { weaveRows } from '../../src/core/weave/band.ts';
import { columnMap, lenticulesOver } from '../../src/core/weave/column-map.ts';
import { changeAtDegrees, flipTurnsOf } from '../../src/job/facts/flip-changes.ts';
import { flipOf, sheetSpecOf } from '../../src/job/facts/sheet.ts';
import { guardAdviceOf } from '../../src/job/edits/recipe.ts';
import type { Job } from '../../src/job/schema/job.ts';
import { newJob } from '../../src/job/schema/job.ts';
import { lookThrough } from './lens-bench.ts';
import { lensInFocus, printOf } from './press.ts';
import { benchGap } from './traced-by-bench.ts';

const DISTANCE_MM = 400;
const EYES_APART_MM = 63;
const lens = lensInFocus(60, 0.3);
/** Relation 4, with g′ by the bench’s own trace. */
const ZONE_MM = (DISTANCE_MM * lens.pitchMm) / benchGap(lens);

/** A flip of two flat pictures, 60 mm across its ribs. */
const flipJob = (ribs: Job['ribs'], ahead?: Ahead, guardSlots = 0): Job => {
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
const eyesOn = (job: Job): ((acrossMm: number) => readonly [lit: number, out: number]) => {
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

const placeOf = (degrees: number) => DISTANCE_MM * Math.tan((degrees * Math.PI) / 180);

/** Degrees at which one picture gives way to the other, as the bench sees it. */
const changesSeen = (see: ReturnType<typeof eyesOn>): number[] => {
  const step = 1;
  const changes: number[] = [];
  let before: number | undefined;
  for (let degrees = -21; degrees <= 21; degrees += step) {
    const [lit, out] = see(placeOf(degrees));
    const more = lit - out;
    if (before !== undefined && before * more < 0)
      changes.push(degrees - (step * more) / (more - before));
    before = more;
  }
  return changes;
};

describe.each(['upright', 'lying'] as const)('a flip under ribs that are %s', (ribs) => {
  const turned = changeAtDegrees(flipJob(ribs), 0, 6);
  test.each<[string, Ahead | undefined]>([
    ['nothing chosen: the change lies straight ahead', undefined],
    ['the first picture straight ahead', { show: 'picture', at: 0 }],
    ['the second picture straight ahead', { show: 'picture', at: 1 }],
    ['the change at 6° to the right', turned],
  ])('%s', (_, ahead) => {
    const job = flipJob(ribs, ahead);
    const see = eyesOn(job);
    const stated = flipTurnsOf(job);
    const within = stated.filter(({ degrees }) => Math.abs(degrees) < 20);
    const seen = changesSeen(see);
    expect(seen).toHaveLength(within.length);
    within.forEach(({ degrees }, i) => expect(Math.abs(seen[i]! - degrees)).toBeLessThan(1));

    // Both eyes from five places: each sees the picture that the changes state, clear of a change by a degree.
    let looked = 0;
    for (const headMm of [-80, -40, 0, 40, 80])
      for (const eyeMm of [headMm - EYES_APART_MM / 2, headMm + EYES_APART_MM / 2]) {
        const degrees = (Math.atan(eyeMm / DISTANCE_MM) * 180) / Math.PI;
        if (stated.some((change) => Math.abs(change.degrees - degrees) < 2)) continue;
        const past = stated.filter((change) => change.degrees < degrees).at(-1) ?? stated.at(-1);
        const picture = past?.to ?? 0;
        const shares = see(eyeMm);
        expect(shares[picture], `${eyeMm} mm sees picture ${picture + 1}`).toBeGreaterThan(0.75);
        looked += 1;
      }
    expect(looked).toBeGreaterThan(5);
  });

  test('what is chosen is what stands before the middle', () => {
    const middle = (ahead?: Ahead) => eyesOn(flipJob(ribs, ahead))(0);
    expect(middle({ show: 'picture', at: 0 })[0]).toBeGreaterThan(0.95);
    expect(middle({ show: 'picture', at: 1 })[1]).toBeGreaterThan(0.95);
    const [lit, out] = middle();
    expect(Math.abs(lit - out)).toBeLessThan(0.1);
  });

  test('a picture straight ahead has no ghost of the other, on neither side', () => {
    const first = { show: 'picture', at: 0 } as const;
    const guards = guardAdviceOf(flipJob(ribs)) ?? 0;
    expect(guards).toBeGreaterThan(0);
    const job = flipJob(ribs, first, guards);
    const see = eyesOn(job);
    const flip = flipOf(job)!;
    const { from, to } = flipRuns(flip)[0]!;
    for (let slot = from; slot < to; slot += 1) {
      const zones = (slot + 0.5) / job.viewSlots - 0.5 + aheadZones(flip);
      const [lit, out] = see(zones * ZONE_MM);
      expect(lit, `slot ${slot}`).toBeGreaterThan(0.8);
      expect(out, `slot ${slot}`).toBeLessThan(GHOST_SHARE);
    }
  });
});
