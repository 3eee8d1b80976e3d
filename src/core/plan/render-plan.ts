/** The smallest frames that lose nothing, and the hours that the set takes. */
import type { Mm } from '../units/units.ts';
import { MM_PER_INCH } from '../units/units.ts';

/** Normal sight resolves one minute of arc (ISO 8596: the gap of the ring at acuity 1.0). */
const SIGHT_RAD = Math.PI / 180 / 60;

export interface FrameNeeds {
  readonly widthMm: Mm;
  readonly heightMm: Mm;
  readonly ribs: 'upright' | 'lying';
  readonly pitchMm: Mm;
  readonly distanceMm: Mm;
  readonly acrossDpi: number;
  readonly alongDpi: number;
  /** Samples for each lenticule across; at least 1. */
  readonly oversampling: number;
}

export interface FrameSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

const grid = (needs: FrameNeeds) =>
  needs.ribs === 'upright'
    ? { horizontal: needs.acrossDpi, vertical: needs.alongDpi }
    : { horizontal: needs.alongDpi, vertical: needs.acrossDpi };

/** A frame with a pixel for every printed dot: far more than the lens can show. */
export const naiveFrame = (needs: FrameNeeds): FrameSize => ({
  widthPx: Math.ceil((needs.widthMm * grid(needs).horizontal) / MM_PER_INCH),
  heightPx: Math.ceil((needs.heightMm * grid(needs).vertical) / MM_PER_INCH),
});

/** Pixels per mm that the lens can show across its ribs, times the oversampling. */
export const lensPerMm = ({ pitchMm, oversampling }: FrameNeeds): number => oversampling / pitchMm;

/** Pixels per mm that eye and printer can use along the ribs: the coarser of the two. */
export const rowsPerMm = ({ distanceMm, alongDpi }: FrameNeeds): number =>
  Math.min(alongDpi / MM_PER_INCH, 1 / (distanceMm * Math.tan(SIGHT_RAD)));

/** A frame of the print’s shape with square pixels, so many per mm. */
export const frameAt = ({ widthMm, heightMm }: FrameNeeds, perMm: number): FrameSize => ({
  // Rounding must not cost a pixel.
  widthPx: Math.ceil(widthMm * perMm - 1e-6),
  heightPx: Math.ceil(heightMm * perMm - 1e-6),
});

/** Square pixels serve both directions, so the finer need decides; never finer than the printed dots. */
export const smallestFrame = (needs: FrameNeeds): FrameSize =>
  frameAt(
    needs,
    Math.min(
      Math.max(lensPerMm(needs), rowsPerMm(needs)),
      Math.max(needs.acrossDpi, needs.alongDpi) / MM_PER_INCH,
    ),
  );

/** Hours for a number of frames from one timed frame, in proportion to the pixels. */
export const hoursFor = (
  size: FrameSize,
  frames: number,
  timed: FrameSize & { readonly hours: number },
): number =>
  (frames * timed.hours * size.widthPx * size.heightPx) / (timed.widthPx * timed.heightPx);

/** Share of what lens, eye and printer can show that a frame holds, 0 … 1. */
export const detailLeft = (needs: FrameNeeds, size: FrameSize) => {
  const perMm = Math.min(size.widthPx / needs.widthMm, size.heightPx / needs.heightMm);
  return {
    across: Math.min(1, perMm / lensPerMm({ ...needs, oversampling: 1 })),
    along: Math.min(1, perMm / rowsPerMm(needs)),
  };
};
