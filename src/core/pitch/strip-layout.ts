/** The layout of the strip: bands, labels, phase strip, bars, corner marks, arrow. */
import { trimmed } from '../units/format.ts';
import { MM_PER_INCH } from '../units/units.ts';
import { feedArrow } from './feed-arrow.ts';
import type { InkMm } from './lettering.ts';
import {
  barName,
  drawableText,
  headLines,
  lettering,
  textHeightMm,
  textWidthMm,
  wholeWords,
} from './lettering.ts';
import type { DotBox } from './painted-rows.ts';
import { inDots, inkInDots } from './painted-rows.ts';
import type { StripSpec } from './strip.ts';
import { bandLabel } from './strip.ts';

/** Margins beside the bands: labels on one side, the bar along the ribs on the other. */
export const LABEL_MARGIN_MM = 17;
export const FAR_MARGIN_MM = 7;
const HEAD_MM = 10;
const BAND_MM = 8;
const GAP_MM = 1;
const FOOT_MM = 11;
const LABEL_SQUARE_MM = 0.4;
const WORDS_SQUARE_MM = 0.3;
const SMALL_SQUARE_MM = 0.2;
const MARK_MM = 6;
const MARK_LINE_MM = 1.2;

export interface StripLayout {
  readonly acrossDots: number;
  readonly alongDots: number;
  /** One box for each band, in order. */
  readonly bands: readonly DotBox[];
  readonly phase: DotBox;
  /** Pitch of the phase strip: that of the middle band. */
  readonly phaseLpi: number;
  /** Solid black. */
  readonly ink: readonly DotBox[];
  /** Printed lengths of the two measuring bars, between the outer edges of their end ticks. */
  readonly barAcrossMm: number;
  readonly barAlongMm: number;
  /** Outer corners of the four marks, mm across and along from the strip’s first corner. */
  readonly marks: readonly (readonly [acrossMm: number, alongMm: number])[];
}

/** Size of the strip along the ribs, for a number of bands. */
export const stripAlongMm = (bands: number): number =>
  HEAD_MM + (bands + 1) * (BAND_MM + GAP_MM) + FOOT_MM;

/** How many bands fit into a length along the ribs. */
export const bandsWithin = (alongMm: number): number =>
  Math.floor((alongMm - HEAD_MM - FOOT_MM) / (BAND_MM + GAP_MM)) - 1;

/** The longest usual length that fits. */
const barLength = (roomMm: number, unit: 'mm' | 'in', mostMm: number): number => {
  const usual =
    unit === 'mm'
      ? [100, 80, 50, 40, 30, 20, 10, 5]
      : [4, 3, 2, 1, 0.5, 0.25].map((i) => i * MM_PER_INCH);
  return usual.find((length) => length <= roomMm && length <= mostMm) ?? Math.min(roomMm, mostMm);
};

export const stripLayout = (spec: StripSpec): StripLayout => {
  const grid = inDots(spec);
  const { toAcross, toAlong } = grid;
  const first = toAcross(LABEL_MARGIN_MM);
  const last = first + spec.bandDots;
  const acrossDots = last + toAcross(FAR_MARGIN_MM);
  const bandAt = (band: number): DotBox => {
    const top = HEAD_MM + band * (BAND_MM + GAP_MM);
    return {
      acrossFirst: first,
      acrossLast: last,
      alongFirst: toAlong(top),
      alongLast: toAlong(top + BAND_MM),
    };
  };
  const count = spec.bandsLpi.length;
  const acrossMm = (acrossDots * MM_PER_INCH) / spec.acrossDpi;
  const alongMm = stripAlongMm(count);
  const fieldMm = (spec.bandDots * MM_PER_INCH) / spec.acrossDpi;
  const bars = barsOf(spec, fieldMm, count * (BAND_MM + GAP_MM));
  const ink: InkMm[] = [
    ...spec.bandsLpi.flatMap((bandLpi, band) => label(bandLabel(bandLpi), band)),
    ...label('PHASE', count),
    ...words(spec, fieldMm),
    ...smallPrint(spec, fieldMm),
    ...feedArrow(spec.ribs, 8.5, 1.2),
    ...bars.ink,
    ...cornerMarks(acrossMm, alongMm),
  ];
  const printed = (dots: number, density: number) => (dots * MM_PER_INCH) / density;
  return {
    acrossDots,
    alongDots: toAlong(alongMm),
    bands: spec.bandsLpi.map((_, band) => bandAt(band)),
    phase: bandAt(count),
    phaseLpi: spec.bandsLpi[(count - 1) / 2]!,
    ink: inkInDots(ink, grid),
    barAcrossMm: printed(
      toAcross(bars.acrossFromMm + bars.acrossMm) - toAcross(bars.acrossFromMm),
      spec.acrossDpi,
    ),
    barAlongMm: printed(
      toAlong(bars.alongFromMm + bars.alongMm) - toAlong(bars.alongFromMm),
      spec.alongDpi,
    ),
    marks: [
      [0, 0],
      [acrossMm, 0],
      [0, alongMm],
      [acrossMm, alongMm],
    ],
  };
};

/**
 * First corner of a band’s label, mm from the strip’s first corner, and the side of its squares: beside the band,
 * outside the lens, halfway down the band.
 */
export const labelPlace = (text: string, band: number) => ({
  across: LABEL_MARGIN_MM - 1.5 - textWidthMm(text, LABEL_SQUARE_MM),
  along: HEAD_MM + band * (BAND_MM + GAP_MM) + (BAND_MM - textHeightMm(LABEL_SQUARE_MM)) / 2,
  squareMm: LABEL_SQUARE_MM,
});

const label = (text: string, band: number): InkMm[] => {
  const { across, along, squareMm } = labelPlace(text, band);
  return lettering(text, across, along, squareMm);
};

const words = (spec: StripSpec, fieldMm: number): InkMm[] => {
  const lines = [
    'PITCH STRIP  SAME WAY THROUGH THE PRINTER AS THE SHEET',
    `${trimmed(spec.lensLpi, 3)} LPI LENS  READ FROM ${trimmed(spec.readFromMm, 0)} MM  ` +
      `${trimmed(spec.acrossDpi, 1)} X ${trimmed(spec.alongDpi, 1)} DPI`,
  ];
  return headLines(lines, LABEL_MARGIN_MM, fieldMm, WORDS_SQUARE_MM);
};

/** Below the name of the bar across: how it is read, and what it is of. */
const FOOT_LINES_MM = [7.85, 9.4] as const;

/**
 * How it is read, and what it is of, for whoever finds it a month later: in what room the strip has, so that its
 * measures stay those of strips printed before. Not above the bands, where a photo's white is measured.
 */
const smallPrint = ({ bandsLpi, foot = '' }: StripSpec, fieldMm: number): InkMm[] => {
  const footAt = HEAD_MM + (bandsLpi.length + 1) * (BAND_MM + GAP_MM);
  const lines = [
    'LENS ON TOP, RIBS ALONG THE LINES. THE BAND DARK FROM EDGE TO EDGE AT ONCE HAS THE PITCH',
    drawableText(foot),
  ];
  return lines.flatMap((line, number) =>
    lettering(
      wholeWords(line, fieldMm, SMALL_SQUARE_MM),
      LABEL_MARGIN_MM,
      footAt + FOOT_LINES_MM[number]!,
      SMALL_SQUARE_MM,
    ),
  );
};

/**
 * A bar across the ribs below the bands, and one along beside them. The outer edges of their ticks give the length.
 */
const barsOf = (spec: StripSpec, fieldMm: number, besideMm: number) => {
  const [line, tick] = [0.5, 3];
  const acrossMm = barLength(fieldMm, spec.barsIn, 102);
  const alongMm = barLength(besideMm, spec.barsIn, 51);
  const acrossFromMm = LABEL_MARGIN_MM + (fieldMm - acrossMm) / 2;
  const foot = HEAD_MM + (spec.bandsLpi.length + 1) * (BAND_MM + GAP_MM) + 1.5;
  const beside = LABEL_MARGIN_MM + fieldMm + 2;
  const alongFromMm = HEAD_MM;
  const acrossName = barName(acrossMm, spec.barsIn);
  const alongName = barName(alongMm, spec.barsIn);
  const middle = acrossFromMm + (acrossMm - textWidthMm(acrossName, WORDS_SQUARE_MM)) / 2;
  const ink: InkMm[] = [
    { across: acrossFromMm, along: foot + (tick - line) / 2, width: acrossMm, height: line },
    { across: acrossFromMm, along: foot, width: line, height: tick },
    { across: acrossFromMm + acrossMm - line, along: foot, width: line, height: tick },
    { across: beside + (tick - line) / 2, along: alongFromMm, width: line, height: alongMm },
    { across: beside, along: alongFromMm, width: tick, height: line },
    { across: beside, along: alongFromMm + alongMm - line, width: tick, height: line },
    ...lettering(acrossName, middle, foot + tick + 1, WORDS_SQUARE_MM),
    ...lettering(
      alongName,
      LABEL_MARGIN_MM + fieldMm + 0.6,
      alongFromMm - 1 - textHeightMm(SMALL_SQUARE_MM),
      SMALL_SQUARE_MM,
    ),
  ];
  return { acrossMm, alongMm, acrossFromMm, alongFromMm, ink };
};

/** An angle at each corner; a square inside only the first shows which way up a photo is. */
const cornerMarks = (acrossMm: number, alongMm: number): InkMm[] => {
  const [size, line] = [MARK_MM, MARK_LINE_MM];
  const angles = [0, acrossMm - size].flatMap((across) =>
    [0, alongMm - size].flatMap((along): InkMm[] => [
      { across, along: along === 0 ? 0 : alongMm - line, width: size, height: line },
      { across: across === 0 ? 0 : acrossMm - line, along, width: line, height: size },
    ]),
  );
  return [...angles, { across: 2.4, along: 2.4, width: 2.4, height: 2.4 }];
};
