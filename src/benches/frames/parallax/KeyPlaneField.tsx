import type { Spread } from '../../../core/frames/parallax/summary.ts';
import { trimmed } from '../../../core/units/format.ts';
import { setKeyShift } from '../../../job/edits/consequences.ts';
import { tryChange } from '../../../state/change.ts';
import { Button, Slider } from '../../../ui/index.ts';
import styles from './parallax.module.css';

const tidy = (shift: number): number => Math.round(shift * 100) / 100;

export const moveKeyPlane = (shift: number): void =>
  void tryChange('key plane', (job) => setKeyShift(job, tidy(shift) + 0), 'keyShift');

interface Props {
  readonly keyShift: number;
  readonly spread: Spread;
}

/** Which depth stands still: from the nearest that was measured to the farthest. */
export const KeyPlaneField = ({ keyShift, spread }: Props) => {
  const low = Math.min(tidy(spread.front + keyShift), 0, keyShift);
  const high = Math.max(tidy(spread.behind + keyShift), 0, keyShift);
  return (
    <div className={styles['key']}>
      <Slider
        label="Key plane"
        min={low}
        max={high}
        step={0.01}
        value={keyShift}
        valueText={
          keyShift === 0
            ? 'as rendered'
            : `${trimmed(Math.abs(keyShift), 2)} lenticules a step ${keyShift < 0 ? 'forward' : 'back'}`
        }
        ticks={[0]}
        onChange={moveKeyPlane}
      />
      <div className={styles['row']}>
        <Button onClick={() => moveKeyPlane(keyShift + (spread.front + spread.behind) / 2)}>
          Middle of the depth
        </Button>
        <Button off={keyShift === 0} onClick={() => moveKeyPlane(0)}>
          Key plane as rendered
        </Button>
      </div>
    </div>
  );
};
