/** The photo with what was found in it: corner marks to drag, bands outlined, fringes measured and fitted. */
import type { BandFit, PhaseFit, PhotoCorners, PhotoPoint } from '../../core/pitch/photo/photo.ts';
import { CornerFrame, placeBetween } from '../desk/CornerFrame.tsx';
import styles from './calibrate.module.css';

interface Props {
  readonly file: File;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly corners: PhotoCorners;
  readonly bands: readonly BandFit[];
  readonly phase: PhaseFit | undefined;
  readonly ribs: 'upright' | 'lying';
  onCorners(corners: PhotoCorners): void;
}

const pointsOf = (outline: PhotoCorners): string =>
  outline.map(({ xPx, yPx }) => `${xPx},${yPx}`).join(' ');

/** A place in a band by its shares: across the ribs, and along them. */
const placesIn = ({ outline: [tl, tr, br, bl] }: BandFit, ribs: Props['ribs']) => {
  const [a0, a1, b0, b1] = ribs === 'upright' ? [tl, tr, bl, br] : [bl, tl, br, tr];
  return (across: number, along: number) =>
    placeBetween(placeBetween(a0, a1, across), placeBetween(b0, b1, across), along);
};

interface StrokeProps {
  readonly look: string;
  readonly from: PhotoPoint;
  readonly to: PhotoPoint;
}

const Stroke = ({ look, from, to }: StrokeProps) => (
  <line className={styles[look]} x1={from.xPx} y1={from.yPx} x2={to.xPx} y2={to.yPx} />
);

/** Halves of a fringe from the band's middle: measured along its first half, fitted along the other. */
const sharesOf = (fringes: number): number[] => {
  const count = Math.min(60, Math.floor(Math.abs(fringes)));
  return Array.from({ length: 2 * count + 1 }, (_, i) =>
    count === 0 ? 0.5 : 0.5 + (i - count) / (2 * Math.abs(fringes)),
  );
};

const within = (share: number) => Math.max(0, Math.min(1, share));

const Ticks = ({ fit, ribs }: { readonly fit: BandFit; readonly ribs: Props['ribs'] }) => {
  const at = placesIn(fit, ribs);
  // A whole band's width is one fringe.
  const end = 0.5 + fit.residual;
  const [low, high] = [within(end - 2 * fit.sigma), within(end + 2 * fit.sigma)];
  return (
    <>
      {sharesOf(fit.fringes).map((share) => (
        <Stroke key={`m${share}`} look="measuredFringe" from={at(share, 0)} to={at(share, 0.45)} />
      ))}
      {sharesOf(fit.fittedFringes).map((share) => (
        <Stroke key={`f${share}`} look="fittedFringe" from={at(share, 0.45)} to={at(share, 0.8)} />
      ))}
      <Stroke look="leftOver" from={at(0.5, 0.9)} to={at(within(end), 0.9)} />
      <Stroke look="doubt" from={at(low, 0.9)} to={at(high, 0.9)} />
    </>
  );
};

export const PhotoCanvas = ({ bands, phase, ribs, ...photo }: Props) => (
  <CornerFrame
    {...photo}
    alt="Your photo of the strip"
    cornerName="Corner mark"
    drawnLabel={`${bands.length} bands${phase === undefined ? '' : ' and the phase strip'} found; their fringes stand in the table below`}
  >
    {bands.map((fit) => (
      <g key={fit.band}>
        <polygon
          className={styles['outline']}
          data-unused={fit.used ? undefined : true}
          points={pointsOf(fit.outline)}
        />
        {fit.used && <Ticks fit={fit} ribs={ribs} />}
      </g>
    ))}
    {phase !== undefined && (
      <polygon
        className={styles['phaseOutline']}
        data-unused={phase.used ? undefined : true}
        points={pointsOf(phase.outline)}
      />
    )}
  </CornerFrame>
);
