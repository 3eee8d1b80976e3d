/** The render plan: the smallest frames that lose nothing, their hours, and what less would cost. */
import type { FrameSize } from '../../core/plan/render-plan.ts';
import {
  detailLeft,
  frameAt,
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
import { renderHoursOf, sayRenderHours } from '../../job/facts/render-hours.ts';
import { sceneLength } from '../../job/facts/scene-measure.ts';

const said = ({ widthPx, heightPx }: FrameSize) => `${widthPx} × ${heightPx} px`;

const hoursSaid = (job: Job, size: FrameSize, frames: number): string =>
  sayRenderHours(renderHoursOf(job, size, frames));

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

interface Line {
  readonly what: string;
  readonly hours: string;
  readonly costs: string;
  /** Named to who hears it; undefined where it is planned. */
  readonly use: string | undefined;
  take(): unknown;
}

const sizeLines = (job: Job, change: (frameWidthPx: number | undefined) => unknown): Line[] => {
  const needs = frameNeedsOf(job);
  const planned = plannedFrame(job);
  const sizes = [
    { name: 'a pixel a printed dot', size: naiveFrame(needs) },
    { name: 'loses nothing', size: smallestFrame(needs) },
    {
      name: `${trimmed(needs.oversampling, 1)} samples a lenticule`,
      size: frameAt(needs, lensPerMm(needs)),
    },
    { name: 'one sample a lenticule', size: frameAt(needs, 1 / needs.pitchMm) },
  ].filter(
    ({ size }, at, all) => all.findIndex((other) => other.size.widthPx === size.widthPx) === at,
  );
  return sizes.map(({ name, size }) => {
    const left = detailLeft(needs, size);
    return {
      what: `${said(size)}: ${name}`,
      hours: hoursSaid(job, size, job.viewSlots),
      costs: `${trimmed(100 * left.across, 0)} % of what the lens shows, ${trimmed(100 * left.along, 0)} % of what an eye tells along the ribs`,
      use: size.widthPx === planned.widthPx ? undefined : said(size),
      take: () => change(size.widthPx === smallestFrame(needs).widthPx ? undefined : size.widthPx),
    };
  });
};

/** What a job may hold. */
const MOST_VIEWS = 200;

const viewLines = (job: Job, change: (count: number) => unknown): Line[] => {
  const planned = plannedFrame(job);
  const unit = sceneUnitOf(job);
  const most = Math.max(2, Math.floor(dotsUnderRib(job) + 0.05));
  const depth = printsDepth(job);
  const beyondDots = `more than the dots under a rib${depth ? ': a little sharper' : ''}`;
  const counts = [
    ...new Set([
      ...(depth ? [Math.min(MOST_VIEWS, 2 * most)] : []),
      most,
      job.viewSlots,
      ...[0.75, 0.5, 0.33].map((part) => Math.max(2, Math.round(most * part))),
    ]),
  ].sort((a, b) => b - a);
  return counts.map((count) => {
    const sharp = rigRange({ ...rigSettingOf(job), viewSlots: count }, 1);
    return {
      what: `${count} views`,
      hours: hoursSaid(job, planned, count),
      costs: [
        ...(job.ribs === 'upright'
          ? [
              `sharp to ${sceneLength(sharp.front, unit)} in front, ${sceneLength(sharp.behind, unit)} behind`,
            ]
          : []),
        ...(count > most ? [beyondDots] : []),
      ].join('; '),
      use: count === job.viewSlots ? undefined : `${count} views`,
      take: () => change(count),
    };
  });
};

/** Smaller frames and fewer views side by side: both save hours, and each costs something else. */
const SavingsTable = ({ job }: { readonly job: Job }) => {
  const change = useChange();
  const edit = useEdit(changeRig);
  const lines = [
    ...sizeLines(job, (frameWidthPx) => edit('frame size', { frameWidthPx })),
    ...viewLines(job, (count) => change('view slots', (now) => setViewSlots(now, count))),
  ];
  return (
    <Table
      name="Smaller frames, fewer views"
      caption="Smaller frames and fewer views: hours for the set, and what is left"
      head={['Plan', 'Hours', 'What is left', 'Choice']}
      rows={lines.map(({ what, hours, costs, use, take }) => [
        what,
        hours,
        costs,
        use === undefined ? (
          'planned'
        ) : (
          <Button look="quiet" aria-label={`Use ${use}`} onClick={() => void take()}>
            Use
          </Button>
        ),
      ])}
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
      <SavingsTable job={job} />
    </Panel>
  );
};
