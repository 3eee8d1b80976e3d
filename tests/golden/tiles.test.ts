/**
 * Tiles of a print, each glued under its own lens and cut flush, butted into one and looked at through
 * the bench's exact ray trace. The views are three sinusoids a third of a turn apart, so the colour a
 * rib shows tells which part of the zone it shows (the three-step formula, optics relation 10): it must
 * run on over a seam as if there were one lens. Woven about its own middle, a tile would show another
 * part of the zone than its neighbour: by ΔX g / (D p) zones for middles ΔX apart (relation 1).
 */
import { describe, expect, it } from 'vitest';
import { tilingOf } from '../../src/core/sheet/tiles.ts';
import { weaveRows } from '../../src/core/weave/band.ts';
import { columnMap, lenticulesOver } from '../../src/core/weave/column-map.ts';
import type { ReducedFrame } from '../../src/core/weave/reduce.ts';
import type { SheetSpec } from '../../src/core/weave/sheet-spec.ts';
import { lookThrough } from './lens-bench.ts';
import { lensInFocus, pitchFor } from './press.ts';

const DISTANCE_MM = 500;
const DPI = 720;
const VIEWS = 24;
/** Finer than dots: a lens's edge falls where it falls on the print beneath. */
const FINER = 8;
const lens = lensInFocus(40, 0.55);

const specOf = (ribs: SheetSpec['ribs'], pitchMm = pitchFor(lens, DISTANCE_MM)): SheetSpec => {
  const [across, along] = [Math.round((180 / 25.4) * DPI), 3];
  const [widthDots, heightDots] = ribs === 'upright' ? [across, along] : [along, across];
  return {
    ...{ widthDots, heightDots, acrossDpi: DPI, alongDpi: 360, ribs },
    ...{
      viewingPitchMm: pitchMm,
      lensPitchMm: lens.pitchMm,
      offsetMm: 0,
      viewSlots: VIEWS,
      columns: 'blended',
    },
  };
};

/** Frame v is one colour: its place in the zone as a turn of the three sinusoids. */
const hues = (sheet: SheetSpec): ReducedFrame[] => {
  const across = lenticulesOver(sheet).count;
  const [columns, rows] = sheet.ribs === 'upright' ? [across, 3] : [3, across];
  return Array.from({ length: VIEWS }, (_, view) => {
    const turn = (2 * Math.PI * (view + 0.5)) / VIEWS;
    const colour = [-1, 0, 1].map((c) => 0.5 + 0.45 * Math.cos(turn + (c * 2 * Math.PI) / 3));
    const pixels = Uint16Array.from({ length: columns * rows * 3 }, (_, i) =>
      Math.round(65535 * (colour[i % 3] as number)),
    );
    return { columns, rows, pixels };
  });
};

/** One line of the woven sheet across its ribs. */
const lineOf = (sheet: SheetSpec): Uint8Array => {
  const stack = {
    slots: Array.from({ length: VIEWS }, (_, i) => i),
    frames: hues(sheet).map((frame) => ({ ...frame, firstRow: 0 })),
  };
  const rows = { firstRow: 0, rowCount: sheet.heightDots };
  const rgb = weaveRows(sheet, columnMap(sheet), stack, rows);
  if (sheet.ribs === 'upright') return rgb.subarray(0, sheet.widthDots * 3);
  return Uint8Array.from({ length: sheet.heightDots * 3 }, (_, i) => {
    const [dot, c] = [Math.floor(i / 3), i % 3];
    return rgb[dot * sheet.widthDots * 3 + c] as number;
  });
};

const tilesOf = (sheet: SheetSpec) =>
  tilingOf({
    ...{ sheet, bleedAcrossDots: 0, bleedAlongDots: 0, pitchMm: lens.pitchMm },
    ...{ usableAcrossMm: 50, usableAlongMm: 100 },
  }).tiles;

/**
 * Each tile's cut print laid where its lens is: lenses butt rib to rib from the middle of the whole, and
 * a print is as wide as its lens however its dots were rounded.
 * @param dotsOf the tile's cut line, RGB.
 */
const assembled = (sheet: SheetSpec, dotsOf: (place: number) => Uint8Array): Uint8Array => {
  const dots = sheet.ribs === 'upright' ? sheet.widthDots : sheet.heightDots;
  const wall = new Uint8Array(dots * FINER * 3);
  const perMm = (DPI * FINER) / 25.4;
  const middle = (dots * FINER) / 2;
  tilesOf(sheet).forEach(({ across }, place) => {
    const line = dotsOf(place);
    const from = Math.round(middle + across.fromMm * perMm);
    const to = Math.round(middle + across.toMm * perMm);
    for (let x = from; x < to; x += 1) {
      const dot = Math.min(line.length / 3 - 1, Math.floor((x - from) / FINER));
      wall.set(line.subarray(dot * 3, dot * 3 + 3), x * 3);
    }
  });
  return wall;
};

/** Place in the zone that each rib shows, in zones, by rib; ribs whose rays leave the print left out. */
const placesSeen = (wall: Uint8Array, eyeMm: number): Map<number, number> => {
  const width = wall.length / 3;
  const print = {
    ...{ rgb: wall, widthDots: width, heightDots: 1 },
    ...{ acrossDpi: DPI * FINER, lensRibs: 'upright' as const },
  };
  const seen = lookThrough(lens, print, { acrossMm: eyeMm, distanceMm: DISTANCE_MM });
  return new Map(
    Array.from({ length: seen.ribs }, (_, i) => {
      const [a, b, c] = [0, 1, 2].map((channel) => seen.light[i * 3 + channel] as number);
      const turn = Math.atan2(Math.sqrt(3) * (a! - c!), 2 * b! - a! - c!);
      return [seen.firstRib + i, turn / (2 * Math.PI)];
    }),
  );
};

/** The shorter way round from one place to another, zones. */
const step = (from: number, to: number) => {
  const way = to - from;
  return way - Math.round(way);
};

/** The step in zones over each seam, from `aside` ribs before it to as many behind it. */
const jumps = (sheet: SheetSpec, wall: Uint8Array, eyeMm: number, aside: number): number[] => {
  const seen = placesSeen(wall, eyeMm);
  const at = (rib: number) => seen.get(rib) as number;
  return tilesOf(sheet)
    .slice(1)
    .map(({ across: { firstRib } }) => step(at(firstRib - aside), at(firstRib + aside - 1)));
};

const right = (sheet: SheetSpec): Uint8Array => {
  const line = lineOf(sheet);
  return assembled(sheet, (place) => {
    const { across } = tilesOf(sheet)[place]!;
    return line.subarray(across.fromDot * 3, across.toDot * 3);
  });
};

/** As a program would that weaves each tile as a print of its own, a rib's middle at its own middle. */
const wrong = (sheet: SheetSpec): Uint8Array =>
  assembled(sheet, (place) => {
    const { across } = tilesOf(sheet)[place]!;
    const dots = across.toDot - across.fromDot;
    const own = { ...sheet, ribs: 'upright' as const, widthDots: dots, heightDots: 3 };
    // An even count of ribs has a groove at its middle.
    return lineOf({ ...own, offsetMm: across.ribs % 2 === 0 ? sheet.viewingPitchMm / 2 : 0 });
  });

const EYES_MM = [0, 60, -110];

describe.each(['upright', 'lying'] as const)('tiles of ribs that stand %s', (ribs) => {
  const sheet = specOf(ribs);
  const line = lineOf(sheet);
  const oneLens = Uint8Array.from({ length: line.length * FINER }, (_, i) => {
    const [dot, c] = [Math.floor(i / 3 / FINER), i % 3];
    return line[dot * 3 + c] as number;
  });
  const laid = right(sheet);
  // The wall ends there, and the one print does not.
  const outermost = [tilesOf(sheet)[0]!, tilesOf(sheet).at(-1)!].map(({ across }) =>
    across.firstRib < 0 ? across.firstRib : across.firstRib + across.ribs - 1,
  );

  it('are four, none of them in the middle of the whole', () => {
    expect(tilesOf(sheet)).toHaveLength(4);
  });

  it.each(EYES_MM)('run on over every seam for an eye %f mm beside the middle', (eyeMm) => {
    for (const aside of [1, 3])
      for (const jump of jumps(sheet, laid, eyeMm, aside))
        expect(Math.abs(jump)).toBeLessThan(0.03);
    // And rib for rib they show what one lens over one print shows.
    const whole = placesSeen(oneLens, eyeMm);
    const tiles = placesSeen(laid, eyeMm);
    expect(tiles.size).toBeGreaterThan(270);
    for (const [rib, place] of tiles)
      if (outermost.every((edge) => Math.abs(rib) < Math.abs(edge) - 2))
        expect(Math.abs(step(whole.get(rib) as number, place)), `rib ${rib}`).toBeLessThan(0.03);
  });

  it.each(EYES_MM)('woven each about its own middle they would jump, eye at %f mm', (eyeMm) => {
    const own = wrong(sheet);
    const tiles = tilesOf(sheet);
    const gapMm = lens.thicknessMm / lens.index;
    jumps(sheet, own, eyeMm, 3).forEach((jump, seam) => {
      const [left, next] = [tiles[seam]!.across, tiles[seam + 1]!.across];
      const apart = (next.fromMm + next.toMm - left.fromMm - left.toMm) / 2;
      const foretold = (apart * gapMm) / (DISTANCE_MM * lens.pitchMm);
      expect(Math.abs(jump) / foretold).toBeGreaterThan(0.85);
      expect(Math.abs(jump) / foretold).toBeLessThan(1.15);
    });
  });
});
