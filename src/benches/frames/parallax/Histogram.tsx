import type { Spread } from '../../../core/frames/parallax/summary.ts';
import { histogramOf } from '../../../core/frames/parallax/summary.ts';
import { SHARP_LENTICULES, SOFT_LENTICULES } from '../../../core/plan/depth.ts';
import { trimmed } from '../../../core/units/format.ts';
import { FiguresTable, Prose, Stack } from '../../../ui/index.ts';
import styles from './parallax.module.css';

interface Props {
  /** Ribs per view of all pairs; NaN is passed over. */
  readonly steps: readonly number[];
  readonly spread: Spread;
  readonly framesPerView: number;
}

const BIN = 0.1;
const BINS_AT_MOST = 120;

const percent = (share: number) => `${trimmed(100 * share, 1)} %`;

const qualityOf = (step: number): 'sharp' | 'soft' | 'broken' =>
  Math.abs(step) <= SHARP_LENTICULES
    ? 'sharp'
    : Math.abs(step) <= SOFT_LENTICULES
      ? 'soft'
      : 'broken';

/** How many places move how far, with the limits of what the lens can show. */
export const Histogram = ({ steps, spread, framesPerView }: Props) => {
  const width = BIN * Math.max(1, Math.ceil((spread.behind - spread.front) / BIN / BINS_AT_MOST));
  // The limits are always in view, and what lies far out shares the outermost bars.
  const reach = Math.max(
    SOFT_LENTICULES + 0.5,
    1.2 * Math.max(Math.abs(spread.front), Math.abs(spread.behind)) * framesPerView,
  );
  const bins = histogramOf(
    steps.map((step) => Math.max(-reach, Math.min(reach - width / 2, step * framesPerView))),
    width,
  );
  const most = Math.max(1, ...bins.map(({ count }) => count));
  const at = (step: number) => 50 + (50 * step) / reach;
  const limits = [-SOFT_LENTICULES, -SHARP_LENTICULES, 0, SHARP_LENTICULES, SOFT_LENTICULES];
  return (
    <Stack>
      <h3>How far places move</h3>
      <div
        className={styles['bars']}
        role="img"
        aria-label={`Histogram of motion: ${percent(spread.sharp)} sharp, ${percent(spread.soft)} soft, ${percent(spread.broken)} broken`}
      >
        {bins.map(({ from, to, count }) => (
          <span
            key={from}
            className={styles[qualityOf((from + to) / 2)]}
            style={{
              left: `${at(from)}%`,
              width: `${at(to) - at(from)}%`,
              height: `${(100 * count) / most}%`,
            }}
          />
        ))}
        {limits.map((limit) => (
          <i key={limit} style={{ left: `${at(limit)}%` }} />
        ))}
      </div>
      <p className={styles['axis']} aria-hidden="true">
        {limits.map((limit) => (
          <span key={limit} style={{ left: `${at(limit)}%` }}>
            {limit > 0 ? `+${limit}` : String(limit).replace('-', '−')}
          </span>
        ))}
      </p>
      <Prose large>
        Ribs per view. Sharp within one, soft to two, broken beyond: {percent(spread.sharp)} sharp,{' '}
        {percent(spread.soft)} soft, {percent(spread.broken)} broken.
      </Prose>
      <FiguresTable
        caption="Motion in figures"
        head={['From (ribs per view)', 'To', 'Places', 'The lens shows it']}
        rows={bins.map(({ from, to, count }) => [
          trimmed(from, 2).replace('-', '−'),
          trimmed(to, 2).replace('-', '−'),
          count,
          qualityOf((from + to) / 2),
        ])}
      />
    </Stack>
  );
};
