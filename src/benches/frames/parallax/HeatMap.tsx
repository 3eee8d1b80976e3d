import type { PointerEvent } from 'react';
import { useEffect, useRef } from 'react';
import type { PairMotion } from '../../../core/frames/parallax/pair.ts';
import { STILL_LENTICULES } from '../../../core/frames/parallax/summary.ts';
import { nameInText } from '../../../core/names/shown.ts';
import type { Frame } from '../../../job/schema/job.ts';
import { RAMP_ENDS, colourOf, cssOf } from '../../../preview/drawings/ramp.ts';
import { useThumbnail } from '../../studio.ts';
import styles from './parallax.module.css';

interface Props {
  readonly frame: Frame;
  readonly motion: PairMotion;
  /** Ribs per view, one a place; NaN where nothing is known. */
  readonly steps: Float32Array;
  /** A place was chosen to stand still: its motion now. */
  onPick(step: number): void;
}

const paint = (canvas: HTMLCanvasElement, { columns, rows }: PairMotion, steps: Float32Array) => {
  const context = canvas.getContext('2d');
  if (context === null) return;
  const image = context.createImageData(columns, rows);
  steps.forEach((step, at) => {
    if (Number.isNaN(step)) return;
    image.data.set([...colourOf(step), 225], at * 4);
  });
  context.putImageData(image, 0, 0);
};

/** Motion over the frame it was measured from. Picking is the pointer's way; the slider is the keyboard's. */
export const HeatMap = ({ frame, motion, steps, onPick }: Props) => {
  const canvas = useRef<HTMLCanvasElement>(null);
  const picture = useThumbnail(frame);
  const { columns, rows, placeWidth, placeHeight } = motion;
  useEffect(() => {
    if (canvas.current !== null) paint(canvas.current, motion, steps);
  }, [motion, steps]);
  const pick = (event: PointerEvent<HTMLDivElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    const column = Math.floor((event.clientX - box.left) / box.width / placeWidth);
    const row = Math.floor((event.clientY - box.top) / box.height / placeHeight);
    const step = column < columns && row < rows ? steps[row * columns + column] : undefined;
    if (step !== undefined && !Number.isNaN(step)) onPick(step);
  };
  const known = steps.filter((step) => !Number.isNaN(step));
  const still = known.filter((step) => Math.abs(step) < STILL_LENTICULES).length;
  const share = known.length === 0 ? 0 : Math.round((100 * still) / known.length);
  return (
    <div
      className={styles['map']}
      style={{
        aspectRatio: frame.widthPx / frame.heightPx,
        maxWidth: `min(100%, ${(26 * frame.widthPx) / frame.heightPx}rem)`,
      }}
      onPointerDown={pick}
    >
      {picture !== undefined && <img src={picture} alt="" draggable={false} />}
      <canvas
        ref={canvas}
        width={columns}
        height={rows}
        role="img"
        aria-label={`Heat map of ${nameInText(frame.name)}: ${known.length} of ${columns * rows} places measured, ${share} % of them stand still`}
        style={{ width: `${100 * columns * placeWidth}%`, height: `${100 * rows * placeHeight}%` }}
      />
    </div>
  );
};

const MARKS = [-2, -1, 0, 1, 2];

/** The colour ramp, labelled in ribs per view. */
export const Legend = () => (
  <div className={styles['legend']} aria-hidden="true">
    <span
      className={styles['ramp']}
      style={{
        background: `linear-gradient(to right, ${[-RAMP_ENDS, 0, RAMP_ENDS]
          .map((step) => cssOf(colourOf(step)))
          .join(', ')})`,
      }}
    />
    <span className={styles['marks']}>
      {MARKS.map((mark) => (
        <span key={mark}>{mark > 0 ? `+${mark}` : String(mark).replace('-', '−')}</span>
      ))}
    </span>
    <span className={styles['ends']}>
      <span>in front</span>
      <span>ribs per view</span>
      <span>behind</span>
    </span>
  </div>
);
