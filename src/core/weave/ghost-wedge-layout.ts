/** The layout of the ghost wedge: patches, numbers and words. */
import { feedArrow } from '../pitch/feed-arrow.ts';
import type { InkMm } from '../pitch/lettering.ts';
import { headLines, lettering, textHeightMm, textWidthMm } from '../pitch/lettering.ts';
import type { DotBox, Painting } from '../pitch/painted-rows.ts';
import { inDots, inkInDots, paintingSize } from '../pitch/painted-rows.ts';
import { trimmed } from '../units/format.ts';
import { MM_PER_INCH, mm, mmToLpi } from '../units/units.ts';
import type { WedgeSpec } from './ghost-wedge.ts';
import { PATCHES, wedgeRows } from './ghost-wedge.ts';

const SIDE_MM = 12;
const FAR_MM = 4;
const HEAD_MM = 10;
const LINE_MM = 5;
const GAP_MM = 1.2;
const FOOT_MM = 4;
const NUMBER_SQUARE_MM = 0.6;
const WORDS_SQUARE_MM = 0.3;

const PATCH_MM = 2 * LINE_MM;

/** Size of the wedge along the ribs, and of its margins beside the patches across them. */
export const WEDGE_ALONG_MM = HEAD_MM + PATCHES * (PATCH_MM + GAP_MM) + FOOT_MM;
export const WEDGE_SIDES_MM = SIDE_MM + FAR_MM;

const extent = (spec: WedgeSpec) => {
  const { toAcross, toAlong } = inDots(spec);
  return {
    ribs: spec.ribs,
    acrossDots: toAcross(SIDE_MM) + spec.patchDots + toAcross(FAR_MM),
    alongDots: toAlong(WEDGE_ALONG_MM),
  };
};

/** Width and height of the wedge’s file, dots. */
export const wedgeSize = (spec: WedgeSpec) => paintingSize(extent(spec));

/** The two lines of squares of a patch. @param patch 1 … PATCHES. */
export const patchBoxes = (spec: WedgeSpec, patch: number): readonly [DotBox, DotBox] => {
  const { toAcross, toAlong } = inDots(spec);
  const top = HEAD_MM + (patch - 1) * (PATCH_MM + GAP_MM);
  const line = (from: number): DotBox => ({
    acrossFirst: toAcross(SIDE_MM),
    acrossLast: toAcross(SIDE_MM) + spec.patchDots,
    alongFirst: toAlong(from),
    alongLast: toAlong(from + LINE_MM),
  });
  return [line(top), line(top + LINE_MM)];
};

const numberOf = (patch: number): InkMm[] => {
  const text = String(patch);
  return lettering(
    text,
    SIDE_MM - 1.5 - textWidthMm(text, NUMBER_SQUARE_MM),
    HEAD_MM + (patch - 1) * (PATCH_MM + GAP_MM) + (PATCH_MM - textHeightMm(NUMBER_SQUARE_MM)) / 2,
    NUMBER_SQUARE_MM,
  );
};

const words = (spec: WedgeSpec): InkMm[] => {
  const lines = [
    'GHOST WEDGE  SAME WAY THROUGH THE PRINTER AS THE SHEET',
    `${trimmed(mmToLpi(mm(spec.viewingPitchMm)), 3)} LPI  READ FROM ${trimmed(spec.readFromMm, 0)} MM  ` +
      `${spec.viewSlots} SLOTS  PATCH ${PATCHES} TAKES ${trimmed(100 * spec.strongest, 1)} %`,
  ];
  return headLines(
    lines,
    SIDE_MM,
    (spec.patchDots * MM_PER_INCH) / spec.acrossDpi,
    WORDS_SQUARE_MM,
  );
};

export const wedgePainting = (spec: WedgeSpec): Painting => {
  const patches = Array.from({ length: PATCHES }, (_, i) => i + 1);
  const rows = wedgeRows(spec);
  return {
    ...extent(spec),
    gratings: patches.flatMap((patch) => {
      const [upper, lower] = patchBoxes(spec, patch);
      const [first, second] = rows[patch - 1]!;
      return [
        { box: upper, row: first },
        { box: lower, row: second },
      ];
    }),
    ink: inkInDots(
      [...patches.flatMap(numberOf), ...words(spec), ...feedArrow(spec.ribs, 2.5, 1.5)],
      inDots(spec),
    ),
  };
};
