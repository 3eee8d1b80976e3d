/** The depth budget as a ruler, with the person's things pinned to it. */
import { nameInText } from '../../../core/names/shown.ts';
import { depthInWords } from '../../../core/units/depth-measure.ts';
import { trimmed } from '../../../core/units/format.ts';
import { inch, inchToMm } from '../../../core/units/units.ts';
import type { Job } from '../../../job/schema/job.ts';
import { depthMarksOf } from '../../../job/facts/plan.ts';
import { useJob, useUnits } from '../../studio.ts';
import type { Units } from '../../../state/view.ts';
import { BreaksUp, DepthZone } from '../../desk/DepthZone.tsx';
import { useWidth } from '../../../ui/plot/index.ts';
import styles from './depth.module.css';
import { depthFacts, markFacts, qualityWords } from '../../../job/facts/depth.ts';
import type { Ruler } from '../../../preview/drawings/depth-ruler.ts';
import { layRuler, tickSteps } from '../../../preview/drawings/depth-ruler.ts';
import { useMarkGrip } from './use-mark-grip.ts';

const TOP = 30;
const BAND = 54;
const LANE = 40;
const FIRST_LANE = TOP + BAND + 58;
/** Least room from one figure to the next, pixels. */
const APART = 44;

/** Middle of the wider part of the sharp zone: the print's own line runs through it. */
const besidePrint = (from: number, to: number, print: number): number =>
  (print - from > to - print ? from + print : print + to) / 2;

const Zones = ({ job, ruler }: { readonly job: Job; readonly ruler: Ruler }) => {
  const { sharp, soft } = depthFacts(job);
  const ends = [
    { quality: 'broken', from: ruler.left, to: ruler.xOf(soft.frontMm) },
    { quality: 'soft', from: ruler.xOf(soft.frontMm), to: ruler.xOf(sharp.frontMm) },
    { quality: 'sharp', from: ruler.xOf(sharp.frontMm), to: ruler.xOf(sharp.behindMm) },
    { quality: 'soft', from: ruler.xOf(sharp.behindMm), to: ruler.xOf(soft.behindMm) },
    { quality: 'broken', from: ruler.xOf(soft.behindMm), to: ruler.right },
  ] as const;
  return ends
    .filter(({ from, to }) => to - from > 0.5)
    .map(({ quality, from, to }) => (
      <g key={from}>
        <DepthZone quality={quality} x={from} y={TOP} width={to - from} height={BAND} />
        {to - from > 62 && (
          <text
            x={quality === 'sharp' ? besidePrint(from, to, ruler.xOf(0)) : (from + to) / 2}
            y={TOP + BAND / 2 + 5}
            textAnchor="middle"
          >
            {qualityWords[quality]}
          </text>
        )}
      </g>
    ));
};

const Ticks = ({ ruler, units }: { readonly ruler: Ruler; readonly units: Units }) => {
  const toMm = (value: number) => (units === 'mm' ? value : inchToMm(inch(value)));
  const kept: { x: number; text: string }[] = [{ x: ruler.xOf(0), text: 'print' }];
  const offer = (z: number, text: string) => {
    const x = ruler.xOf(z);
    if (ruler.isOn(z) && kept.every((tick) => Math.abs(tick.x - x) >= APART))
      kept.push({ x, text });
  };
  offer(Infinity, '∞');
  // The coarse ones first: they say where one is.
  for (const step of [...tickSteps(units)].reverse())
    for (const side of [-1, 1]) offer(side * toMm(step), trimmed(step, 2));
  return kept.map(({ x, text }) => (
    <g key={x}>
      <line className={styles['tick']} x1={x} x2={x} y1={TOP + BAND} y2={TOP + BAND + 8} />
      <text x={x} y={TOP + BAND + 24} textAnchor="middle">
        {text}
      </text>
    </g>
  ));
};

const Comfort = ({ job, ruler }: { readonly job: Job; readonly ruler: Ruler }) => {
  if (job.ribs !== 'upright') return null;
  const { frontMm, behindMm } = depthFacts(job).comfort;
  return [frontMm, behindMm]
    .filter((z) => z !== Infinity && ruler.isOn(z))
    .map((z) => (
      <line
        key={z}
        className={styles['comfort']}
        x1={ruler.xOf(z)}
        x2={ruler.xOf(z)}
        y1={TOP - 10}
        y2={TOP + BAND}
      />
    ));
};

interface PinProps {
  readonly job: Job;
  readonly place: number;
  readonly ruler: Ruler;
  readonly width: number;
}

const Pin = ({ job, place, ruler, width }: PinProps) => {
  const units = useUnits();
  const { mark, handlers } = useMarkGrip(job, place, ruler);
  if (mark === undefined) return null;
  const facts = markFacts(job, mark);
  const name = mark.name === '' ? `Thing ${place + 1}` : mark.name;
  const where = depthInWords(mark.zMm, units);
  const state = facts === undefined ? 'behind the eye' : qualityWords[facts.quality];
  const x = ruler.xOf(mark.zMm);
  const y = FIRST_LANE + place * LANE;
  const onLeft = x > width / 2;
  return (
    <g>
      <path className={styles['string']} d={`M${x} ${TOP + BAND / 2}V${y}`} />
      <g
        {...handlers}
        className={styles['pin']}
        aria-label={`Depth of ${nameInText(name)}`}
        aria-valuemin={-Math.round(job.print.viewingDistanceMm)}
        aria-valuemax={1_000_000}
        aria-valuenow={Math.round(mark.zMm * 10) / 10}
        aria-valuetext={`${nameInText(name)}, ${where}, ${state}`}
      >
        <circle className={styles['reach']} cx={x} cy={y} r="20" />
        <circle className={styles[facts?.quality ?? 'broken']} cx={x} cy={y} r="10" />
      </g>
      <text x={onLeft ? x - 26 : x + 26} y={y + 5} textAnchor={onLeft ? 'end' : 'start'}>
        {nameInText(name.length > 22 ? `${name.slice(0, 21)}…` : name)}, {state}
      </text>
    </g>
  );
};

export const DepthRuler = () => {
  const job = useJob();
  const units = useUnits();
  const [box, width] = useWidth<HTMLDivElement>(640);
  const marks = depthMarksOf(job);
  const { setting, soft } = depthFacts(job);
  const ruler = layRuler(
    {
      distanceMm: setting.distanceMm,
      depths: [soft.frontMm, soft.behindMm, ...marks.map(({ zMm }) => zMm)],
    },
    width,
  );
  const height = FIRST_LANE + Math.max(0, marks.length - 1) * LANE + (marks.length > 0 ? 28 : -20);
  return (
    <div ref={box} className={styles['ruler']}>
      <svg width={width} height={height} role="group" aria-label="Depth ruler">
        <defs>
          <BreaksUp />
        </defs>
        <text x={ruler.left} y={18}>
          In front
        </text>
        <text x={ruler.right} y={18} textAnchor="end">
          Behind, {units}
        </text>
        <Zones job={job} ruler={ruler} />
        <Ticks ruler={ruler} units={units} />
        <Comfort job={job} ruler={ruler} />
        <line
          className={styles['print']}
          x1={ruler.xOf(0)}
          x2={ruler.xOf(0)}
          y1={TOP - 8}
          y2={TOP + BAND + 8}
        />
        {marks.map((_, place) => (
          <Pin key={place} job={job} place={place} ruler={ruler} width={width} />
        ))}
      </svg>
    </div>
  );
};
