/** What the job makes of its strip: advice, room, proof, history and findings. */
import { describe, expect, it } from 'vitest';
import { findings } from '../../../src/job/findings/all.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { restoreJob } from '../../../src/job/schema/migrate.ts';
import {
  keptReadingOf,
  lpiAtJob,
  readingsFor,
  recallPitch,
  spreadOf,
} from '../../../src/job/facts/pitch-history.ts';
import { setLensPitch, setPrinter, setRibs } from '../../../src/job/edits/consequences.ts';
import {
  advisedBands,
  bandDotsOf,
  keepWoven,
  prove,
  scaleOf,
  setStrip,
  stripPlanOf,
  wovenFits,
  wovenOf,
} from '../../../src/job/facts/pitch.ts';
import { diagnose, seeingOf, setSeeing } from '../../../src/job/facts/mend.ts';
import { sheetSpecOf, viewingPitchOf } from '../../../src/job/facts/sheet.ts';
import { sayUnfit } from '../../../src/job/words/strip-fit.ts';
import { usualGapAheadMm } from '../../golden/traced-by-bench.ts';

const TODAY = '2026-11-25';
const a3 = (job: Job = newJob()) => setStrip(job, { paper: 'a3' });

const wovenIn = (job: Job) => {
  const plan = stripPlanOf(job, 'mm');
  if (!plan.ok) throw new Error(plan.message);
  return wovenOf(job, plan.spec, TODAY);
};

const proved = (plusMinusLpi: number, viewingLpi = 59.95): Job => {
  const job = a3();
  const reading = { method: 'band', viewingLpi, plusMinusLpi } as const;
  return prove(keepWoven(job, wovenIn(job)), wovenIn(job), reading, TODAY);
};

const ids = (job: Job, pitchReadings: Parameters<typeof readingsFor>[1] = []) =>
  findings(job, { prepareFaults: new Map(), arrivalNotes: [], pitchReadings }).map(({ id }) => id);

describe('the strip', () => {
  it('has the sheet’s dots where the paper allows, else fewer by an even number', () => {
    expect(bandDotsOf(a3())).toBe(sheetSpecOf(newJob()).widthDots);
    const narrow = bandDotsOf(newJob());
    expect(narrow).toBeLessThan(sheetSpecOf(newJob()).widthDots);
    expect((sheetSpecOf(newJob()).widthDots - narrow) % 2).toBe(0);
    expect(stripPlanOf(newJob(), 'mm')).toMatchObject({ ok: true, narrowed: true });
    expect(stripPlanOf(a3(), 'mm')).toMatchObject({ ok: true, narrowed: false });
  });

  it('is centred on the woven pitch at its own reading distance', () => {
    // p_v by relation 2 for the default lens: 25.4/60 (1 + g₀ / D).
    const at = (D: number) => 60 / (1 + usualGapAheadMm / D);
    expect(advisedBands(a3()).centreLpi).toBeCloseTo(at(400), 3);
    expect(advisedBands(setStrip(a3(), { readFromMm: 250 })).centreLpi).toBeCloseTo(at(250), 3);
  });

  it('says what stands in its way', () => {
    const crowded = stripPlanOf(setStrip(newJob(), { bands: 41 }), 'mm');
    expect(crowded.ok ? '' : crowded.message).toMatch(/room for \d+ bands, not 41/);
    expect(stripPlanOf(setStrip(newJob(), { marginMm: 60, paper: 'letter' }), 'mm').ok).toBe(true);
    const tiny = setStrip(newJob(), { paper: 'own', paperWidthMm: 40, paperHeightMm: 200 });
    expect(stripPlanOf(tiny, 'mm')).toMatchObject({ ok: false });
  });

  it('is kept in the job, and read by a stored job again', () => {
    const job = keepWoven(a3(), wovenIn(a3()));
    expect(restoreJob(JSON.parse(JSON.stringify(job)))).toEqual({ ok: true, job });
    expect(wovenFits(job, wovenIn(a3()))).toBe(true);
    const lying: Job = { ...job, ribs: 'lying' };
    expect(wovenFits(lying, wovenIn(a3()))).toBe(false);
    expect(sayUnfit(lying, wovenIn(a3()))).toMatch(
      /as the sheet, top edge first.*read along the carriage.*needed along the feed/,
    );
    // The same ribs on a page with a side first are crossed along the carriage again.
    expect(sayUnfit(setPrinter(lying, { fedFirst: 'side' }), wovenIn(a3()))).toBeUndefined();
    expect(wovenIn(setPrinter(a3(), { fedFirst: 'side' }))).toMatchObject({ axis: 'feed' });
  });

  it('knows the scale from its bars, to what a ruler can tell', () => {
    const strip = wovenIn(a3());
    expect(scaleOf(a3(), strip).across).toBeUndefined();
    const off = (share: number) =>
      scaleOf(setStrip(a3(), { measuredAcrossMm: strip.barAcrossMm * share }), strip).across;
    expect(off(1.002)?.right).toBe(true);
    expect(off(0.97)?.right).toBe(false);
  });
});

describe('the proved pitch', () => {
  it('keeps how large its strip came out, and Mend measures the sheet by that', () => {
    const strip = wovenIn(a3());
    const measured = setStrip(keepWoven(a3(), strip), {
      measuredAcrossMm: strip.barAcrossMm * 1.003,
    });
    const reading = { method: 'band', viewingLpi: 59.95, plusMinusLpi: 0.02 } as const;
    const known = prove(measured, strip, reading, TODAY);
    const bars = {
      across: { drawnMm: strip.barAcrossMm, measuredMm: strip.barAcrossMm * 1.003 },
    };
    expect(known.provedPitch?.bars).toEqual(bars);
    expect(proved(0.02).provedPitch).not.toHaveProperty('bars');
    expect(restoreJob(JSON.parse(JSON.stringify(known)))).toEqual({ ok: true, job: known });
    const barAcross = { drawnMm: 203.2, measuredMm: 203.2 * 1.003 };
    const { setup, reading: read } = diagnose(
      seeingOf(setSeeing(known, { counts: { barAcross } })),
    );
    expect(setup.stripBars).toEqual(bars);
    expect(read.scaleAcross?.value).toBeCloseTo(1, 9);
  });

  it('is restated for the job’s viewing distance (relation 2)', () => {
    const job = { ...proved(0.02), print: { ...newJob().print, viewingDistanceMm: 1000 } };
    const g = usualGapAheadMm;
    expect(25.4 / viewingPitchOf(job)).toBeCloseTo((59.95 * (1 + g / 400)) / (1 + g / 1000), 4);
    expect(job.provedPitch).toMatchObject({ method: 'band', readOn: TODAY, direction: 'upright' });
  });

  it('asks for a finer strip when it is not exact enough, and sets it up', () => {
    // A quarter zone over 8 in: 0.03125 LPI.
    expect(ids(proved(0.03))).not.toContain('pitch-not-fine-enough');
    const job = proved(0.05);
    const finding = findings(job, { prepareFaults: new Map(), arrivalNotes: [] }).find(
      ({ id }) => id === 'pitch-not-fine-enough',
    );
    const action = finding?.action;
    if (action === undefined || !('edit' in action)) throw new Error('has no remedy');
    const after = action.edit(job);
    expect(after.pitchStrip?.centreLpi).toBeCloseTo(59.95, 3);
    expect(after.pitchStrip?.spreadLpi).toBeLessThan(advisedBands(job).spreadLpi);
    expect(ids(after)).toContain('pitch-not-fine-enough'); // Until the finer one is read.
  });
});

describe('the history', () => {
  it('offers a pitch to another job with the same lens and printing, and to no other', () => {
    const kept = [keptReadingOf(proved(0.02))].filter((one) => one !== undefined);
    expect(ids(newJob(), kept)).toContain('pitch-known-here');
    expect(ids(proved(0.02), kept)).not.toContain('pitch-known-here');
    expect(ids({ ...newJob(), ribs: 'lying' }, kept)).not.toContain('pitch-known-here');
    expect(ids(setStrip(newJob(), { paperKind: 'matte' }), kept)).not.toContain('pitch-known-here');
    const other = { ...newJob(), lens: { ...newJob().lens, thicknessMm: 0.9 } };
    expect(readingsFor(other, kept)).toEqual([]);
    expect(lpiAtJob(newJob(), kept[0]!)).toBeCloseTo(59.95, 9);
  });

  it('holds along one axis of the printer, whichever way the ribs run', () => {
    const kept = [keptReadingOf(proved(0.02))].filter((one) => one !== undefined);
    const refused = setRibs(proved(0.02), 'lying');
    // Top edge first, lying ribs are crossed along the feed.
    expect(refused.provedPitch).toBeUndefined();
    expect(recallPitch(proved(0.02), refused, kept)).toBe(refused);
    const told = findings(refused, {
      prepareFaults: new Map(),
      arrivalNotes: [],
      pitchReadings: kept,
    }).find(({ id }) => id === 'pitch-other-axis');
    expect(told?.figure).toBe('59.95 LPI along the carriage; this sheet needs it along the feed');
    expect(told?.remedy).toMatch(/Print a strip as this sheet is printed, top edge first/);
    expect(ids(proved(0.02), kept)).not.toContain('pitch-other-axis');
    const turn = told?.otherAction;
    if (turn === undefined || !('edit' in turn)) throw new Error('does not offer to turn the page');
    const turned = recallPitch(refused, turn.edit(refused), kept);
    expect(turned.provedPitch).toMatchObject({ axis: 'carriage', recalled: true });
    expect(ids(turned, kept)).not.toContain('pitch-other-axis');
  });

  it('kept before the axis was noted is of a page with its top edge first', () => {
    const [reading] = [keptReadingOf(proved(0.02))];
    if (reading === undefined) throw new Error('no reading');
    const { axis: _none, ...old } = reading;
    expect(readingsFor(newJob(), [old])).toHaveLength(1);
    expect(readingsFor(setRibs(newJob(), 'lying'), [old])).toEqual([]);
    expect(readingsFor(setRibs(newJob(), 'lying'), [{ ...old, ribs: 'lying' }])).toHaveLength(1);
  });

  it('stays with a printer that is turned so that its finer axis lies across the ribs', () => {
    const fine = (job: Job): Job => ({ ...job, printer: { carriageDpi: 1440, feedDpi: 720 } });
    expect(setRibs(fine(proved(0.02)), 'lying').provedPitch).toBeDefined();
    expect(setPrinter(fine(proved(0.02)), { fedFirst: 'side' }).provedPitch).toBeUndefined();
  });

  it('comes by itself when a job comes to its lens, and only then', () => {
    const kept = [keptReadingOf(proved(0.02))].filter((one) => one !== undefined);
    const elsewhere = setLensPitch(newJob(), 0.5);
    const here = setLensPitch(elsewhere, newJob().lens.pitchMm);
    const recalled = recallPitch(elsewhere, here, kept);
    expect(recalled.provedPitch).toEqual({ ...kept[0]?.proved, recalled: true });
    expect(ids(recalled, kept)).toContain('pitch-recalled');
    expect(ids(recalled, kept)).not.toContain('pitch-known-here');
    // The job sits under that lens already, or has a pitch of its own, or goes to another lens.
    expect(recallPitch(here, { ...here, name: 'Kingfisher' }, kept).provedPitch).toBeUndefined();
    expect(recallPitch(elsewhere, proved(0.01, 60.1), kept)).toEqual(proved(0.01, 60.1));
    expect(recallPitch(here, elsewhere, kept)).toBe(elsewhere);
  });

  it('tells how its readings scatter', () => {
    expect(spreadOf([60])).toEqual({ meanLpi: 60, deviationLpi: undefined });
    expect(spreadOf([59.9, 60.1]).deviationLpi).toBeCloseTo(Math.sqrt(0.02), 12);
  });
});
