/**
 * What to do about the faults of a print: numbers of the job to change, ways to save this print, and what to put
 * right before another print is made.
 */
import type { Counts } from '../../core/mend/counts.ts';
import type { CountReading } from '../../core/mend/read-counts.ts';
import type { Remedy } from '../../core/mend/remedies.ts';
import { remediesOf } from '../../core/mend/remedies.ts';
import type { Cause } from '../../core/mend/symptoms.ts';
import { trimmed } from '../../core/units/format.ts';
import { lpi, lpiToMm, rad, radToDeg } from '../../core/units/units.ts';
import { reverseFrames, setRibs, setSoften, setViewSlots } from '../edits/consequences.ts';
import type { Bars } from '../schema/bar.ts';
import type { BenchName } from './finding.ts';
import type { Job } from '../schema/job.ts';
import type { Diagnosis } from '../facts/mend.ts';
import { sayInPlace } from '../facts/flip-changes.ts';
import { exactnessOf } from '../facts/plan.ts';
import type { Printed } from '../schema/trial.ts';

/** One number of the job to change. */
export interface Cure {
  readonly cause: Cause;
  /** The change, as the log names it: "Pitch 59.92 → 60.08 LPI". */
  readonly says: string;
  readonly edit: (job: Job) => Job;
  /** Chosen by default. False: one way among others. */
  readonly advised: boolean;
}

/** What to do outside the job, because a new print alone would fail again. */
export interface Care {
  readonly cause: Cause;
  readonly says: string;
  readonly goTo?: BenchName;
  /** Of that bench, where it shows one at a time. */
  readonly part?: string;
}

export interface Advice {
  readonly cures: readonly Cure[];
  readonly cares: readonly Care[];
  /** Ways to save this print. */
  readonly saving: readonly Remedy[];
  /** Sentences that say why it cannot be saved. */
  readonly lost: readonly string[];
}

/** @param readOn ISO date, for a pitch that becomes the proved one. */
export const adviceOf = (
  job: Job,
  printed: Printed,
  diagnosis: Diagnosis,
  readOn: string,
): Advice => {
  const { setup, reading, found } = diagnosis;
  const causes = found.map(({ cause }) => cause);
  const is = (cause: Cause) => causes.includes(cause);
  const cures = causes.flatMap((cause) => curesOf(job, printed, diagnosis, cause, readOn));
  const saving = remediesOf(setup, reading, exactnessOf(job).budgetZones).filter((remedy) =>
    is(causeOfRemedy[remedy.kind]),
  );
  return {
    cures,
    cares: causes.flatMap((cause) => careOf(job, cause, diagnosis)),
    saving,
    lost: causes.flatMap((cause) => lostBy(cause, reading, saving)),
  };
};

const causeOfRemedy: Readonly<Record<Remedy['kind'], Cause>> = {
  turn: 'skew',
  shift: 'offset',
  press: 'gap',
  'stand-at': 'pitch',
};

const curesOf = (
  job: Job,
  printed: Printed,
  { setup, reading, counts }: Diagnosis,
  cause: Cause,
  readOn: string,
): Cure[] => {
  const cure = (says: string, edit: (job: Job) => Job, advised = true): Cure[] => [
    { cause, says, edit, advised },
  ];
  const { pitch, blur } = reading;
  switch (cause) {
    case 'pitch':
      return pitch === undefined || pitch.orLpi !== undefined
        ? []
        : cure(
            `Woven pitch ${trimmed(25.4 / printed.viewingPitchMm, 3)} → ${trimmed(pitch.viewingLpi.value, 3)} LPI`,
            (now) => ({
              ...now,
              provedPitch: {
                viewingPitchMm: lpiToMm(lpi(pitch.viewingLpi.value)),
                readFromMm: setup.distanceMm,
                method: 'print',
                plusMinusLpi: pitch.viewingLpi.plusMinus,
                readOn,
                direction: printed.ribs,
                ...barsOf(counts),
              },
            }),
          );
    case 'order':
      return cure('Frames in reverse order', reverseFrames);
    case 'ribs': {
      const other = job.ribs === 'upright' ? 'lying' : 'upright';
      return cure(`Ribs run ${other}`, (now) => setRibs(now, other), false);
    }
    case 'gap': {
      if (blur === undefined) return [];
      const thicknessMm = Number((blur.gapMm.value * setup.lens.index).toFixed(3));
      return cure(
        `Lens thickness ${trimmed(setup.lens.thicknessMm, 3)} → ${trimmed(thicknessMm, 3)} mm`,
        (now) => ({ ...now, lens: { ...now.lens, thicknessMm } }),
        false,
      );
    }
    case 'spread': {
      const fewer = fewerSlots(job, blur?.extraSpread.value ?? 0);
      return fewer === job.viewSlots
        ? []
        : cure(`View slots ${job.viewSlots} → ${fewer}`, (now) => setViewSlots(now, fewer), false);
    }
    case 'depth':
      return job.ribs === 'lying'
        ? []
        : cure('What lies beyond the sharp range is softened', (now) => setSoften(now, 1), false);
    default:
      return [];
  }
};

/** The pitch read from this print contains this print’s stretch. */
const barsOf = ({ barAcross, barAlong }: Counts): { readonly bars?: Bars } =>
  barAcross === undefined && barAlong === undefined
    ? {}
    : {
        bars: {
          ...(barAcross === undefined ? {} : { across: { ...barAcross } }),
          ...(barAlong === undefined ? {} : { along: { ...barAlong } }),
        },
      };

/** As many slots as an eye still tells apart. @param ink share of a pitch by which the ink spreads */
const fewerSlots = (job: Job, ink: number): number =>
  ink <= 0 ? job.viewSlots : Math.max(2, Math.min(job.viewSlots, Math.floor(1 / ink)));

/** What a size is measured by, where it is not the drawn one. */
const ofStrip = ({ stripBars }: Diagnosis['setup']): string =>
  stripBars?.across === undefined ? '' : ' of what its pitch was proved on';

const degrees = (turned: number) => trimmed(Math.abs(radToDeg(rad(turned))), 2);

const careOf = (job: Job, cause: Cause, { setup, reading }: Diagnosis): Care[] => {
  const { skew, offsetMm, scaleAcross } = reading;
  const care = (says: string, goTo?: BenchName, part?: string): Care[] => [
    {
      cause,
      says,
      ...(goTo === undefined ? {} : { goTo }),
      ...(part === undefined ? {} : { part }),
    },
  ];
  switch (cause) {
    case 'skew':
      return care(
        `Square the next print on its rails before it is tacked${skew === undefined ? '' : `: this one lies ${degrees(skew.rad.value)}° off`}.`,
        'mount',
      );
    case 'offset':
      return care(
        `Slide the print under the lens until from straight ahead ${sayInPlace(job)}, then tack it${offsetMm === undefined ? '' : `: this one lies ${trimmed(Math.abs(offsetMm.value), 2)} mm beside its place`}.`,
        'mount',
      );
    case 'scale':
      return care(
        `Print at 100 %: switch off “fit to page”, borderless and every scaling in the driver${scaleAcross === undefined ? '' : ` (it printed at ${trimmed(100 * scaleAcross.value, 2)} %${ofStrip(setup)})`}. Measure the bar before the lens goes on.`,
        'mount',
      );
    case 'ribs':
      return care('Lay the lens with its ribs the way the sheet was woven for.', 'mount');
    case 'spread':
      return care(
        'Let the ink dry, take a paper on which it spreads less, or print with less ink; crisp columns keep views apart.',
        'weave',
        'sheet',
      );
    case 'gap':
      return care(
        'Roll the lens down from one edge to the other, on a flat bed, until no air is left under it.',
        'mount',
      );
    case 'bubble':
      return care('Clean print and lens of dust, and roll from the tacked edge outwards.', 'mount');
    case 'resampled':
      return care(
        'Send the sheet at the printer’s own grid, and switch off sharpening, “enhance” and every improvement in driver and printing program.',
        'mount',
      );
    case 'out-of-step':
      return care(
        'Print in one direction only (“high speed” or “bidirectional” off), and align the print heads.',
        'mount',
      );
    case 'depth':
      return care(
        'Lower the depth gain and render again, or move the key plane.',
        'frames',
        'parallax',
      );
    case 'flip':
      return care(
        'Put guard slots between the pictures, or pictures more alike.',
        'frames',
        'frames',
      );
    default:
      return [];
  }
};

const lostBy = (cause: Cause, { pitch }: CountReading, saving: readonly Remedy[]): string[] => {
  switch (cause) {
    case 'pitch':
      // While the pitch is unknown or ambiguous, it may suit another distance.
      return pitch === undefined ||
        pitch.orLpi !== undefined ||
        saving.some(({ kind }) => kind === 'stand-at')
        ? []
        : ['There is no distance from which this pitch is right: the print cannot be saved.'];
    case 'scale':
      return ['A print of the wrong size cannot be saved.'];
    case 'order':
      return ['The order under the ribs is printed: only a new print cures it.'];
    case 'spread':
    case 'resampled':
    case 'out-of-step':
    case 'depth':
    case 'flip':
      return ['What is printed so stays so: only a new print cures it.'];
    default:
      return [];
  }
};
