/**
 * The way: the one thing that a job needs next, and why. It says what is next in the order of the work and
 * forbids nothing; whatever else is wrong is a finding.
 */
import { trimmed } from '../../core/units/format.ts';
import { MM_PER_INCH } from '../../core/units/units.ts';
import { toBeAsked } from '../edits/guessed.ts';
import type { BenchName } from '../findings/finding.ts';
import type { Job } from '../schema/job.ts';
import { ownRun } from './made.ts';
import { mountStepIds } from './mount/step-ids.ts';
import { pitchBudget } from './pitch.ts';
import { exactnessOf } from './plan.ts';
import { sequenceOf } from './sheet.ts';
import { gridOf } from './printer.ts';

/** What the way needs to know besides the job. */
export interface WayFacts {
  /** Frames whose original is gone. */
  readonly lost: number;
  /** Frames are being added. */
  readonly coming: boolean;
  /** The file that is printed: the sheet, its tiles, or several prints together. */
  readonly file: 'none' | 'weaving' | 'woven' | 'stale';
}

/** Goes to a bench, or asks for the person's own lens and printer on the spot. */
export interface WayAct {
  readonly label: string;
  readonly goTo: BenchName | 'ask';
}

export interface WayStep {
  /** Stays the same while the step is the same. */
  readonly id: string;
  readonly says: string;
  /** A sentence. */
  readonly why: string;
  /** Undefined where there is only to wait, or nothing more to do. */
  readonly act: WayAct | undefined;
}

const step = (
  id: string,
  says: string,
  why: string,
  act?: readonly [string, WayAct['goTo']],
): WayStep => ({
  id,
  says,
  why,
  act: act && { label: act[0], goTo: act[1] },
});

const inFrames = ['Go to Frames', 'frames'] as const;
const onCalibrate = ['Go to Calibrate', 'calibrate'] as const;

const firstFrames = ({ recipe, stage, ribs }: Job): WayStep => {
  // Lying ribs show nothing of depth: the stage renders for upright ones.
  if (stage !== undefined && ribs === 'upright')
    return step(
      'frames',
      'Render the views of your scene',
      'The stage on Shoot makes the frames, through the cameras of this job.',
      ['Go to Shoot', 'shoot'],
    );
  if (recipe?.kind === 'flip')
    return step(
      'frames',
      `Add the ${recipe.pictures.length} pictures that it flips between`,
      'There is nothing to weave without them.',
      inFrames,
    );
  return step(
    'frames',
    'Add the frames',
    recipe?.kind === 'animation'
      ? 'There is nothing to weave until the sequence is laid in.'
      : 'There is nothing to weave without them; Shoot says where the cameras stand.',
    inFrames,
  );
};

/** Numbers left out, which only a sequence can have; pictures not chosen, which only a flip can lack. */
const missing = (job: Job): WayStep | undefined => {
  const { recipe } = job;
  if (recipe?.kind === 'flip') {
    const known = new Set(sequenceOf(job).map(({ id }) => id));
    const open = recipe.pictures.filter((id) => !known.has(id)).length;
    if (open === 0) return undefined;
    return step(
      'flip',
      open === 1
        ? 'A picture of the flip is not chosen'
        : `${open} pictures of the flip are not chosen`,
      'The flip has a turn less without it.',
      inFrames,
    );
  }
  const count = (ownRun(job.frames)?.gaps ?? []).reduce((sum, gap) => sum + Number(gap.count), 0);
  if (count === 0) return undefined;
  return step(
    'missing',
    count === 1 ? 'A frame is missing' : `${count} frames are missing`,
    'Where one is left out, the picture takes a double step.',
    inFrames,
  );
};

const frames = (job: Job, { lost, coming }: WayFacts): WayStep | undefined => {
  if (coming)
    return step('coming', 'Frames are coming in', 'The next step is said once they are here.');
  if (job.demo !== undefined)
    return step(
      'own-pictures',
      'Drop your own pictures, anywhere',
      'They begin a job of their own, and the demo stays as it is.',
      inFrames,
    );
  if (sequenceOf(job).length === 0) return firstFrames(job);
  if (lost > 0)
    return step(
      'originals',
      lost === 1 ? 'Add the missing original again' : `Add the ${lost} missing originals again`,
      'A sheet cannot be woven without them.',
      inFrames,
    );
  return missing(job);
};

/** Whatever comes after would be printed for a lens and a printer that may not be the person's. */
const guesses = (job: Job): WayStep | undefined => {
  const open = toBeAsked(job);
  const [lens, printer] = [open.includes('lensPitch'), open.includes('printer')];
  if (!lens && !printer) return undefined;
  const lpi = `${trimmed(MM_PER_INCH / job.lens.pitchMm, 2)} LPI`;
  const dpi = `${trimmed(gridOf(job).acrossDpi, 2)} dpi`;
  const counted = [...(lens ? [lpi] : []), ...(printer ? [dpi] : [])].join(' and ');
  return step(
    'own-lens',
    `Say which ${lens && printer ? 'lens and printer' : lens ? 'lens' : 'printer'} you have`,
    `Until then the studio counts with ${counted}; Plan shows which ones suit.`,
    ['Answer', 'ask'],
  );
};

const lpi = (value: number) => `±${trimmed(value, 3)} LPI`;

const pitch = (job: Job): WayStep | undefined => {
  const needed = pitchBudget(job);
  const { provedPitch } = job;
  const known =
    provedPitch === undefined ? exactnessOf(job).pitchUnsureLpi : provedPitch.plusMinusLpi;
  // The steps of a strip are rounded to what its labels can show.
  if (known === undefined || known <= needed * 1.005) return undefined;
  if (provedPitch !== undefined)
    return step(
      'finer-strip',
      'Weave a finer pitch strip',
      `This print needs ${lpi(needed)}; the pitch is proved to ${lpi(known)}.`,
      onCalibrate,
    );
  const why = `This print needs ${lpi(needed)}; a nominal pitch is known to about ${lpi(known)}.`;
  return job.pitchStrip?.woven === undefined
    ? step('strip', 'The pitch is nominal: weave a pitch strip', why, onCalibrate)
    : step('read-strip', 'Print the pitch strip and read it under the lens', why, onCalibrate);
};

/** Tiles and several prints are woven on Mount, the sheet by itself on Weave. */
const fileOf = ({
  tiles,
  gang,
}: Job): { readonly name: string; readonly at: readonly [string, BenchName] } => {
  if (tiles?.on === true) return { name: 'tiles', at: ['Go to Mount', 'mount'] };
  if (gang?.on === true)
    return { name: 'lens sheet of several prints', at: ['Go to Mount', 'mount'] };
  return { name: 'sheet', at: ['Go to Weave', 'weave'] };
};

/** How the last print in the log came out. */
const lastTrial = ({ trials = [] }: Job) => trials.at(-1)?.outcome;

/** Steps that were ticked say that there is a file, woven in an earlier visit. */
const file = (job: Job, { file: state }: WayFacts): WayStep | undefined => {
  const { name, at } = fileOf(job);
  const many = name === 'tiles';
  if (state === 'weaving')
    return step(
      'weaving',
      `The ${name} ${many ? 'are' : 'is'} being woven`,
      'Leave the page open until then.',
    );
  if (state === 'stale')
    return step(
      'weave-again',
      `The ${name} ${many ? 'are' : 'is'} older than the job`,
      'The job has changed since: weave again before you print.',
      at,
    );
  const seen = lastTrial(job);
  const isThere = state === 'woven' || seen === 'good';
  if (isThere || (seen === undefined && (job.mountTicks ?? []).length > 0)) return undefined;
  return seen === 'failed'
    ? step(
        'weave-mended',
        `Weave the ${name} with the corrected number`,
        'The last print in the log failed; Mend says which number to change.',
        at,
      )
    : step('weave', `Weave the ${name}`, 'Frames and pitch are ready for it.', at);
};

const mounting = (job: Job): WayStep => {
  if (lastTrial(job) === 'good')
    return step('done', 'The print is good', 'Save the job file to print it again.');
  const steps = mountStepIds(job);
  const ticked = steps.filter((id) => job.mountTicks?.includes(id) === true).length;
  const toMount = ['Go to Mount', 'mount'] as const;
  if (ticked === 0)
    return step(
      'mount',
      'Print it and mount it',
      'The checklist has each step with this job’s numbers.',
      toMount,
    );
  if (ticked < steps.length)
    return step(
      'mount',
      `${ticked} of ${steps.length} steps of mounting are done`,
      'The checklist has the next one.',
      toMount,
    );
  return step(
    'look',
    'Look at the print, and note how it came out',
    'If something is off, Mend says which number to change.',
    ['Go to Mend', 'mend'],
  );
};

/** What a bench's tab tells of the open job. */
export type BenchMark = 'done' | 'next' | 'unused';
/** Nothing is said of a bench whose work cannot be told as done. */
export type BenchMarks = Readonly<Partial<Record<BenchName, BenchMark>>>;

export interface Way {
  /** The step that comes next, in the order of the work. */
  readonly step: WayStep;
  readonly marks: BenchMarks;
}

/** Pictures that take turns and films have no cameras to place. */
const hasNoDepth = ({ recipe }: Job): boolean =>
  recipe?.kind === 'flip' || recipe?.kind === 'animation';

export const wayOf = (job: Job, facts: WayFacts): Way => {
  const toFrames = frames(job, facts);
  const toPitch = pitch(job);
  const toFile = file(job, facts);
  const toMount = mounting(job);
  const next = toFrames ?? guesses(job) ?? toPitch ?? toFile ?? toMount;
  const hasFrames = toFrames === undefined;
  const done = (bench: BenchName, isDone: boolean): BenchMarks =>
    isDone ? { [bench]: 'done' } : {};
  return {
    step: next,
    marks: {
      ...(hasNoDepth(job) ? { shoot: 'unused' } : {}),
      ...done('frames', hasFrames),
      ...done('calibrate', job.provedPitch !== undefined && toPitch === undefined),
      ...done('weave', hasFrames && fileOf(job).name === 'sheet' && toFile === undefined),
      ...done('mount', toMount.id !== 'mount'),
      ...done('mend', lastTrial(job) === 'good'),
      ...(next.act === undefined || next.act.goTo === 'ask' ? {} : { [next.act.goTo]: 'next' }),
    },
  };
};
