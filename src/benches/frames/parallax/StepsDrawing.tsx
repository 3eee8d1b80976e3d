import type { Level, PairStep } from '../../../core/frames/parallax/summary.ts';
import { nameInText } from '../../../core/names/shown.ts';
import { trimmed } from '../../../core/units/format.ts';
import type { Frame } from '../../../job/schema/job.ts';
import { FiguresTable, Prose, Stack } from '../../../ui/index.ts';
import styles from './parallax.module.css';

interface Props {
  readonly frames: readonly Frame[];
  readonly steps: readonly PairStep[];
  readonly levels: readonly Level[];
}

const figure = (value: number, digits: number) =>
  Number.isNaN(value) ? 'not to be told' : trimmed(value, digits).replace('-', '−');

/** Each camera's step against the ordinary one, and how level it kept. */
export const StepsDrawing = ({ frames, steps, levels }: Props) => {
  const most = Math.max(1.5, ...steps.map(({ stretch }) => Math.abs(stretch) || 0));
  const told = steps.filter(({ stretch }) => !Number.isNaN(stretch));
  const range =
    told.length === 0
      ? 'too flat to tell'
      : `from ${trimmed(Math.min(...told.map(({ stretch }) => stretch)), 2)} to ${trimmed(Math.max(...told.map(({ stretch }) => stretch)), 2)} of an ordinary one`;
  return (
    <Stack>
      <h3>Steps between neighbours</h3>
      <div className={styles['bars']} role="img" aria-label={`Steps between neighbours: ${range}`}>
        {steps.map(({ stretch }, index) => (
          <span
            key={index}
            className={Math.abs(stretch - 1) > 0.25 ? styles['soft'] : styles['sharp']}
            style={{
              left: `${(100 * (index + 0.15)) / steps.length}%`,
              width: `${70 / steps.length}%`,
              height: `${(100 * (Math.max(0, stretch) || 0)) / most}%`,
            }}
          />
        ))}
        <b style={{ bottom: `${100 / most}%` }} />
      </div>
      <Prose large>The line is the ordinary step; steps are {range}.</Prose>
      <FiguresTable
        caption="Steps in figures"
        head={[
          'Pair',
          'Step (1 is ordinary)',
          'Slip (ribs)',
          'Rise (ribs)',
          'Rise at the corners (ribs)',
        ]}
        rows={steps.map(({ stretch, slip }, index) => [
          `${nameInText(frames[index]?.name ?? '')} → ${nameInText(frames[index + 1]?.name ?? '')}`,
          figure(stretch, 3),
          figure(slip, 3),
          figure(levels[index]?.rise ?? NaN, 3),
          figure(levels[index]?.keystone ?? NaN, 3),
        ])}
      />
    </Stack>
  );
};
