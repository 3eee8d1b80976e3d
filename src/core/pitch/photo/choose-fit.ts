/** Chooses, among all pitches and skews that the fringes allow, the one that fits; or says why there is none. */
import { upperMedian } from '../../numeric/median.ts';
import type { FringeFit, FringeRow } from './fringe-fit.ts';
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
  /** Bands that no reflection covers. */
  readonly readable: ReadonlySet<number>;
  /** The bands among them that the fit uses. */
  readonly used: ReadonlySet<number>;
}

/** Bands of which a reflection covers at most about a third. */
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
): Chosen => {
  const usual = upperMedian([...readable].map((band) => first.alone[band]!.rms));
  const used = new Set([...readable].filter((band) => first.alone[band]!.rms < 3 * usual + 0.01));
  const all = { fit: first, readable, used: readable };
  if (used.size === readable.size || used.size < Math.max(3, 0.6 * count)) return all;
  const fit = fitFringes(rows, count, used, first, { rounds: 8, cornerDoubtMm });
  return fit === undefined ? all : { fit, readable, used };
};

/** @param onSearched is called after the search, the long part. */
export const chooseFit = (
  fringes: Fringes,
  onSearched: () => void,
): Chosen | { readonly refused: PhotoRefusal } => {
  const { rows, count, widthMm, heightMm, pitchMm } = fringes;
  const readable = readableBands(fringes);
  if (readable.size < Math.max(3, 0.6 * count)) return { refused: 'glare' };

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
  const fits = peaks
    .map((peak) => fitFringes(rows, count, readable, peak, { rounds: 5, cornerDoubtMm }))
    .filter((fit): fit is FringeFit => fit !== undefined)
    .sort((a, b) => b.explained - a.explained);
  const first = fits[0] && fitFringes(rows, count, readable, fits[0], { rounds: 8, cornerDoubtMm });
  if (first === undefined || first.amplitude < 0.02) return { refused: 'lens-turned' };
  if (first.explained < 0.5) return { refused: 'wrong-strip' };
  const rival = fits.find(
    (fit) =>
      Math.abs(fit.f - first.f) * widthMm > 0.3 || Math.abs(fit.v - first.v) * heightMm > 0.3,
  );
  if (rival !== undefined && rival.explained > first.explained - 0.1 * (1 - first.explained) - 0.02)
    return { refused: 'no-fit' };
  return withoutOutliers(fringes, readable, first, cornerDoubtMm);
};
