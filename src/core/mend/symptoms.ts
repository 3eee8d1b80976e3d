/** The symptoms of a failed print in plain words, and the counts that each needs. */
import type { Counts } from './counts.ts';
import type { Faults, MendSetup } from './fault.ts';
import { lensPitchMm, noFaults, printAcrossMm, printAlongMm } from './fault.ts';

/** What can cause a symptom. */
export type Cause =
  | 'pitch'
  | 'skew'
  | 'offset'
  | 'scale'
  | 'order'
  | 'ribs'
  | 'spread'
  | 'gap'
  | 'bubble'
  | 'resampled'
  | 'out-of-step'
  | 'depth'
  | 'flip';

export type SymptomId =
  | 'too-coarse'
  | 'too-fine'
  | 'skewed-left'
  | 'skewed-right'
  | 'off-centre'
  | 'order-reversed'
  | 'ribs-crossed'
  | 'scaled'
  | 'two-at-once'
  | 'one-place'
  | 'resampled'
  | 'sharpened'
  | 'out-of-step'
  | 'too-deep'
  | 'harsh-flip';

/** A count that a symptom asks for; all others stay hidden. */
export type Asked = keyof Omit<Counts, 'lookedFromMm'>;

export interface Symptom {
  readonly id: SymptomId;
  /** Short name for the picture’s caption. */
  readonly label: string;
  /** What is seen, in one sentence, under upright ribs; and under lying ones where that differs. */
  readonly look: string;
  readonly lookLying?: string;
  /** Most likely first. */
  readonly causes: readonly Cause[];
  readonly asks: readonly Asked[];
  /** Faults to draw it with over the person’s own frames, strong enough to see at a glance. */
  readonly sample: (setup: MendSetup) => Faults;
}

/** Bands across in the samples: enough to show them move, few enough to follow. */
const SAMPLE_BANDS = 1.5;

const withBandsAcross = (setup: MendSetup, bands: number): Faults => {
  const ribs = printAcrossMm(setup.sheet) / lensPitchMm(setup);
  return { ...noFaults, pitchScale: 1 / (1 + bands / ribs) };
};

const withBandsAlong = (setup: MendSetup, bands: number): Faults => ({
  ...noFaults,
  skewRad: Math.asin(
    Math.min(1, Math.max(-1, (bands * setup.sheet.viewingPitchMm) / printAlongMm(setup.sheet))),
  ),
});

/** What the picture shows is asked first: bands from edge to edge, or from end to end of the ribs. */
const whatRuns: readonly Asked[] = ['bandsAcross', 'bandsAlong', 'lean', 'run', 'barAcross'];
const whatClimbs: readonly Asked[] = ['bandsAlong', 'bandsAcross', 'lean', 'run', 'barAcross'];

/** The symptom cards in their order. */
export const SYMPTOMS: readonly Symptom[] = [
  {
    id: 'too-coarse',
    label: 'Pitch a little too coarse',
    look: 'Upright bands cross the picture and run against the head: it goes right, they go left.',
    lookLying: 'Level bands cross the picture and run against the head: it goes down, they go up.',
    causes: ['pitch', 'scale', 'skew'],
    asks: whatRuns,
    sample: (setup) => withBandsAcross(setup, -SAMPLE_BANDS),
  },
  {
    id: 'too-fine',
    label: 'Pitch a little too fine',
    look: 'Upright bands cross the picture and run with the head.',
    lookLying: 'Level bands cross the picture and run with the head.',
    causes: ['pitch', 'scale', 'skew'],
    asks: whatRuns,
    sample: (setup) => withBandsAcross(setup, SAMPLE_BANDS),
  },
  {
    id: 'skewed-left',
    label: 'Skewed: print turned anticlockwise',
    look: 'Level bands climb as the head goes right.',
    lookLying: 'Upright bands go right as the head goes down.',
    causes: ['skew', 'pitch'],
    asks: whatClimbs,
    sample: (setup) => withBandsAlong(setup, -SAMPLE_BANDS),
  },
  {
    id: 'skewed-right',
    label: 'Skewed: print turned clockwise',
    look: 'Level bands sink as the head goes right.',
    lookLying: 'Upright bands go left as the head goes down.',
    causes: ['skew', 'pitch'],
    asks: whatClimbs,
    sample: (setup) => withBandsAlong(setup, SAMPLE_BANDS),
  },
  {
    id: 'off-centre',
    label: 'Off centre',
    look: 'The picture jumps back from its end to its beginning while the head is straight ahead.',
    causes: ['offset'],
    asks: ['jumpForthMm', 'jumpBackMm'],
    sample: (setup) => ({ ...noFaults, offsetMm: 0.45 * setup.sheet.viewingPitchMm }),
  },
  {
    id: 'order-reversed',
    label: 'Order reversed',
    look: 'Depth is inside out: far things stand in front. Or the action runs backwards.',
    causes: ['order'],
    asks: ['order'],
    sample: () => ({ ...noFaults, reversed: true }),
  },
  {
    id: 'ribs-crossed',
    label: 'Ribs the wrong way round',
    look: 'All frames at once, and nothing changes as the head moves.',
    causes: ['ribs'],
    asks: ['changes'],
    sample: () => ({ ...noFaults, ribsCrossed: true }),
  },
  {
    id: 'scaled',
    label: 'Scaled by the driver',
    look: 'The print came out a little smaller or larger than drawn, and bands cross it.',
    causes: ['scale', 'pitch'],
    asks: ['barAcross', 'barAlong', 'bandsAcross', 'run'],
    sample: () => ({ ...noFaults, driverScaleAcross: 0.97, driverScaleAlong: 0.97 }),
  },
  {
    id: 'two-at-once',
    label: 'Two frames at once everywhere',
    look: 'Every place shows a ghost of the next frames: the ink spreads, or there is air under the lens.',
    causes: ['spread', 'gap'],
    asks: ['jumpTakesMm', 'jumpForthMm', 'jumpBackMm'],
    sample: () => ({ ...noFaults, extraSpread: 0.35 }),
  },
  {
    id: 'one-place',
    label: 'A gap or a bubble in one place',
    look: 'One spot is blurred and moves differently from the picture around it.',
    causes: ['bubble'],
    asks: ['patch'],
    sample: (setup) => ({
      ...noFaults,
      bubble: {
        acrossMm: 0.18 * printAcrossMm(setup.sheet),
        alongMm: -0.12 * printAlongMm(setup.sheet),
        radiusMm: 0.2 * printAcrossMm(setup.sheet),
        gapMm: (0.9 * setup.lens.thicknessMm) / setup.lens.index,
      },
    }),
  },
  {
    id: 'resampled',
    label: 'Resampled by the driver',
    look: 'Fine stripes, evenly repeated, keep their place in the picture while the head moves.',
    causes: ['resampled'],
    asks: ['standingStripes'],
    sample: (setup) => ({ ...noFaults, resampledDpi: setup.sheet.acrossDpi * 0.47 }),
  },
  {
    id: 'sharpened',
    label: 'Sharpened by the driver',
    look: 'Edges carry a bright line and a dark one, and ghosts show as negatives.',
    causes: ['resampled'],
    asks: ['hardEdges'],
    sample: () => ({ ...noFaults, sharpened: 1 }),
  },
  {
    id: 'out-of-step',
    label: 'Printed both directions out of step',
    look: 'Level stripes: every second one is a frame or so ahead of its neighbours.',
    lookLying: 'Upright stripes: every second one is a frame or so ahead of its neighbours.',
    causes: ['out-of-step'],
    asks: ['stripes'],
    sample: (setup) => ({
      ...noFaults,
      outOfStepMm: 0.25 * setup.sheet.viewingPitchMm,
      swathMm: printAlongMm(setup.sheet) / 14,
    }),
  },
  {
    id: 'too-deep',
    label: 'Too deep a scene',
    look: 'Far and near things are doubled; things at the print’s own depth are sharp.',
    causes: ['depth'],
    asks: ['doubledByDepth'],
    sample: () => ({ ...noFaults, deeper: 3 }),
  },
  {
    id: 'harsh-flip',
    label: 'Harsh flip between unlike frames',
    look: 'Two unlike pictures show through each other near the change.',
    causes: ['flip', 'spread'],
    asks: ['clearBetween', 'jumpTakesMm'],
    sample: () => ({ ...noFaults, flip: true, extraSpread: 0.2 }),
  },
];
