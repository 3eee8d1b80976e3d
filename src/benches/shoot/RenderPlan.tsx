/** The render plan: the smallest frames that lose nothing, their hours, and what less would cost. */
import type { FrameSize } from '../../core/plan/render-plan.ts';
import {
  detailLeft,
  frameAt,
  hoursFor,
  lensPerMm,
  naiveFrame,
  rowsPerMm,
  smallestFrame,
} from '../../core/plan/render-plan.ts';
import { rigRange } from '../../core/plan/rig.ts';
import { sayLength, trimmed } from '../../core/units/format.ts';
import { plainMeasure } from '../../core/units/measure.ts';
import { setViewSlots } from '../../job/edits/consequences.ts';
import type { Job } from '../../job/schema/job.ts';
import { printsDepth } from '../../job/facts/prints-depth.ts';
import { frameNeedsOf, plannedFrame, rigSettingOf, sceneUnitOf } from '../../job/facts/rig.ts';
import { dotsUnderRib, ribsAcross } from '../../job/facts/sheet.ts';
import { NumberFields } from '../desk/NumberFields.tsx';
import { useChange, useEdit, useUnits } from '../studio.ts';
import {
  BlankMeasure,
  Button,
  Fields,
  Figure,
  MeasureField,
  Panel,
  Table,
} from '../../ui/index.ts';
import { changeRig } from '../../job/edits/rig.ts';
import { sceneLength } from '../../job/facts/scene-measure.ts';

const said = ({ widthPx, heightPx }: FrameSize) => `${widthPx} × ${heightPx} px`;

const timedFrame = (job: Job) => {
  const planned = plannedFrame(job);
  const hours = job.rig?.frameHours;
  return hours === undefined
    ? undefined
    : {
        hours,
        widthPx: job.rig?.timedWidthPx ?? planned.widthPx,
        heightPx: job.rig?.timedHeightPx ?? planned.heightPx,
      };
};

const hoursSaid = (job: Job, size: FrameSize, frames: number): string => {
  const timed = timedFrame(job);
  if (timed === undefined) return 'not timed yet';
  const hours = hoursFor(size, frames, timed);
  return hours < 1 ? `${trimmed(hours * 60, 1)} min` : `${trimmed(hours, 1)} h`;
};

const timeMeasure = plainMeasure(0.25, 4, 'hours');
const pixels = plainMeasure(10, 0, 'px');

const FrameFields = ({ job }: { readonly job: Job }) => {
  const change = useEdit(changeRig);
  const planned = plannedFrame(job);
  const timed = {
    timedWidthPx: job.rig?.timedWidthPx ?? planned.widthPx,
    timedHeightPx: job.rig?.timedHeightPx ?? planned.heightPx,
  };
  return (
    <Fields least={13}>
      <MeasureField
        label="Samples a lenticule"
        value={frameNeedsOf(job).oversampling}
        measure={plainMeasure(0.5, 2)}
        hint="Two keep edges clean (our choice)."
        onCommit={(oversampling) => change('samples a lenticule', { oversampling })}
      />
      <BlankMeasure
        label="Hours for one frame"
        value={job.rig?.frameHours}
        measure={timeMeasure}
        hint="Time one; empty: not timed."
        onCommit={(frameHours) =>
          change('hours for one frame', {
            frameHours,
            // What was timed stays what it was when the plan changes.
            ...(frameHours === undefined ? {} : timed),
          })
        }
      />
      <NumberFields
        of={timed}
        rows={[
          ['timedWidthPx', 'Timed frame’s width', pixels],
          ['timedHeightPx', 'Timed frame’s height', pixels],
        ]}
        edit={(_, size) => change('timed frame', size)}
      />
    </Fields>
  );
};

const SizeTable = ({ job }: { readonly job: Job }) => {
  const change = useEdit(changeRig);
  const needs = frameNeedsOf(job);
  const planned = plannedFrame(job);
  const sizes = [
    { name: 'A pixel a printed dot', size: naiveFrame(needs) },
    { name: 'Loses nothing', size: smallestFrame(needs), chosen: undefined },
    {
      name: `${trimmed(needs.oversampling, 1)} samples a lenticule`,
      size: frameAt(needs, lensPerMm(needs)),
    },
    { name: 'One sample a lenticule', size: frameAt(needs, 1 / needs.pitchMm) },
  ].filter(
    ({ size }, at, all) => all.findIndex((other) => other.size.widthPx === size.widthPx) === at,
  );
  return (
    <Table
      name="Frame sizes"
      caption="Frame sizes: what less would save and cost"
      head={['Frame', 'Size', 'Hours for the set', 'Across the ribs', 'Along them', 'Choice']}
      rows={sizes.map(({ name, size }) => {
        const left = detailLeft(needs, size);
        const frameWidthPx =
          size.widthPx === smallestFrame(needs).widthPx ? undefined : size.widthPx;
        return [
          name,
          said(size),
          hoursSaid(job, size, job.viewSlots),
          `${trimmed(100 * left.across, 0)} % of the lens`,
          `${trimmed(100 * left.along, 0)} % of the eye`,
          size.widthPx === planned.widthPx ? (
            'planned'
          ) : (
            <Button
              look="quiet"
              aria-label={`Use ${said(size)}`}
              onClick={() => void change('frame size', { frameWidthPx })}
            >
              Use
            </Button>
          ),
        ];
      })}
    />
  );
};

/** What a job may hold. */
const MOST_VIEWS = 200;

const ViewTable = ({ job }: { readonly job: Job }) => {
  const change = useChange();
  const planned = plannedFrame(job);
  const unit = sceneUnitOf(job);
  const most = Math.max(2, Math.floor(dotsUnderRib(job) + 0.05));
  const depth = printsDepth(job);
  const beyondDots = depth
    ? ', more than the dots under a rib: a little sharper'
    : ', more than the dots under a rib';
  const counts = [
    ...new Set([
      ...(depth ? [Math.min(MOST_VIEWS, 2 * most)] : []),
      most,
      job.viewSlots,
      ...[0.75, 0.5, 0.33].map((part) => Math.max(2, Math.round(most * part))),
    ]),
  ].sort((a, b) => b - a);
  return (
    <Table
      name="Numbers of views"
      caption="Numbers of views: fewer cost depth"
      head={[
        'Views',
        'Hours for the set',
        ...(job.ribs === 'upright' ? ['Sharp in front', 'Sharp behind'] : []),
        'Choice',
      ]}
      rows={counts.map((count) => {
        const sharp = rigRange({ ...rigSettingOf(job), viewSlots: count }, 1);
        return [
          `${count}${count > most ? beyondDots : ''}`,
          hoursSaid(job, planned, count),
          ...(job.ribs === 'upright'
            ? [sceneLength(sharp.front, unit), sceneLength(sharp.behind, unit)]
            : []),
          count === job.viewSlots ? (
            'planned'
          ) : (
            <Button
              look="quiet"
              aria-label={`Use ${count} views`}
              onClick={() => void change('view slots', (now) => setViewSlots(now, count))}
            >
              Use
            </Button>
          ),
        ];
      })}
    />
  );
};

export const RenderPlan = ({ job }: { readonly job: Job }) => {
  const units = useUnits();
  const needs = frameNeedsOf(job);
  const planned = plannedFrame(job);
  const [naive, smallest] = [naiveFrame(needs), smallestFrame(needs)];
  const saved = 1 - (planned.widthPx * planned.heightPx) / (naive.widthPx * naive.heightPx);
  return (
    <Panel title="Render plan">
      <FrameFields job={job} />
      <div>
        <Figure
          label="Smallest frame that loses nothing"
          value={said(smallest)}
          relation={`across: ${trimmed(ribsAcross(job), 0)} lenticules × ${trimmed(needs.oversampling, 1)}, ${trimmed(lensPerMm(needs), 2)} px/mm; along: ${trimmed(rowsPerMm(needs), 2)} px/mm; square pixels take the finer`}
        >
          Across its ribs the lens shows one sample a lenticule. Along them an eye at{' '}
          {sayLength(needs.distanceMm, units)} tells one minute of arc (ISO 8596), and the printer
          lays {trimmed(needs.alongDpi, 0)} rows an inch: the coarser of the two counts.
        </Figure>
        <Figure
          label="A pixel for every printed dot"
          value={said(naive)}
          relation="print width × dots across, print height × dots along"
        />
        <Figure
          label="Planned"
          value={`${said(planned)}, ${trimmed(100 * saved, 0)} % fewer pixels`}
          relation="1 − planned pixels / naive pixels"
        />
        <Figure
          label={`Hours for ${job.viewSlots} frames`}
          value={hoursSaid(job, planned, job.viewSlots)}
          relation="frames × hours of the timed frame × pixels / its pixels"
        >
          Naive size: {hoursSaid(job, naive, job.viewSlots)}. In proportion to the pixels, as path
          tracers go; the time to load a scene is not counted.
        </Figure>
      </div>
      <SizeTable job={job} />
      <ViewTable job={job} />
    </Panel>
  );
};
