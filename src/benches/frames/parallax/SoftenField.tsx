import type { Spread } from '../../../core/frames/parallax/summary.ts';
import { trimmed } from '../../../core/units/format.ts';
import { setSoften } from '../../../job/edits/consequences.ts';
import { framesPerSlot } from '../../../job/facts/parallax.ts';
import { softenStanding } from '../../../job/facts/soften.ts';
import type { Job } from '../../../job/schema/job.ts';
import { Figure, Prose, Slider, Stack } from '../../../ui/index.ts';
import { useChange, useWork } from '../../studio.ts';

interface Props {
  readonly job: Job;
  readonly spread: Spread;
}

const percent = (share: number) => `${trimmed(100 * share, 0)} %`;

/** What becomes of the places beyond the sharp range. */
const words = (standing: ReturnType<typeof softenStanding>, beyond: string): string => {
  if (standing === 'unmeasured')
    return 'It waits for the measurement to be finished: until then proof and sheet show the frames as they came.';
  if (standing === 'on')
    return `${beyond} of the measured places are softened, in proof, loupe and sheet alike; the rest keeps every bit. The frames themselves stay as they are.`;
  return `${beyond} of the measured places lie beyond the sharp range. Softened across the ribs they blur where their edges would double.`;
};

/** How far to soften what the lens cannot show. Off at first. */
export const SoftenField = ({ job, spread }: Props) => {
  const change = useChange();
  const whole = useWork((work) => work.wholeParallax);
  const standing = softenStanding(job, whole);
  if (standing === 'lying')
    return (
      <Prose large>Under lying ribs both eyes see the same: there is no parallax to soften.</Prose>
    );
  const strength = job.soften ?? 0;
  const most = Math.max(Math.abs(spread.front), Math.abs(spread.behind)) * framesPerSlot(job);
  return (
    <Stack>
      <Slider
        label="Soften"
        min={0}
        max={100}
        step={5}
        value={100 * strength}
        valueText={strength === 0 ? 'off' : percent(strength)}
        ticks={[0, 100]}
        onChange={(value) =>
          void change('softening', (now) => setSoften(now, value / 100), 'soften')
        }
      />
      <Prose large>{words(standing, percent(spread.soft + spread.broken))}</Prose>
      <Figure
        label="Detail the lens can show at the furthest"
        value={most <= 1 ? 'all of it' : `1/${trimmed(most, 2)}`}
        relation="highest frequency shown = p / |s| of the lens’s own, for |s| > p"
        relationNumber={6}
      >
        The display bandwidth after Zwicker, Matusik, Durand and Pfister (2006). At 100 % half of
        what lies at that limit is left, and less beyond it.
      </Figure>
    </Stack>
  );
};
