/** Where the print is cut, over the proof of a page with bleed: what lies outside is no part of the print. */
import { formatLengthRough } from '../../core/units/format.ts';
import { mm } from '../../core/units/units.ts';
import { bleedMmOf } from '../../job/facts/sheet.ts';
import { Prose } from '../../ui/index.ts';
import { useJob, useUnits } from '../studio.ts';
import styles from './weave.module.css';

/** In millimetres of the woven picture, which is fitted into its box as the proof fits it. */
export const TrimLine = () => {
  const job = useJob();
  const bleed = bleedMmOf(job);
  if (bleed === 0) return null;
  const { widthMm, heightMm } = job.print;
  const [width, height] = [widthMm + 2 * bleed, heightMm + 2 * bleed];
  const trim = `M${bleed} ${bleed}h${widthMm}v${heightMm}h${-widthMm}Z`;
  return (
    <svg
      className={styles['trim']}
      viewBox={`0 0 ${width} ${height}`}
      preserveAspectRatio="xMidYMid meet"
      aria-hidden="true"
      data-testid="trim-line"
    >
      <path className={styles['bled']} fillRule="evenodd" d={`M0 0h${width}v${height}H0Z${trim}`} />
      <path className={styles['cut']} d={trim} />
    </svg>
  );
};

export const TrimWords = () => {
  const bleed = bleedMmOf(useJob());
  const units = useUnits();
  if (bleed === 0) return null;
  return (
    <Prose>
      The dashed line is the trim. The {formatLengthRough(mm(bleed), units)} {units} of bleed around
      it are woven too, and cut off.
    </Prose>
  );
};
