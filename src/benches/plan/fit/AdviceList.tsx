/** How many frames to make for depth, for flips and for animation, and why. */
import { zoneWidth } from '../../../core/lens/traced.ts';
import type { FrameAdvice } from '../../../core/plan/frame-advice.ts';
import { frameAdvice } from '../../../core/plan/frame-advice.ts';
import { sayLength } from '../../../core/units/format.ts';
import { mm } from '../../../core/units/units.ts';
import { setViewSlots } from '../../../job/edits/consequences.ts';
import type { LensFacts } from '../../../job/facts/plan.ts';
import { eyesApartOf } from '../../../job/facts/plan.ts';
import { useJob, useUnits } from '../../studio.ts';
import { Button, Columns, Stack } from '../../../ui/index.ts';
import styles from './fit.module.css';
import { ToldRegion, useTold } from './use-told.tsx';

const uses = [
  { use: 'depth', name: 'Depth', unit: 'frames' },
  { use: 'flip', name: 'Flips', unit: 'pictures' },
  { use: 'animation', name: 'Animation', unit: 'frames' },
] as const;

interface AdviceProps {
  readonly name: string;
  readonly unit: string;
  readonly advice: FrameAdvice;
  readonly viewSlots: number;
  onTake(): void;
}

const Advice = ({ name, unit, advice, viewSlots, onTake }: AdviceProps) => {
  const outOfReach = advice.frames < 2;
  const slots = advice.slots ?? advice.frames;
  const isSet = viewSlots === slots;
  return (
    <li>
      <h4>{name}</h4>
      <p className={styles['count']}>{outOfReach ? 'out of reach' : `${advice.frames} ${unit}`}</p>
      {advice.reasons.map((reason) => (
        <p key={reason}>{reason}</p>
      ))}
      {!outOfReach && (
        <Button
          off={isSet}
          onClick={onTake}
          aria-label={isSet ? undefined : `Set view slots to ${slots} for ${name.toLowerCase()}`}
        >
          {isSet ? `View slots are ${slots}` : `Set view slots to ${slots}`}
        </Button>
      )}
    </li>
  );
};

export const AdviceList = ({ facts }: { readonly facts: LensFacts }) => {
  const job = useJob();
  const units = useUnits();
  const { told, act } = useTold();
  const distanceMm = mm(job.print.viewingDistanceMm);
  const advice = frameAdvice({
    fit: facts.fit,
    toldApart: facts.toldApart,
    distanceMm,
    zoneMm: zoneWidth(facts.lens, distanceMm),
    eyesApartMm: eyesApartOf(job),
    partsEyes: job.ribs === 'upright',
    ...(units === 'in' ? { say: (length: number) => sayLength(length, units) } : {}),
  });
  const take = (frames: number) =>
    act(['view slots', (now) => setViewSlots(now, frames)], (before) => ({
      title: `View slots are ${frames}`,
      lines: [
        `They were ${before.viewSlots}.` +
          (before.slotsByHand === undefined
            ? ''
            : ' Slots filled by hand are spread evenly again.'),
      ],
    }));
  return (
    <Stack className={styles['advice']}>
      <h3>How many frames to make</h3>
      <Columns as="ul" least={12} gap={4} align="stretch">
        {uses.map(({ use, name, unit }) => (
          <Advice
            key={use}
            name={name}
            unit={unit}
            advice={advice[use]}
            viewSlots={job.viewSlots}
            onTake={() => take(advice[use].slots ?? advice[use].frames)}
          />
        ))}
      </Columns>
      <ToldRegion told={told} />
    </Stack>
  );
};
