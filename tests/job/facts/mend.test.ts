/** From what is seen of a job's print to the numbers that change, and back by the log. */
import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { adviceOf } from '../../../src/job/findings/cures.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { jobSchema, newJob } from '../../../src/job/schema/job.ts';
import {
  believedFaults,
  changedSince,
  countedOtherWay,
  diagnose,
  forgetSeeing,
  seeingOf,
  setSeeing,
} from '../../../src/job/facts/mend.ts';
import { pixelIdsOf } from '../../../src/job/facts/pixels.ts';
import { viewingPitchOf } from '../../../src/job/facts/sheet.ts';
import {
  addFailedTrial,
  addGoodTrial,
  historyFindings,
  removeTrial,
  setTrial,
  suitedLpi,
  trialsOf,
} from '../../../src/job/facts/trials.ts';
import { usualGapAheadMm } from '../../golden/traced-by-bench.ts';

const ON = '2026-11-25';
const notes = (id: string) => ({ id, on: ON });
const frame = (id: string) => ({
  id,
  name: `${id}.png`,
  byteLength: 1,
  widthPx: 8,
  heightPx: 10,
  kind: 'PNG, 8 bit',
  sceneLinear: false,
  meanLight: 0.5,
});
const job: Job = { ...newJob(), frames: ['a', 'b', 'c'].map(frame) };

const adviceFor = (seen: Job) => {
  const seeing = seeingOf(seen);
  return adviceOf(seen, seeing.printed, diagnose(seeing), ON);
};

describe('which bands were counted', () => {
  const counted = (
    chosen: readonly string[],
    counts: { bandsAcross?: number; bandsAlong?: number },
  ) => countedOtherWay(seeingOf(setSeeing(job, { chosen, counts })));

  it('a count of the chosen picture’s own bands is where it belongs', () => {
    expect(counted(['skewed-left'], { bandsAlong: 1.5 })).toBeUndefined();
    expect(counted(['too-fine'], { bandsAcross: 1.5 })).toBeUndefined();
    expect(counted(['too-fine'], {})).toBeUndefined();
  });

  it('level bands of a print that lies askew are not left in the field for the pitch', () => {
    expect(counted(['skewed-left'], { bandsAcross: 1.5 })).toBe('bandsAlong');
    expect(counted(['too-fine'], { bandsAlong: 1.5 })).toBe('bandsAcross');
  });

  it('slanting bands are both, and nothing is out of place', () => {
    expect(counted(['skewed-left'], { bandsAcross: 1.5, bandsAlong: 1 })).toBeUndefined();
    expect(counted(['skewed-left', 'too-fine'], { bandsAcross: 1.5 })).toBeUndefined();
    expect(counted(['off-centre'], { bandsAcross: 1.5 })).toBeUndefined();
  });
});

describe('what is seen of a print', () => {
  it('is kept with the settings the print was woven with, whatever the job becomes', () => {
    const seen = setSeeing(job, { counts: { bandsAcross: 1.5, run: 'with' } });
    const later = { ...seen, viewSlots: 6 };
    expect(changedSince(seen, seeingOf(seen))).toBe(false);
    expect(changedSince(later, seeingOf(later))).toBe(true);
    expect(seeingOf(later).printed.viewSlots).toBe(12);
    expect(v.safeParse(jobSchema, later).success).toBe(true);
  });

  it('leaves the job as it was once it is forgotten', () => {
    const seen = setSeeing(job, { chosen: ['too-fine'], counts: { bandsAcross: 2 } });
    expect(forgetSeeing(seen)).toEqual(job);
    expect(setSeeing(seen, { chosen: [], counts: { bandsAcross: undefined } })).toEqual(job);
  });
});

describe('the change', () => {
  it('weaves the next print at the pitch that shows no bands (relations 2 and 9)', () => {
    const seen = setSeeing(job, { counts: { bandsAcross: 2, run: 'against' } });
    const cure = adviceFor(seen).cures.find(({ cause }) => cause === 'pitch');
    const mended = cure?.edit(seen) ?? seen;
    // An 8 in print, 2 bands, print too coarse: a quarter of a line an inch more, through 1 + g₀ / D.
    const reach = 1 + usualGapAheadMm / 400;
    expect(25.4 / viewingPitchOf(mended)).toBeCloseTo((60 + 2 / 8) / reach, 4);
    expect(v.safeParse(jobSchema, mended).success).toBe(true);
  });

  it('keeps the print’s own size with a pitch that is read from it', () => {
    const barAcross = { drawnMm: 203.2, measuredMm: 203.6 };
    const seen = setSeeing(job, { counts: { bandsAcross: 2, run: 'against', barAcross } });
    const cure = adviceFor(seen).cures.find(({ cause }) => cause === 'pitch');
    expect(cure?.edit(seen).provedPitch?.bars).toEqual({ across: barAcross });
  });

  it('waits while the counts fit two pitches', () => {
    const seen = setSeeing(job, { counts: { bandsAcross: 2 } });
    expect(adviceFor(seen).cures.filter(({ cause }) => cause === 'pitch')).toEqual([]);
    // One of the two might suit another distance: nothing is said to be lost.
    expect(adviceFor(seen).lost).toEqual([]);
  });

  it('calls no print lost for its pitch before a band is counted', () => {
    // Chosen by its picture alone: how far off it is, and so from where it would be right, is not known.
    const seen = setSeeing(job, { chosen: ['too-coarse'] });
    expect(adviceFor(seen).cures.filter(({ cause }) => cause === 'pitch')).toEqual([]);
    expect(adviceFor(seen).lost).toEqual([]);
  });

  it('turns the frames round where their order is backwards', () => {
    const seen = setSeeing(job, { counts: { order: 'backwards' } });
    const [cure] = adviceFor(seen).cures;
    expect(cure?.edit(seen).frames.map(({ id }) => id)).toEqual(['c', 'b', 'a']);
  });

  it('saves a skewed print by turning it, and changes no number of the job', () => {
    const seen = setSeeing(job, { counts: { bandsAcross: 0, bandsAlong: 3, run: 'forth' } });
    const { cures, saving, lost } = adviceFor(seen);
    expect(cures).toEqual([]);
    expect(lost).toEqual([]);
    // Relation 7: its ends are 3 ribs apart.
    const turn = saving.find(({ kind }) => kind === 'turn');
    expect(turn?.kind === 'turn' ? turn.endsMm : 0).toBeCloseTo((3 * 25.4) / 60, 2);
  });

  it('sends a print that is too coarse to where its pitch is right, and none that is too fine', () => {
    // 0.4 bands too coarse: p (1 + g₀ / D') is met nearer by.
    const coarse = setSeeing(job, { counts: { bandsAcross: 0.5, run: 'against' } });
    const [stand] = adviceFor(coarse).saving;
    expect(stand?.kind).toBe('stand-at');
    const distance = stand?.kind === 'stand-at' ? stand.distanceMm : 0;
    const gap = usualGapAheadMm;
    const printed = viewingPitchOf(job);
    const truePitch = 25.4 / ((60 + 0.5 / 8) / (1 + gap / 400)) / (1 + gap / 400);
    expect(truePitch * (1 + gap / distance)).toBeCloseTo(printed, 5);
    const fine = setSeeing(job, { counts: { bandsAcross: 3, run: 'with' } });
    expect(adviceFor(fine).saving).toEqual([]);
    expect(adviceFor(fine).lost.length).toBe(1);
  });

  it('draws the print with the faults it believes in', () => {
    const seen = setSeeing(job, { counts: { bandsAcross: 2, run: 'against', order: 'backwards' } });
    const faults = believedFaults(diagnose(seeingOf(seen)));
    expect(faults.pitchScale).toBeCloseTo((60 + 2 / 8) / 60, 4);
    expect(faults.reversed).toBe(true);
  });
});

describe('the log', () => {
  const failed = (from: Job, id: string, bandsAcross: number): Job => {
    const seen = setSeeing(from, {
      chosen: ['too-coarse'],
      counts: { bandsAcross, run: 'against' },
    });
    const says = { found: ['Pitch'], changed: [] };
    return addFailedTrial(seen, diagnose(seeingOf(seen)), says, notes(id));
  };

  it('keeps what was seen and puts it away from the table', () => {
    const logged = failed(job, 'one', 1.5);
    expect(logged.seeing).toBeUndefined();
    const [trial] = trialsOf(logged);
    expect(trial).toMatchObject({ outcome: 'failed', chosen: ['too-coarse'], bandsAcross: -1.5 });
    expect(v.safeParse(jobSchema, logged).success).toBe(true);
    expect(removeTrial(logged, 'one')).toEqual(job);
  });

  it('names photos among the job’s pictures, so that none is swept', () => {
    const logged = setTrial(failed(job, 'one', 1.5), 'one', { photoId: 'photo' });
    expect(pixelIdsOf(logged)).toContain('photo');
    expect(setTrial(logged, 'one', { photoId: undefined }).trials?.[0]).not.toHaveProperty(
      'photoId',
    );
  });

  it('sees a pitch that drifts over three prints, and none in three alike', () => {
    const drifting = [0.5, 1.5, 2.5].reduce((now, bands, i) => failed(now, `d${i}`, bands), job);
    expect(historyFindings(drifting).map(({ id }) => id)).toContain('pitch-drifts');
    expect(trialsOf(drifting).map((trial) => suitedLpi(trial))[0]).toBeCloseTo(59.92 + 0.5 / 8, 2);
    const alike = [1.5, 1.5, 1.5].reduce((now, bands, i) => failed(now, `a${i}`, bands), job);
    expect(historyFindings(alike).map(({ id }) => id)).not.toContain('pitch-drifts');
  });

  it('adds up what was thrown away', () => {
    const logged = addGoodTrial(setTrial(failed(job, 'one', 1.5), 'one', { cost: 4.5 }), {
      ...notes('two'),
      cost: 4.5,
    });
    const spent = historyFindings(logged).find(({ id }) => id === 'spent');
    expect(spent).toMatchObject({ title: '1 of 2 prints thrown away', figure: '9 spent' });
  });
});
