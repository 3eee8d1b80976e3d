import type { Spread } from '../../../core/frames/parallax/summary.ts';
import { trimmed } from '../../../core/units/format.ts';
import { moveKeyPlane, toHundredths } from '../../../job/edits/shift.ts';
import { Button, Row, Slider, Stack } from '../../../ui/index.ts';
import { useChange } from '../../studio.ts';

interface Props {
  readonly keyShift: number;
  readonly spread: Spread;
}

/** Where the key plane lies: from the nearest depth that was measured to the farthest. */
export const KeyPlaneField = ({ keyShift, spread }: Props) => {
  const change = useChange();
  const move = (shift: number) => void change(...moveKeyPlane(shift));
  const low = Math.min(toHundredths(spread.front + keyShift), 0, keyShift);
  const high = Math.max(toHundredths(spread.behind + keyShift), 0, keyShift);
  return (
    <Stack>
      <Slider
        label="Key plane"
        min={low}
        max={high}
        step={0.01}
        value={keyShift}
        valueText={
          keyShift === 0
            ? 'as rendered'
            : `${trimmed(Math.abs(keyShift), 2)} ribs per view ${keyShift < 0 ? 'forward' : 'back'}`
        }
        ticks={[0]}
        onChange={move}
      />
      <Row gap={2}>
        <Button onClick={() => move(keyShift + (spread.front + spread.behind) / 2)}>
          Middle of the depth
        </Button>
        <Button off={keyShift === 0} onClick={() => move(0)}>
          Key plane as rendered
        </Button>
      </Row>
    </Stack>
  );
};
