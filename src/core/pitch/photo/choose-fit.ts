/** Chooses, among all pitches and skews that the fringes allow, the one that fits; or says why there is none. */
import { upperMedian } from '../../numeric/median.ts';
import { coveredBy } from './cover.ts';
import type { FitCare, FringeFit, FringeRow } from './fringe-fit.ts';
import { fitFringes, searchFringes } from './fringe-fit.ts';
import type { PhotoRefusal } from './photo-terms.ts';
import { PLACES } from './sample.ts';

/** The lens may differ from its label by this share, either way. */
const LENS_REACH = 0.025;
/** tan of the largest skew that is searched. */
const SKEW_REACH = 0.03;

/** The rows of all bands, and how far they reach. */
export interface Fringes {
  readonly rows: readonly FringeRow[];
  /** Number of bands. */
  readonly count: number;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Nominal lens pitch. */
  readonly pitchMm: number;
}

export interface Chosen {
  readonly fit: FringeFit;
  /** Bands that no reflection covers and the lens does. */
  readonly readable: ReadonlySet<number>;
  /** The bands among them that the fit uses. */
  readonly used: ReadonlySet<number>;
  /** Share of the bands that the lens does not cover, 0 … 1. */
  readonly bare: number;
}

/** Bands of which at most about a third is under a reflection, or beside the lens. */
const readableBands = ({ rows, count }: Fringes): Set<number> => {
  const lost = (band: number) => {
    const mine = rows.filter((row) => row.band === band);
    return (
      1 -
      mine.reduce((s, row) => s + row.weight.reduce((t, w) => t + w, 0), 0) / (mine.length * PLACES)
    );
  };
  return new Set(Array.from({ length: count }, (_, band) => band).filter((b) => lost(b) < 0.35));
};

/** Fits again without bands that are far outliers, as long as most remain. */
const withoutOutliers = (
  { rows, count }: Fringes,
  readable: ReadonlySet<number>,
  first: FringeFit,
  cornerDoubtMm: number,
): Omit<Chosen, 'bare'> => {
  const usual = upperMedian([...readable].map((band) => first.alone[band]!.rms));
  const used = new Set([...readable].filter((band) => first.alone[band]!.rms < 3 * usual + 0.01));
  const all = { fit: first, readable, used: readable };
  if (used.size === readable.size || used.size < Math.max(3, 0.6 * count)) return all;
  const fit = fitFringes(rows, count, used, first, { rounds: 8, cornerDoubtMm });
  return fit === undefined ? all : { fit, readable, used };
};

/** Why there is no pitch, and the angle in degrees or the share in per cent that the reason tells. */
export interface Refused {
  readonly refused: PhotoRefusal;
  readonly figure?: number;
}

/** Below this share of the bands a lens that reaches less far than they do is left to the fit (our own value). */
const MOST_BARE = 0.12;
/** A fit that explains less of the light is of something else. */
const EXPLAINS = 0.5;
/** With a weaker first harmonic, no fringes are seen. */
const LEAST_AMPLITUDE = 0.02;

/** Finds where the lens lies and fits again there, until both agree. */
const onTheLens = (
  fringes: Fringes,
  readable: ReadonlySet<number>,
  first: FringeFit,
  care: FitCare,
) => {
  let fit = first;
  let covered = coveredBy(fringes.rows, fit);
  for (let round = 0; round < 4 && covered.bare > 0; round += 1) {
    const again = fitFringes(covered.rows, fringes.count, readable, fit, care);
    if (again === undefined) break;
    fit = again;
    covered = coveredBy(fringes.rows, fit);
  }
  return { fit, ...covered };
};

/** How far a lens is searched that is not the job's, or lies askew: shares of its lines per mm. */
const FAR_LENS = 0.065;
const FAR_SKEW = 0.16;

/** The reason where fringes are there, but of another pitch or skew than any that is read. */
const elsewhere = (
  { rows, count, widthMm, heightMm, pitchMm }: Fringes,
  readable: ReadonlySet<number>,
  care: FitCare,
): Refused | undefined => {
  const nominal = 1 / pitchMm;
  const fit = searchFringes(
    rows.filter(({ band }) => readable.has(band)),
    { middle: nominal, reach: FAR_LENS * nominal, step: 0.2 / widthMm },
    { middle: 0, reach: FAR_SKEW * nominal, step: 0.2 / heightMm },
    4,
  )
    .map((peak) => fitFringes(rows, count, readable, peak, care))
    .filter((one): one is FringeFit => one !== undefined)
    .sort((a, b) => b.explained - a.explained)[0];
  if (fit === undefined || fit.amplitude < LEAST_AMPLITUDE || fit.explained < EXPLAINS)
    return undefined;
  const skew = Math.atan(fit.v / fit.f);
  if (Math.abs(skew) > SKEW_REACH)
    return { refused: 'lens-askew', figure: Math.abs((skew * 180) / Math.PI) };
  const off = Math.abs(Math.hypot(fit.f, fit.v) / nominal - 1);
  return off > LENS_REACH ? { refused: 'other-lens', figure: 100 * off } : undefined;
};

/** @param onSearched is called after the search, the long part. */
export const chooseFit = (fringes: Fringes, onSearched: () => void): Chosen | Refused => {
  const { rows, count, widthMm, heightMm, pitchMm } = fringes;
  const readable = readableBands(fringes);
  const enough = Math.max(3, 0.6 * count);
  if (readable.size < enough) return { refused: 'glare' };

  const nominal = 1 / pitchMm;
  // Marks under ribs appear to jump by up to a rib.
  const cornerDoubtMm = 0.02 + 0.1 * pitchMm;
  const peaks = searchFringes(
    rows.filter(({ band }) => readable.has(band)),
    { middle: nominal, reach: LENS_REACH * nominal, step: 0.2 / widthMm },
    { middle: 0, reach: SKEW_REACH * nominal, step: 0.2 / heightMm },
    6,
  );
  onSearched();
  const care = { rounds: 5, cornerDoubtMm };
  const closely = { rounds: 8, cornerDoubtMm };
  const fits = peaks
    .map((peak) => fitFringes(rows, count, readable, peak, care))
    .filter((fit): fit is FringeFit => fit !== undefined)
    .sort((a, b) => b.explained - a.explained);
  const first = fits[0] && fitFringes(rows, count, readable, fits[0], closely);
  if (first === undefined || first.amplitude < LEAST_AMPLITUDE)
    return elsewhere(fringes, readable, care) ?? { refused: 'lens-turned' };
  const { fit, rows: lying, bare } = onTheLens(fringes, readable, first, closely);
  if (fit.explained < EXPLAINS)
    return (
      elsewhere(fringes, readable, care) ?? {
        refused: bare > MOST_BARE ? 'part-covered' : 'wrong-strip',
      }
    );
  const left = readableBands({ ...fringes, rows: lying });
  if (bare > MOST_BARE || left.size < enough) return { refused: 'part-covered' };
  const rival = fits.find(
    (one) =>
      Math.abs(one.f - first.f) * widthMm > 0.3 || Math.abs(one.v - first.v) * heightMm > 0.3,
  );
  if (rival !== undefined && rival.explained > first.explained - 0.1 * (1 - first.explained) - 0.02)
    return { refused: 'no-fit' };
  return { ...withoutOutliers({ ...fringes, rows: lying }, left, fit, cornerDoubtMm), bare };
};
