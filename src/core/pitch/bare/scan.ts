/**
 * Finds the rib frequency of a bare lens in a flatbed scan, in cycles per pixel: from the spectrum of its rows,
 * refined by phase.
 */
import { fitPhase } from './scan-phase.ts';
import type { Rows, ScanPixels } from './scan-rows.ts';
import { rowsOf } from './scan-rows.ts';
import type { DrawnSpectrum, Harmonic, Peak } from './scan-spectrum.ts';
import { drawn, harmonicsOf, strongest } from './scan-spectrum.ts';

export interface ScanLine {
  /** Cycles per pixel of the strongest line; x to the right, y down. */
  readonly perPxX: number;
  readonly perPxY: number;
  /** Relative standard deviation of the frequency across the ribs. */
  readonly sigmaShare: number;
  /** True when the ribs are upright in the scan (within 45°). */
  readonly upright: boolean;
  readonly harmonics: readonly Harmonic[];
  /** To be drawn. */
  readonly spectrum: DrawnSpectrum;
}

export type ScanMeasure =
  | { readonly ok: true; readonly line: ScanLine }
  | {
      readonly ok: false;
      readonly reason: 'too-small' | 'no-peak' | 'uneven';
      readonly sentence: string;
      readonly whatToDo: string;
    };

const LEAST_SIDE_PX = 160;
/** A line must exceed the noise of its spectrum by this factor (our own value, by simulation). */
const LEAST_RISE = 12;

const refuse = (
  reason: 'too-small' | 'no-peak' | 'uneven',
  sentence: string,
  whatToDo: string,
): ScanMeasure => ({ ok: false, reason, sentence, whatToDo });

/**
 * Finds the line of the ribs.
 * @param onProgress is called with 0 … 1.
 * @throws RangeError for pixels of the wrong length.
 */
export const measureScan = (
  scan: ScanPixels,
  onProgress: (share: number) => void = () => undefined,
): ScanMeasure => {
  const { widthPx, heightPx, light } = scan;
  if (light.length !== widthPx * heightPx)
    throw new RangeError(`light: expected ${widthPx * heightPx} values, received ${light.length}`);
  if (Math.min(widthPx, heightPx) < LEAST_SIDE_PX)
    return refuse(
      'too-small',
      `The scan is only ${widthPx} × ${heightPx} pixels.`,
      'Scan more of the lens, 50 mm or more both ways, at 600 dpi or more.',
    );
  const across = strongest(rowsOf(scan, true));
  onProgress(0.3);
  const down = strongest(rowsOf(scan, false));
  onProgress(0.6);
  const upright = across.rise >= down.rise;
  const peak = upright ? across : down;
  if (!(peak.rise >= LEAST_RISE))
    return refuse(
      'no-peak',
      'No even ribs stand out in this scan.',
      'Lay the lens with its ribs on the glass, a sheet of plain white or black paper behind it, and scan at a higher density without sharpening or “descreen”.',
    );
  return exact(rowsOf(scan, upright), peak, upright, onProgress);
};

const exact = (
  rows: Rows,
  peak: Peak,
  upright: boolean,
  onProgress: (share: number) => void,
): ScanMeasure => {
  const fitted = fitPhase(rows, peak.perPx);
  onProgress(1);
  if (fitted === undefined)
    return refuse(
      'uneven',
      'The ribs in this scan do not keep step from one side to the other.',
      'Press the lens flat on the glass, wipe it, leave out sheet edges and labels, and scan again without any correction of the picture.',
    );
  const { along, acrossRibs, sigmaShare } = fitted;
  return {
    ok: true,
    line: {
      perPxX: upright ? acrossRibs : along,
      perPxY: upright ? along : acrossRibs,
      sigmaShare,
      upright,
      harmonics: harmonicsOf(peak),
      spectrum: drawn(peak.power),
    },
  };
};
