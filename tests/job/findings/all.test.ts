/** What follows from a job, and what the studio says of it. Numbers from docs/optics.md. */
import { describe, expect, it } from 'vitest';
import type { Finding } from '../../../src/job/findings/finding.ts';
import { findings } from '../../../src/job/findings/all.ts';
import { besideBench } from '../../../src/job/findings/finding.ts';
import type { Frame, Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { dotsUnderRib, pitchTolerance, viewingPitchOf } from '../../../src/job/facts/sheet.ts';
import { benchPitch } from '../../golden/traced-by-bench.ts';

const quiet = { prepareFaults: new Map<string, string>(), arrivalNotes: [] };

const frame = (id: string, change: Partial<Frame> = {}): Frame => ({
  id,
  name: `${id}.png`,
  byteLength: 1000,
  widthPx: 1600,
  heightPx: 2000,
  kind: 'PNG, 8 bit',
  sceneLinear: false,
  meanLight: 0.2,
  ...change,
});
const frames = (count: number) => Array.from({ length: count }, (_, index) => frame(`f${index}`));
const sound = (change: Partial<Job> = {}): Job => ({
  ...newJob(),
  frames: frames(12),
  provedPitch: { viewingPitchMm: 0.4239, readFromMm: 400 },
  ...change,
});
const ids = (job: Job) => findings(job, quiet).map(({ id }) => id);
const the = (id: string, job: Job): Finding => {
  const found = findings(job, quiet).find((finding) => finding.id === id);
  if (found === undefined) throw new Error(`${id} was not found among: ${ids(job).join(', ')}`);
  return found;
};
const remedied = (finding: Finding, job: Job): Job => {
  if (finding.action === undefined || !('edit' in finding.action))
    throw new Error(`${finding.id} has no remedy to press`);
  return finding.action.edit(job);
};

it('says nothing of a job that is in order', () => {
  expect(ids(sound())).toEqual([]);
});

describe('view slots and dots', () => {
  // Common practice, no source: 60 to the inch over 720 dots has room for 12 frames, 600 leaves 10.
  const printer = { carriageDpi: 600, feedDpi: 600 };
  const at600 = sound({ printer, recipe: { kind: 'animation' } });

  it('finds 12 slots too many for 600 dpi, and sets them to 10', () => {
    const finding = the('slots-beyond-dots', at600);
    expect(finding.action?.label).toBe('Set view slots to 10');
    const after = remedied(finding, at600);
    expect(after.viewSlots).toBe(10);
    expect(ids(after)).not.toContain('slots-beyond-dots');
  });

  it('leaves 12 slots on 720 dpi alone', () => {
    expect(ids(sound({ recipe: { kind: 'animation' } }))).not.toContain('slots-beyond-dots');
  });

  it('lets the views of a depth print share dots, which loses nothing (tests/golden/more-views)', () => {
    expect(ids(sound({ printer }))).not.toContain('slots-beyond-dots');
    expect(ids(sound({ frames: frames(24), viewSlots: 24 }))).toEqual([]);
    // Lying ribs show both eyes the same view: no depth.
    expect(ids(sound({ printer, ribs: 'lying' }))).toContain('slots-beyond-dots');
  });

  it('lets a pitch that paper shrank by a part in a thousand keep its 12', () => {
    const shrunk = sound({
      recipe: { kind: 'animation' },
      provedPitch: { viewingPitchMm: 0.4239 * 0.998, readFromMm: 400 },
    });
    expect(dotsUnderRib(shrunk)).toBeLessThan(12);
    expect(ids(shrunk)).not.toContain('slots-beyond-dots');
  });
});

describe('the pitch', () => {
  it('is nominal until proved, with relation 7 as its number: a quarter zone over 8 in', () => {
    const job = { ...newJob(), frames: frames(12) };
    expect(pitchTolerance(job)).toBeCloseTo(0.25 / 8, 12);
    expect(the('nominal-pitch', job).figure).toBe(
      'this print needs ±0.031 LPI; a nominal pitch is known to about ±0.1 LPI',
    );
    expect(the('nominal-pitch', job)).toMatchObject({
      severity: 'caution',
      action: { goTo: 'calibrate' },
    });
  });

  it('that is nominal is no more than a note on a print so narrow that it bears it', () => {
    // Relation 7: a quarter zone over 60 mm is 0.25 / 2.362 = 0.106 LPI, and a nominal pitch is off by about 0.1.
    const narrow = { ...newJob(), print: { ...newJob().print, widthMm: 60 } };
    expect(the('nominal-pitch', narrow)).toMatchObject({
      severity: 'note',
      figure: 'this print needs ±0.106 LPI; a nominal pitch is known to about ±0.1 LPI',
    });
    // Whoever knows theirs less well hears of it.
    const unsure = {
      ...narrow,
      exactness: { budgetZones: 0.25, pitchUnsureLpi: 0.2, stretchShare: 0.001 },
    };
    expect(the('nominal-pitch', unsure).severity).toBe('caution');
  });

  it('counts the width across the ribs, which is the height when they lie', () => {
    expect(pitchTolerance({ ...newJob(), ribs: 'lying' })).toBeCloseTo(0.25 / 10, 12);
  });

  it('gives the woven pitches of the published lens', () => {
    // Lens of the encyclopaedia article; p_v by the bench's own trace, 40 nm below relation 2 with t / n at 300 mm.
    const lens = { pitchMm: 0.33665, thicknessMm: 0.457, index: 1.557, radiusMm: 0.1905 };
    const at = (viewingDistanceMm: number) =>
      viewingPitchOf({ ...newJob(), lens, print: { ...newJob().print, viewingDistanceMm } });
    for (const distance of [300, 500, 1000])
      expect(at(distance)).toBeCloseTo(benchPitch(lens, distance), 6);
  });
});

describe('the lens', () => {
  it('cannot be in focus when its rib would be less than half a pitch round', () => {
    // R = t (n − 1) / n = 0.3 × 0.5 / 1.5 = 0.1 mm, under half of 0.4233 mm.
    const job = sound({ lens: { pitchMm: 25.4 / 60, thicknessMm: 0.3, index: 1.5 } });
    expect(the('lens-too-thin', job).severity).toBe('problem');
    expect(the('lens-too-thin', job).figure).toContain('needs 0.635 mm');
  });

  it('sends both eyes into one view, or into different zones, at the wrong distance', () => {
    // Zone = p D / g' = 0.42333 × 80 / 0.49827 = 68.0 mm at 80 mm; 59.5 mm at 70 mm.
    const near = (viewingDistanceMm: number) =>
      sound({ print: { ...newJob().print, viewingDistanceMm } });
    expect(ids(near(70))).toContain('zone-narrower-than-eyes');
    expect(ids(near(90))).not.toContain('zone-narrower-than-eyes');
    // One view of 12 is 63 mm wide where the zone is 756 mm: at 890 mm.
    expect(ids(near(880))).not.toContain('eyes-in-one-view');
    expect(ids(near(900))).toContain('eyes-in-one-view');
    // A flip has no depth that could be missing.
    const flip = (job: Job): Job => ({
      ...job,
      depthMarks: [{ name: 'tree fern', zMm: 3000 }],
      recipe: { kind: 'flip', pictures: ['f0', 'f1'], guardSlots: 1, guard: 'mean' },
    });
    for (const id of ['eyes-in-one-view', 'scene-too-deep', 'eye-comfort'])
      expect(ids(flip(near(900)))).not.toContain(id);
    expect(the('zone-narrower-than-eyes', flip(near(70))).reason).toMatch(/another picture/);
  });
});

describe('the frames', () => {
  it('are missed while there are none', () => {
    expect(the('no-frames', sound({ frames: [] })).action).toMatchObject({ goTo: 'frames' });
  });

  it('are too few for the slots, and the remedy makes slots to measure', () => {
    const job = sound({ frames: frames(8) });
    const finding = the('frames-below-slots', job);
    expect(finding.reason).toMatch(/uneven/);
    expect(remedied(finding, job).viewSlots).toBe(8);
    expect(the('frames-below-slots', sound({ frames: frames(2) })).reason).toMatch(/flip/);
  });

  it('are more than the slots show', () => {
    expect(the('frames-above-slots', sound({ frames: frames(20) })).figure).toBe(
      '8 frames not shown',
    );
    const remedy = (change: Partial<Job>) =>
      the('frames-above-slots', sound({ frames: frames(20), ...change })).remedy;
    expect(remedy({})).toMatch(/beyond the dots .* sharpen the depth/);
    expect(remedy({ recipe: { kind: 'animation' } })).toMatch(/if the printer has the dots/);
  });

  it('differ in shape: the odd ones are named, and the picture jumps', () => {
    const mixed = [...frames(11), frame('tall', { heightPx: 2400 })];
    const finding = the('mixed-sizes', sound({ frames: mixed }));
    expect(finding.figure).toBe('1 of 12 frames not shaped as 1600 × 2000 px');
    expect(finding.reason).toMatch(/tall\.png \(1600 × 2400 px\): the picture jumps/);
  });

  it('differ in fineness: the finer size is asked for, though most are coarser, and nothing jumps', () => {
    const mixed = [...frames(11), frame('fine', { widthPx: 3200, heightPx: 4000 })];
    const finding = the('mixed-sizes', sound({ frames: mixed }));
    expect(finding.severity).toBe('note');
    expect(finding.figure).toBe('11 of 12 frames below 3200 × 4000 px');
    expect(finding.reason).not.toMatch(/jump/);
    expect(finding.remedy).toContain('at 3200 × 4000 px');
  });

  it('are coarser than the lens: 480 ribs over 8 in at 60 to the inch', () => {
    const small = frames(12).map((one) => ({ ...one, widthPx: 400, heightPx: 500 }));
    expect(the('frames-too-coarse', sound({ frames: small })).figure).toBe(
      '400 pixels for 480 ribs',
    );
  });

  it('are cut by a print of another shape, until shown whole', () => {
    // 4 : 3 frames on an 8 × 10 print keep 0.8 of their height in width: 0.8 / (4 / 3) = 60 %.
    const wide = sound({
      frames: frames(12).map((one) => ({ ...one, widthPx: 2400, heightPx: 1800 })),
    });
    const finding = the('frames-cut', wide);
    expect(finding.figure).toBe('40 % cut away');
    expect(finding.reason).toContain('at the sides');
    expect(ids(remedied(finding, wide))).not.toContain('frames-cut');
  });
});

it('passes on what the work met, problems first', () => {
  const found = findings(newJob(), {
    prepareFaults: new Map([['f1', 'The file breaks off.']]),
    arrivalNotes: [{ id: 'a', severity: 'problem', file: 'notes.txt', message: 'Not a picture.' }],
  });
  expect(found.slice(0, 2).map(({ severity }) => severity)).toEqual(['problem', 'problem']);
  expect(found.map(({ reason }) => reason)).toContain('The file breaks off.');
  expect(found.map(({ title }) => title)).toContain('notes.txt');
});

it('says many files in one finding, and leaves to Frames what Frames says one by one', () => {
  const arrivalNotes = ['a', 'b', 'c'].map((id) => ({
    id,
    severity: 'problem' as const,
    file: `${id}.txt`,
    message: 'Not a picture.',
  }));
  const found = findings(newJob(), { ...quiet, arrivalNotes });
  const told = found.filter(({ id }) => id.startsWith('arrival'));
  expect(told.map(({ title }) => title)).toEqual(['3 files could not be used']);
  expect(besideBench(found, 'weave')).toEqual(found);
  expect(besideBench(found, 'frames')).toEqual(found.filter((one) => !told.includes(one)));
});
