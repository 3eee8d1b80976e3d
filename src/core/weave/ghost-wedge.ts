/**
 * The ghost wedge: numbered patches of the same two pictures in alternation, each with more ghost removal than the
 * one before. One picture is even grey, the other a chequerboard of light and dark squares. Through the lens the grey
 * shows the squares as a ghost where too little was removed, as their negative where too much was, and not at all
 * where the removal equals the leak of the lens.
 */
import { LINEAR_MAX } from '../colour/srgb.ts';
import type { FrameSlice } from './band.ts';
import { weaveRows } from './band.ts';
import type { ColumnMap } from './column-map.ts';
import { columnMap } from './column-map.ts';
import { MOST_LEAK, trimSlices } from './ghost.ts';
import type { Columns, Ribs, SheetSpec } from './sheet-spec.ts';

export interface WedgeSpec {
  readonly kind: 'ghost-wedge';
  readonly acrossDpi: number;
  readonly alongDpi: number;
  readonly ribs: Ribs;
  readonly viewingPitchMm: number;
  readonly viewSlots: number;
  readonly columns: Columns;
  /** How many slots away the other picture is. */
  readonly reachSlots: number;
  /** Leak removed in the last patch. */
  readonly strongest: number;
  /** Dots of a patch across the ribs. */
  readonly patchDots: number;
  /** For the words. */
  readonly readFromMm: number;
}

export const PATCHES = 16;
/** Side of a square of the chequerboard, across the ribs. */
export const SQUARE_MM = 6;

/**
 * Linear light of the even picture and of the dark and light squares: far enough from black and white that no removal
 * up to `MOST_LEAK` clips.
 */
export const EVEN = 0.45;
export const DARK = 0.3;
export const LIGHT = 0.75;

/** The leak that a patch removes. @param patch 1 … PATCHES; a half lies between two patches. */
export const leakOfPatch = (strongest: number, patch: number): number =>
  ((patch - 1) / (PATCHES - 1)) * strongest;

/**
 * For each view slot, whether it shows the even picture: alternating stretches of `reachSlots` slots, with the middle
 * one even, so that it shows straight ahead.
 */
export const evenSlots = (viewSlots: number, reachSlots: number): boolean[] => {
  const first = Math.floor((viewSlots - reachSlots) / 2);
  return Array.from(
    { length: viewSlots },
    (_, slot) => Math.floor((slot - first) / reachSlots) % 2 === 0,
  );
};

/** @throws RangeError that names the field. */
const checkWedge = ({ viewSlots, reachSlots, strongest }: WedgeSpec) => {
  if (!(viewSlots >= 2))
    throw new RangeError(`viewSlots: expected 2 or more, received ${viewSlots}`);
  if (!(reachSlots >= 1 && reachSlots <= viewSlots / 2))
    throw new RangeError(`reachSlots: expected from 1 to ${viewSlots / 2}, received ${reachSlots}`);
  if (!(strongest > 0 && strongest <= MOST_LEAK))
    throw new RangeError(`strongest: expected above 0 up to ${MOST_LEAK}, received ${strongest}`);
};

/** One row of a patch as a sheet with upright ribs. */
const rowSheet = (spec: WedgeSpec): SheetSpec => ({
  widthDots: spec.patchDots,
  heightDots: 1,
  acrossDpi: spec.acrossDpi,
  alongDpi: spec.acrossDpi,
  ribs: 'upright',
  viewingPitchMm: spec.viewingPitchMm,
  // Nothing is sampled: the squares are drawn rib by rib.
  lensPitchMm: spec.viewingPitchMm,
  offsetMm: 0,
  viewSlots: spec.viewSlots,
  columns: spec.columns,
});

/** The two pictures, one sample for each rib. @param turn 0 or 1: which squares are dark. */
const pictures = (map: ColumnMap, spec: WedgeSpec, turn: number): FrameSlice[] => {
  const row = (light: (rib: number) => number): FrameSlice => ({
    columns: map.lenticules,
    rows: 1,
    firstRow: 0,
    pixels: Uint16Array.from({ length: map.lenticules * 3 }, (_, i) =>
      Math.round(LINEAR_MAX * light(map.firstLenticule + Math.floor(i / 3))),
    ),
  });
  const isDark = (rib: number) =>
    Math.abs(Math.round((rib * spec.viewingPitchMm) / SQUARE_MM) + turn) % 2 === 0;
  return [row(() => EVEN), row((rib) => (isDark(rib) ? DARK : LIGHT))];
};

/**
 * The rows of dots of the wedge: two for each patch, one for each of its lines of squares. Row-major RGB, 8 bit,
 * sRGB-encoded, length patchDots × 3.
 * @throws RangeError that names the field.
 */
export const wedgeRows = (spec: WedgeSpec): (readonly [Uint8Array, Uint8Array])[] => {
  checkWedge(spec);
  const sheet = rowSheet(spec);
  const map = columnMap(sheet);
  const slots = evenSlots(spec.viewSlots, spec.reachSlots).map((even) => (even ? 0 : 1));
  const woven = (leak: number, turn: number) => {
    const trim = { leak, reachSlots: spec.reachSlots, lift: 0 };
    const { stack } = trimSlices({ frames: pictures(map, spec, turn), slots }, 'upright', trim);
    return weaveRows(sheet, map, stack, { firstRow: 0, rowCount: 1 });
  };
  return Array.from({ length: PATCHES }, (_, i) => {
    const leak = leakOfPatch(spec.strongest, i + 1);
    return [woven(leak, 0), woven(leak, 1)] as const;
  });
};
