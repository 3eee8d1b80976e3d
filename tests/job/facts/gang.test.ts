/** A job's gang: what lies on it, what may not, what is woven. */
import * as v from 'valibot';
import { describe, expect, test } from 'vitest';
import type { PageBox } from '../../../src/core/sheet/page-spec.ts';
import { findings } from '../../../src/job/findings/all.ts';
import { gangToWeave, gangViewOf, laidOf } from '../../../src/job/facts/gang-view.ts';
import {
  absentGuests,
  differsInLens,
  OWN,
  setGang,
  withGuestNames,
} from '../../../src/job/facts/gang.ts';
import { setPage } from '../../../src/job/facts/page.ts';
import { cutLines } from '../../../src/job/facts/gang-cut-list.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { jobSchema, newJob } from '../../../src/job/schema/job.ts';
import { viewingPitchOf } from '../../../src/job/facts/sheet.ts';
import { usualGapAheadMm } from '../../golden/traced-by-bench.ts';

const card = (): Job => ({
  ...newJob(),
  name: 'Kingfisher',
  print: { widthMm: 50, heightMm: 70, viewingDistanceMm: 400 },
});
const gap = usualGapAheadMm;
const nothing = { prepareFaults: new Map(), arrivalNotes: [] };

describe('a job’s gang', () => {
  test('takes the pitch of the lens out of a proved pitch (optics relation 2)', () => {
    const proved: Job = {
      ...card(),
      provedPitch: {
        viewingPitchMm: 0.4245,
        readFromMm: 300,
        acrossDpi: 720,
        paper: 'Matt',
      } as unknown as NonNullable<Job['provedPitch']>,
    };
    const { grid } = gangViewOf(setGang(proved, { on: true }));
    expect(grid.pitchMm).toBeCloseTo(0.4245 / (1 + gap / 300), 6);
  });

  test('weaves each job for its own distance, all by the host’s lens', () => {
    const near: Job = { ...card(), print: { widthMm: 40, heightMm: 40, viewingDistanceMm: 250 } };
    const host = setGang(card(), { on: true, guests: [{ jobId: 'b', copies: 2 }] });
    const view = gangViewOf(host, new Map([['b', near]]));
    expect(laidOf(view, 'b')).toBe(2);
    expect(laidOf(view, OWN)).toBeGreaterThan(10);
    const guest = view.members[1]?.job as Job;
    expect(viewingPitchOf(guest)).toBeCloseTo((25.4 / 60) * (1 + gap / 250), 6);
    const gang = gangToWeave(host, view, 'mm', '2026-11-25');
    const pitches = new Set(gang.placed.map(({ sheet }) => sheet.viewingPitchMm.toFixed(6)));
    expect(pitches.size).toBe(2);
    expect([gang.page.widthDots, gang.page.heightDots]).toEqual([
      Math.round((300 * 720) / 25.4),
      Math.round((400 * 720) / 25.4),
    ]);
  });

  test.each([
    [{ lens: { pitchMm: 0.5, thicknessMm: 0.84, index: 1.5685 } }, /pitch/],
    [{ lens: { pitchMm: 25.4 / 60, thicknessMm: 1.2, index: 1.5685 } }, /thickness/],
    [{ lens: { pitchMm: 25.4 / 60, thicknessMm: 0.84, index: 1.49 } }, /index/],
    [{ ribs: 'lying' as const }, /ribs lie/],
    [{ printer: { carriageDpi: 600, feedDpi: 600 } }, /printer/],
  ])('leaves a job out that cannot lie there, and says why: %j', (change, why) => {
    const other: Job = { ...card(), ...change };
    expect(differsInLens(card(), other)).toMatch(why);
    const host = setGang(card(), { on: true, guests: [{ jobId: 'b', copies: 1 }] });
    expect(gangViewOf(host, new Map([['b', other]])).members).toHaveLength(1);
  });

  test('lists lying ribs’ cuts from the top where upright ones are from the left', () => {
    const host = setGang({ ...card(), ribs: 'lying' }, { on: true });
    const lines = cutLines(host, gangViewOf(host));
    expect(lines.length).toBeGreaterThan(10);
    for (const { way, edge } of lines) expect(edge).toBe(way === 'along' ? 'top' : 'left');
    expect(lines.map(({ number }) => number)).toEqual(lines.map((_, i) => i + 1));
  });

  test('prints in the free edge what is ticked on the page, whether the page is on or not', () => {
    const host = setGang(card(), { on: true });
    const view = gangViewOf(host);
    const printed = (job: Job) => gangToWeave(job, view, 'mm', '2026-12-01').page;
    const all = printed(host);
    const none = { rails: false, marks: false, label: false, bar: false };
    const bare = printed(setPage(host, none));
    expect([...bare.rails, ...bare.ink]).toEqual([]);
    expect(all.rails).toHaveLength(4);
    const only = (part: keyof typeof none) => printed(setPage(host, { ...none, [part]: true }));
    expect(only('rails')).toMatchObject({ rails: all.rails, ink: [] });
    // One stroke at each end of each line: the ten cuts of five columns, and those of five rows.
    const strokes = only('marks').ink.filter(
      ({ left, right, top, bottom }) => Math.max(right - left, bottom - top) > 80,
    );
    expect(strokes).toHaveLength(2 * (10 + 10));
    const words = only('label').ink;
    expect(words.length).toBeGreaterThan(100);
    expect(all.ink).toEqual(expect.arrayContaining([...words]));
    // Its line: 100 mm, or 50 beside the label.
    const isLine = ({ left, right }: PageBox) =>
      [50, 100].includes(Math.round(((right - left) * 25.4) / 720));
    expect(
      [only('bar').ink.filter(isLine), all.ink.filter(isLine)].map(({ length }) => length),
    ).toEqual([1, 1]);
  });

  test('finds fault with a print that is larger than its lens, while the gang is on', () => {
    const ids = (job: Job) => findings(job, nothing).map(({ id }) => id);
    const large = setGang({ ...card(), print: { ...card().print, widthMm: 290 } }, { on: true });
    expect(ids(large)).toContain('gang-print-too-large');
    expect(ids(setGang(large, { on: false }))).not.toContain('gang-print-too-large');
    expect(gangViewOf(large).best.places).toHaveLength(0);
  });

  test('refuses settings that are no settings, with the field’s name', () => {
    const bad = (change: Parameters<typeof setGang>[1]) =>
      v.safeParse(jobSchema, setGang(card(), change)).issues?.[0]?.message;
    expect(bad({ copies: 0 })).toMatch(/^Copies/);
    expect(bad({ copies: 2.5 })).toMatch(/^Copies/);
    expect(bad({ edgeMm: -1 })).toMatch(/^Free edge/);
    expect(bad({ lensAcrossMm: Number.NaN })).toMatch(/^Lens across/);
    expect(bad({ copies: 12 })).toBeUndefined();
  });
});

describe('jobs on a lens that are kept elsewhere', () => {
  const host = setGang(card(), {
    on: true,
    guests: [
      { jobId: 'here', copies: 2 },
      { jobId: 'afar', copies: 3, name: 'Lighthouse' },
      { jobId: 'old', copies: 1 },
    ],
  });
  const kept = new Map([['here', { ...card(), name: 'Heron' }]]);

  test('are named, and the rest is laid without them', () => {
    expect(absentGuests(host, (id) => kept.has(id))).toEqual([
      '“Lighthouse”',
      'a job without a name',
    ]);
    const view = gangViewOf(host, kept);
    expect(view.members.map(({ name }) => name)).toEqual(['Kingfisher', 'Heron']);
    expect(laidOf(view, 'here')).toBe(2);
  });

  test('keep their name in the job when it is carried, and one that is kept takes its present name', () => {
    const carried = withGuestNames(host, new Map([['here', 'Heron']]));
    const read = v.parse(jobSchema, JSON.parse(JSON.stringify(carried)));
    expect(read.gang?.guests).toEqual([
      { jobId: 'here', copies: 2, name: 'Heron' },
      { jobId: 'afar', copies: 3, name: 'Lighthouse' },
      { jobId: 'old', copies: 1 },
    ]);
    expect(withGuestNames(card(), new Map())).toEqual(card());
  });
});
