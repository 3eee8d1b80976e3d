/** Where the patches of the ghost wedge lie, with their numbers and words about them. */
import type { InkMm } from '../pitch/lettering.ts';
import { lettering, textHeightMm, textWidthMm } from '../pitch/lettering.ts';
import type { DotBox, Painting } from '../pitch/painted-rows.ts';
import { inkInDots, paintingSize } from '../pitch/painted-rows.ts';
import { trimmed } from '../units/format.ts';
import { MM_PER_INCH, dpi, mm, mmToLpi, wholeDots } from '../units/units.ts';
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

/** Size of the whole wedge along the ribs, and what lies beside its patches across them. */
export const WEDGE_ALONG_MM = HEAD_MM + PATCHES * (PATCH_MM + GAP_MM) + FOOT_MM;
export const WEDGE_SIDES_MM = SIDE_MM + FAR_MM;

const toDots = (spec: WedgeSpec) => ({
  toAcross: (lengthMm: number) => wholeDots(mm(lengthMm), dpi(spec.acrossDpi)),
  toAlong: (lengthMm: number) => wholeDots(mm(lengthMm), dpi(spec.alongDpi)),
});

const extent = (spec: WedgeSpec) => {
  const { toAcross, toAlong } = toDots(spec);
  return {
    ribs: spec.ribs,
    acrossDots: toAcross(SIDE_MM) + spec.patchDots + toAcross(FAR_MM),
    alongDots: toAlong(WEDGE_ALONG_MM),
  };
};

/** Dots in a row of the wedge's file, and rows in it. */
export const wedgeSize = (spec: WedgeSpec) => paintingSize(extent(spec));

/** The two lines of squares of a patch. @param patch 1 … PATCHES. */
export const patchBoxes = (spec: WedgeSpec, patch: number): readonly [DotBox, DotBox] => {
  const { toAcross, toAlong } = toDots(spec);
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

/** Two lines over the patches; a line too long for a narrow wedge ends at its last whole word. */
const words = (spec: WedgeSpec): InkMm[] => {
  const room = (spec.patchDots * MM_PER_INCH) / spec.acrossDpi;
  return [
    'GHOST WEDGE  SAME WAY THROUGH THE PRINTER AS THE SHEET',
    `${trimmed(mmToLpi(mm(spec.viewingPitchMm)), 3)} LPI  READ FROM ${trimmed(spec.readFromMm, 0)} MM  ` +
      `${spec.viewSlots} SLOTS  PATCH ${PATCHES} TAKES ${trimmed(100 * spec.strongest, 1)} %`,
  ].flatMap((line, number) => {
    let kept = line;
    while (textWidthMm(kept, WORDS_SQUARE_MM) > room && kept !== '')
      kept = kept.slice(0, Math.max(0, kept.lastIndexOf(' ')));
    return lettering(kept, SIDE_MM, 1.8 + number * 3.8, WORDS_SQUARE_MM);
  });
};

export const wedgePainting = (spec: WedgeSpec): Painting => {
  const { toAcross, toAlong } = toDots(spec);
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
    ink: inkInDots([...patches.flatMap(numberOf), ...words(spec)], toAcross, toAlong),
  };
};
