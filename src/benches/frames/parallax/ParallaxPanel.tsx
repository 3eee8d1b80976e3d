/** Measured parallax: what the lens will make of these frames, and the key plane moved after the fact. */
import { useEffect, useState } from 'react';
import type { OrderJudgement } from '../../../core/frames/parallax/order.ts';
import { lenticulesOf } from '../../../core/frames/parallax/summary.ts';
import { nameInText } from '../../../core/names/shown.ts';
import { trimmed } from '../../../core/units/format.ts';
import { moveKeyPlane } from '../../../job/edits/shift.ts';
import type { MeasuredParallax } from '../../../job/facts/parallax.ts';
import { sequenceOf } from '../../../job/facts/sheet.ts';
import {
  framesPerSlot,
  parallaxFactsOf,
  parallaxKeyOf,
  parallaxScaleOf,
} from '../../../job/facts/parallax.ts';
import type { Frame, Job } from '../../../job/schema/job.ts';
import { startMeasuring } from '../../../studio/frames/measure-parallax.ts';
import { reverseTold } from '../../../studio/frames/told-edits.ts';
import {
  Button,
  Columns,
  Figure,
  Notice,
  Panel,
  Prose,
  Row,
  Slider,
  Stack,
  UnderWay,
} from '../../../ui/index.ts';
import { useChange, useJob, useStudio, useWork } from '../../studio.ts';
import { HeatMap, Legend } from './HeatMap.tsx';
import { Histogram } from './Histogram.tsx';
import { KeyPlaneField } from './KeyPlaneField.tsx';
import { SoftenField } from './SoftenField.tsx';
import { StepsDrawing } from './StepsDrawing.tsx';

const Progress = () => {
  const { tasks } = useStudio();
  const measuring = useWork((work) => work.measuring);
  if (measuring === undefined) return null;
  return (
    <UnderWay
      label="Measuring"
      done={measuring.done}
      total={measuring.total}
      of="pieces"
      onStop={() => tasks.stop('parallax')}
    />
  );
};

const orderWords = ({ runs, by, share, witnesses }: OrderJudgement): string => {
  if (runs === 'unknown')
    return 'From which side the frames run cannot be told from these pictures. Look at the tilt proof with both eyes.';
  const way = runs === 'right' ? 'The order is right' : 'The frames run from the wrong side';
  return by === 'edges'
    ? `${way}: ${Math.round(100 * share)} % of ${witnesses} edges between depths say so, by what covers what.`
    : `${way}, probably: the foot of the picture ${runs === 'right' ? 'moves as the nearer part' : 'moves as if it were the farther part'}. What covers what does not decide it.`;
};

const Order = ({ order }: { readonly order: OrderJudgement }) => {
  const studio = useStudio();
  return (
    <Row gap={4}>
      <p>{orderWords(order)}</p>
      {order.runs === 'reversed' && (
        <Button onClick={() => reverseTold(studio)}>Mend: reverse the order</Button>
      )}
    </Row>
  );
};

/** Two decimals, with a minus sign and not a hyphen. */
const signed = (ribs: number): string => trimmed(ribs, 2).replace('-', '−');

interface ResultsProps {
  readonly job: Job;
  readonly measured: MeasuredParallax;
}

const Results = ({ job, measured }: ResultsProps) => {
  const change = useChange();
  const [chosen, setChosen] = useState<number>();
  const facts = parallaxFactsOf(job, measured);
  if (facts === undefined) return null;
  const scale = parallaxScaleOf(job);
  const last = measured.pairs.length - 1;
  const pair = Math.min(last, chosen ?? last >> 1);
  const motion = measured.pairs[pair];
  const moved = measured.pairs.map((one) => one && lenticulesOf(one, scale));
  const steps = moved[pair];
  const keyShift = job.keyShift ?? 0;
  const frames = sequenceOf(job);
  const frame = frames[pair] as Frame;
  return (
    <>
      {facts.order !== undefined && <Order order={facts.order} />}
      <Columns least={19} gap={5}>
        <Stack>
          {motion !== undefined && steps !== undefined && (
            <HeatMap
              frame={frame}
              motion={motion}
              steps={steps}
              onPick={(step) => void change(...moveKeyPlane(keyShift + step))}
            />
          )}
          <Legend />
          {last > 0 && (
            <Slider
              label="Pair shown"
              min={1}
              max={last + 1}
              step={1}
              value={pair + 1}
              valueText={`${pair + 1} of ${last + 1}: ${nameInText(frame.name)} to ${nameInText(frames[pair + 1]?.name ?? '')}`}
              onChange={(value) => setChosen(value - 1)}
            />
          )}
        </Stack>
        <Stack>
          <KeyPlaneField keyShift={keyShift} spread={facts.spread} />
          <Prose large>
            Choose a place in the picture to put the key plane there. The frames are slid when they
            are prepared; they themselves stay as they are.
            {job.placement.mode === 'fit' && ' As frames are shown whole, their edges slide too.'}
          </Prose>
          <Figure
            label="Stands still"
            value={`${trimmed(100 * facts.spread.still, 0)} %`}
            relation="|s| < 0.1 p from one frame to the next"
            relationNumber={6}
          >
            Share of the measured places that do not move: they lie on the key plane.
          </Figure>
          {(['front', 'behind'] as const).map((end) => (
            <Figure
              key={end}
              label={end === 'front' ? 'Furthest in front' : 'Furthest behind'}
              value={`${signed(facts.spread[end])} ribs per view`}
              relation="s / p = shift of the frame ÷ frame width × print width / p − key plane shift"
              relationNumber={6}
            >
              Two in a hundred places lie further still.
            </Figure>
          ))}
          <Histogram
            steps={moved.flatMap((one) => (one === undefined ? [] : [...one]))}
            spread={facts.spread}
            framesPerView={framesPerSlot(job)}
          />
          <SoftenField job={job} spread={facts.spread} />
          {facts.steps.length > 1 && (
            <StepsDrawing frames={frames} steps={facts.steps} levels={facts.levels} />
          )}
        </Stack>
      </Columns>
    </>
  );
};

/** Follows the sequence: what was measured once is measured again when the order changes. */
const useFollow = (stale: boolean) => {
  const studio = useStudio();
  useEffect(() => {
    if (!stale) return;
    const timer = setTimeout(() => void startMeasuring(studio), 400);
    return () => clearTimeout(timer);
  }, [studio, stale]);
};

export const ParallaxPanel = () => {
  const studio = useStudio();
  const job = useJob();
  const measured = useWork((work) => work.parallax);
  const measuring = useWork((work) => work.measuring !== undefined);
  const key = parallaxKeyOf(job);
  const stale = measured !== undefined && measured.key !== key && sequenceOf(job).length > 1;
  useFollow(stale);
  const fault = measured?.key === key ? measured.fault : undefined;
  return (
    <Panel
      title="Measured parallax"
      actions={
        !measuring && (
          <Button off={sequenceOf(job).length < 2} onClick={() => void startMeasuring(studio)}>
            {measured === undefined ? 'Measure parallax' : 'Measure again'}
          </Button>
        )
      }
    >
      {measured === undefined && !measuring && (
        <Prose large>
          Matches each frame with the next and tells, in ribs per view, what will be sharp, what
          stands still, and whether the cameras stood level, evenly and in the right order.
        </Prose>
      )}
      <Progress />
      {fault !== undefined && (
        <Notice kind="problem" title="The parallax could not be measured">
          {fault}
        </Notice>
      )}
      {measured !== undefined && !stale && <Results job={job} measured={measured} />}
    </Panel>
  );
};
