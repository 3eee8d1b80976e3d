/**
 * The pitch of a bare lens from a scan of it: what the line in its spectrum means at the scan’s density. It serves as
 * the first centre of the strip, not as a proved pitch: a scan knows nothing of paper, ink and driver.
 */
import { MM_PER_INCH } from '../../units/units.ts';
import type { ScanLine } from './scan.ts';

/** A length measured in the scan that checks the scanner’s scale. */
export interface RulerCheck {
  /** By the ruler. */
  readonly trueMm: number;
  /** The same length in the scan. */
  readonly scanPx: number;
}

export interface ScanDensity {
  readonly acrossDpi: number;
  readonly downDpi: number;
}

export interface BareLensFacts {
  readonly density: ScanDensity;
  /** Nominal; tells the ribs from their harmonics. */
  readonly nominalLpi: number;
  readonly ruler?: RulerCheck | undefined;
}

export type BareLensReading =
  | {
      readonly ok: true;
      readonly pitchMm: number;
      readonly lensLpi: number;
      /** Two standard deviations, the scanner's scale included. */
      readonly plusMinusLpi: number;
      /** The two parts of it, each two standard deviations. */
      readonly fromRibsLpi: number;
      readonly fromScaleLpi: number;
      /** Tilt of the ribs from the nearest side of the scan, radians. */
      readonly tiltRad: number;
      /** Lines that the scan shows for each rib. */
      readonly linesToRib: 1 | 2 | 3;
      readonly pxToRib: number;
      readonly ruled: boolean;
      /** Whole sentences for the person. */
      readonly cautions: readonly string[];
    }
  | { readonly ok: false; readonly sentence: string; readonly whatToDo: string };

/** A scanner’s scale is good to about two in a thousand (common practice, no source). */
const SCANNER_SHARE = 0.002;
/** Ends of a ruled length: found to 0.1 mm on the ruler and to 2 px in the scan (our own values). */
const RULER_MM = 0.1;
const RULER_PX = 2;
/** With fewer pixels for each rib the strongest line may be a false, folded one. */
const LEAST_PX_TO_RIB = 4;
const NEAR_NOMINAL = 0.06;

/** Divisor from the strongest line to the ribs: by the nominal pitch, or else by the lines in the spectrum. */
const divisorOf = (
  strongestLpi: number,
  nominalLpi: number,
  { harmonics }: ScanLine,
): 1 | 2 | 3 => {
  const off = (divisor: number) => Math.abs(strongestLpi / divisor / nominalLpi - 1);
  const near = ([1, 2, 3] as const).filter((divisor) => off(divisor) < NEAR_NOMINAL);
  if (near[0] !== undefined) return near[0];
  const below = harmonics.filter(
    ({ divisor, share, overNoise }) => divisor > 1 && share > 0.08 && overNoise > 6,
  );
  return below.at(-1)?.divisor ?? 1;
};

/** Reads the lens pitch. @throws RangeError that names the field. */
export const readBareLens = (line: ScanLine, facts: BareLensFacts): BareLensReading => {
  const { density, nominalLpi, ruler } = facts;
  for (const [field, value] of Object.entries({ ...density, nominalLpi, ...ruler }))
    if (!(value > 0 && Number.isFinite(value)))
      throw new RangeError(`${field}: expected a number above 0, received ${value}`);
  // Cycles per inch each way; the root of their squares is the count across the ribs.
  const [x, y] = [line.perPxX * density.acrossDpi, line.perPxY * density.downDpi];
  const dpi = line.upright ? density.acrossDpi : density.downDpi;
  const scale = ruler === undefined ? 1 : ruler.trueMm / ((ruler.scanPx * MM_PER_INCH) / dpi);
  const strongestLpi = Math.hypot(x, y) / scale;
  const linesToRib = divisorOf(strongestLpi, nominalLpi, line);
  const lensLpi = strongestLpi / linesToRib;
  const pxToRib = dpi / (lensLpi * scale);
  if (pxToRib < LEAST_PX_TO_RIB || dpi / nominalLpi < LEAST_PX_TO_RIB)
    return tooCoarse(dpi, Math.max(lensLpi, nominalLpi));
  if (Math.abs(scale - 1) > 0.05)
    return {
      ok: false,
      sentence: `By the ruler this scan is ${((scale - 1) * 100).toFixed(1)} % off its density.`,
      whatToDo: 'Check Scan density and both lengths of the ruler: no scanner is that far out.',
    };
  const share =
    ruler === undefined
      ? SCANNER_SHARE
      : Math.hypot(RULER_MM / ruler.trueMm, RULER_PX / ruler.scanPx);
  const fromRibsLpi = 2 * line.sigmaShare * lensLpi;
  const fromScaleLpi = share * lensLpi;
  const [along, square] = line.upright ? [y, x] : [x, y];
  return {
    ok: true,
    pitchMm: MM_PER_INCH / lensLpi,
    lensLpi,
    plusMinusLpi: Math.hypot(fromRibsLpi, fromScaleLpi),
    fromRibsLpi,
    fromScaleLpi,
    tiltRad: Math.atan2(along, square),
    linesToRib,
    pxToRib,
    ruled: ruler !== undefined,
    cautions: cautionsOf(lensLpi, nominalLpi, linesToRib),
  };
};

const tooCoarse = (dpi: number, lpi: number): BareLensReading => ({
  ok: false,
  sentence: `At ${Math.round(dpi)} dpi this scan has fewer than ${LEAST_PX_TO_RIB} pixels for each rib: what looks like ribs may be a false beat with the scanner’s own rows.`,
  whatToDo: `Scan at ${Math.ceil((6 * lpi) / 300) * 300} dpi or more, up to the scanner’s optical density, or correct Scan density.`,
});

const cautionsOf = (lensLpi: number, nominalLpi: number, linesToRib: number): string[] => {
  const off = lensLpi / nominalLpi - 1;
  const cautions: string[] = [];
  if (linesToRib > 1)
    cautions.push(
      `The scan shows ${linesToRib === 2 ? 'two' : 'three'} lines for each rib, as a lamp on both flanks does; this was taken into account.`,
    );
  if (Math.abs(off) > 0.02)
    cautions.push(
      `That is ${(Math.abs(off) * 100).toFixed(1)} % ${off > 0 ? 'finer' : 'coarser'} than the lens pitch on the job sheet. Check Scan density and Lens pitch.`,
    );
  return cautions;
};
