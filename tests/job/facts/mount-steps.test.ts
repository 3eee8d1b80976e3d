/** The steps of mounting: their numbers by hand, what a job adds to them, and the ticks kept with it. */
import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { setRibs } from '../../../src/job/edits/consequences.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { jobSchema, newJob } from '../../../src/job/schema/job.ts';
import { restoreJob } from '../../../src/job/schema/migrate.ts';
import type { MountSetting } from '../../../src/job/facts/mount/steps.ts';
import { mountStepIds } from '../../../src/job/facts/mount/step-ids.ts';
import { mountFacts, mountSteps } from '../../../src/job/facts/mount/steps.ts';
import { setGang } from '../../../src/job/facts/gang.ts';
import { setPage } from '../../../src/job/facts/page.ts';
import { setTiles } from '../../../src/job/facts/tiles.ts';
import { clearTicks, isTicked, setTick, ticksAmong } from '../../../src/job/edits/mount-ticks.ts';

const inMm: MountSetting = { unit: 'mm', fileType: 'png' };
const stepsOf = (job: Job, setting = inMm) =>
  new Map(mountSteps(job, setting).map((step) => [step.id, step]));
const textOf = (job: Job, id: string, setting = inMm) => stepsOf(job, setting).get(id)?.text;

/** Read to ± this on satin paper. */
const proved = (plusMinusLpi: number): Job => ({
  ...newJob(),
  provedPitch: {
    viewingPitchMm: 25.4 / 59.9,
    readFromMm: 400,
    plusMinusLpi,
    readOn: '2026-11-03',
    paper: 'satin 260',
  },
});

describe('numbers', () => {
  it('are relation 7 by hand: a quarter zone, 60 LPI, 8 in across the ribs and 10 in along', () => {
    // τ / W = 0.25 / 8 = 0.03125 LPI; τ p = 0.25 × 25.4 / 60 = 0.1058 mm; that over 254 mm: 0.0239°.
    expect(textOf(newJob(), 'prove-pitch')).toContain('±0.031 LPI');
    expect(textOf(newJob(), 'square')).toMatch(/Within 0\.024°: 0\.11 mm at one end, over 254 mm/);
    expect(textOf(newJob(), 'look-again')).toContain('within 0.11 mm');
    expect(textOf(newJob(), 'centre')).toMatch(/400 mm away.*±0\.11 mm.*0\.42 mm, is right again/);
    // 0.1 LPI over 8 in: 0.8 of a zone.
    expect(stepsOf(newJob()).get('prove-pitch')?.why).toMatch(/0\.8 of a zone/);
    // A part in a thousand of 203.2 mm is less than a rule tells.
    expect(textOf(newJob(), 'measure')).toMatch(/203\.2 mm, within 0\.5 mm/);
  });

  it('ask for the size that the strip of the proved pitch came out at', () => {
    const provedPitch = {
      viewingPitchMm: 0.4237,
      readFromMm: 400,
      bars: { across: { drawnMm: 150, measuredMm: 150.6 } },
    };
    // 203.2 mm × 1.004 = 204.0 mm.
    const text = textOf({ ...newJob(), provedPitch }, 'measure');
    expect(text).toMatch(/204 mm, within 0\.5 mm; the strip came out at 100\.4 % too/);
  });

  it('follow the unit switch, and a stricter budget', () => {
    const job: Job = {
      ...newJob(),
      lens: { ...newJob().lens, pitchMm: 25.4 / 50 },
      exactness: { budgetZones: 0.1, pitchUnsureLpi: 0.1, stretchShare: 0.004 },
    };
    const inches: MountSetting = { unit: 'in', fileType: 'png' };
    // 0.1 / 50 = 0.002 in; over 10 in that is 0.0115°. 0.4 % of 8 in: 0.032 in.
    expect(textOf(job, 'square', inches)).toMatch(/0\.011°: 0\.002 in at one end, over 10 in/);
    expect(textOf(job, 'measure', inches)).toMatch(/8 in, within 0\.032 in/);
    const all = [...stepsOf(job, inches).values()].map(({ text, why }) => text + why).join(' ');
    expect(all).not.toMatch(/\d mm/);
    expect([...stepsOf(job).values()].map(({ text, why }) => text + why).join(' ')).not.toMatch(
      /\d in\b/,
    );
  });

  it('stand at the head of the page', () => {
    expect(new Map(mountFacts(proved(0.02), 'in'))).toEqual(
      new Map([
        ['Print', '8 × 10 in'],
        ['Lens', '60 LPI'],
        ['Pitch, proved', '59.9 LPI'],
        ['Ribs run', 'upright'],
        ['dpi', '720 across × 720 along'],
        ['Fed first', 'top edge'],
        ['Seen from', '15.75 in'],
      ]),
    );
  });
});

describe('what the job changes', () => {
  it('is the way everything lies, by how the ribs run', () => {
    const lying = setRibs(newJob(), 'lying');
    // Sizes change places: across the ribs is now 254 mm, and 203.2 mm along them.
    expect(textOf(lying, 'measure')).toContain('254 mm');
    expect(textOf(lying, 'square')).toContain('over 203.2 mm');
    expect(textOf(newJob(), 'grid')).toContain('across the ribs (left to right)');
    expect(textOf(lying, 'grid')).toContain('across the ribs (top to bottom)');
    const titles = (job: Job) => [...stepsOf(job).values()].map(({ title }) => title);
    expect(titles(newJob())).toEqual(
      expect.arrayContaining(['Tack the top edge.', 'First cut the left and right edges.']),
    );
    expect(titles(lying)).toEqual(
      expect.arrayContaining(['Tack the left edge.', 'First cut the top and bottom edges.']),
    );
  });

  it('is a warning before all else while the pitch is nominal or not proved finely enough', () => {
    const warned = (job: Job) => mountSteps(job, inMm).filter(({ isWarning }) => isWarning);
    expect(warned(newJob())).toHaveLength(1);
    expect(mountSteps(newJob(), inMm)[0]?.id).toBe('prove-pitch');
    expect(warned(proved(0.05))[0]?.text).toMatch(/±0\.05 LPI; this print needs ±0\.031 LPI/);
    expect(warned(proved(0.03))).toEqual([]);
  });

  it('is the paper and the way round of the strip', () => {
    expect(textOf(proved(0.03), 'paper')).toMatch(/satin 260.*strip read on 2026-11-03/);
    expect(textOf(proved(0.03), 'way-round')).toMatch(/So did the strip/);
    expect(textOf(newJob(), 'paper')).toMatch(/will prove the pitch/);
  });

  it('is the page: rails to square on, crop marks to cut at, and the bleed that falls away', () => {
    const onPage = setPage(newJob(), { on: true, bleedMm: 3, rails: true, marks: true });
    expect(stepsOf(onPage).get('square')?.title).toBe('Square it on the rails.');
    expect(textOf(onPage, 'lay')).toContain('over the rails');
    expect(textOf(onPage, 'look-again')).toContain('every rail is even');
    expect(textOf(onPage, 'trim-ends')).toMatch(
      /crop mark to crop mark.*3 mm of bleed and the rails/,
    );
    expect(textOf(onPage, 'measure')).toContain('Between the crop marks');
    // A sheet woven by itself, as when the page waits, has none of them.
    for (const bare of [newJob(), setPage(onPage, { on: false })]) {
      const all = [...stepsOf(bare).values()].map(({ title, text }) => title + text).join(' ');
      expect(all).not.toMatch(/rail|crop mark|bleed/);
    }
    const plain = setPage(onPage, { bleedMm: 0, rails: false });
    expect(textOf(plain, 'trim-ends')).not.toMatch(/fall away/);
  });

  it('is the kind of file, and dots that are not square', () => {
    expect(textOf(newJob(), 'no-scaling', { ...inMm, fileType: 'pdf' })).toMatch(/PDF at actual/);
    expect(textOf(newJob(), 'no-scaling', { ...inMm, fileType: 'tiff' })).toMatch(
      /the TIFF at its/,
    );
    const oblong: Job = { ...newJob(), printer: { carriageDpi: 1440, feedDpi: 720 } };
    expect(textOf(oblong, 'no-scaling')).toMatch(/not square/);
    expect(textOf(newJob(), 'no-scaling')).not.toMatch(/not square/);
  });

  it('is a word on flashes for a print that flips or was laid by hand, on a lamp where there is one, on depth', () => {
    const show = (job: Job) => stepsOf(job).get('show')?.cautions;
    expect(show({ ...newJob(), recipe: { kind: 'sway' } })).toEqual([]);
    const lit: Job = { ...newJob(), lamp: { density: 1.5, warmth: 0 } };
    expect(show(lit)).toEqual(['lamps', 'depth']);
    const flips: Job = {
      ...newJob(),
      recipe: { kind: 'flip', pictures: ['a', 'b'], guardSlots: 1, guard: 'mean' },
    };
    expect(show(flips)).toEqual(['flashing']);
    expect(show({ ...newJob(), slotsByHand: ['a', 'b'] })).toEqual(['flashing', 'depth']);
  });
});

describe('a print mirrored for film', () => {
  const film = setPage(newJob(), { mirrored: true });

  it.each([
    ['by itself', film],
    ['as several', setGang(film, { on: true, lensAcrossMm: 450, lensAlongMm: 300 })],
    ['as tiles', setTiles(film, { on: true, lensAcrossMm: 120, lensAlongMm: 300 })],
  ])('%s is laid with the bare side of the film to the lens, and not mirrored again', (_, job) => {
    expect(textOf(job, 'lay')).toMatch(/Smooth side down on the bare side of the film/);
    expect(textOf(job, 'clean')).toContain('the bare side of the film');
    expect(textOf(job, 'way-round')).toMatch(/mirrored already.*driver off.*reads right through/);
    expect(new Map(mountFacts(job, 'mm')).get('Print side')).toMatch(/mirrored/);
  });

  it('leaves the steps of others alone', () => {
    const all = mountSteps(setPage(film, { mirrored: undefined }), inMm);
    expect(all).toEqual(mountSteps(newJob(), inMm));
    expect(JSON.stringify(all)).not.toMatch(/film|mirror/);
  });
});

describe('the layout', () => {
  it('of several prints on one lens sheet has its own sizes, cuts and list', () => {
    const job = setGang(newJob(), { on: true, lensAcrossMm: 450, lensAlongMm: 300 });
    expect(textOf(job, 'lay')).toContain('450 × 300 mm');
    expect(textOf(job, 'trim-sides')).toMatch(/cutting list.*metal rule in the groove/);
    // 203.2 mm over a rib of 25.4 / 60 is 480: the odd number nearest to it.
    expect(textOf(job, 'trim-ends')).toMatch(/(479|481) ribs/);
  });

  it('of tiles squares, centres and cuts each tile', () => {
    const job = setTiles(newJob(), { on: true, lensAcrossMm: 120, lensAlongMm: 300 });
    expect(textOf(job, 'centre')).toContain('the tile’s label and the table say');
    expect(textOf(job, 'trim-sides')).toMatch(/On each tile hold a metal rule in the groove/);
    expect(textOf(job, 'measure')).toMatch(/bar on each of the 2 tiles/);
  });
});

describe('a layout of which something is not printed', () => {
  const words = {
    rails: /\brails?\b(?! under the lens tell)/i,
    marks: /crop mark/i,
    label: /\blabel\b/i,
    bar: /\bbar\b/i,
  };
  const layouts = {
    tiles: setTiles(newJob(), { on: true, lensAcrossMm: 120, lensAlongMm: 300 }),
    several: setGang(newJob(), { on: true, lensAcrossMm: 450, lensAlongMm: 300 }),
    page: setPage(newJob(), { on: true }),
  };
  const said = (job: Job) =>
    mountSteps(job, inMm)
      .map(({ title, text, why }) => `${title} ${text} ${why}`)
      .join('\n');

  it.each(
    (['tiles', 'several', 'page'] as const).flatMap((layout) =>
      (['rails', 'marks', 'label', 'bar'] as const).map((part) => [layout, part] as const),
    ),
  )('of %s no step speaks of %s that are not ticked', (layout, part) => {
    const without = setPage(layouts[layout], { [part]: false });
    expect(said(without)).not.toMatch(words[part]);
    if (part === 'rails') expect(said(layouts[layout])).toMatch(words[part]);
  });

  it('squares several prints and tiles by the tolerance of their own length, in each step that names it', () => {
    // τ p = 0.1058 mm over 254 mm of the print, on a lens sheet of 300 mm: 0.125 mm.
    const job = layouts.several;
    expect(textOf(job, 'square')).toContain('0.12 mm at one end');
    expect(textOf(job, 'look-again')).toContain('within 0.12 mm');
  });
});

it('tells where someone can be hurt', () => {
  const kinds = (id: string) => stepsOf(newJob()).get(id)?.cautions;
  expect(kinds('lay')).toEqual(['edges']);
  expect(kinds('trim-sides')).toEqual(['blades']);
  expect(kinds('trim-ends')).toEqual(['blades']);
  expect(kinds('tack')).toEqual(['adhesives']);
  expect(kinds('clean')).toEqual(['adhesives']);
  expect(kinds('roll')).toEqual(['rollers']);
});

it('goes in the order of the work: print, dry, square, tack, roll, trim', () => {
  const ids = [...stepsOf(newJob()).keys()];
  const order = ['grid', 'dry', 'clean', 'square', 'tack', 'roll', 'trim-sides', 'trim-ends'];
  expect(ids.filter((id) => order.includes(id))).toEqual(order);
  expect(new Set(ids).size).toBe(ids.length);
  for (const job of [newJob(), proved(0.05), proved(0.03), setTiles(newJob(), { on: true })])
    expect(mountStepIds(job)).toEqual(mountSteps(job, inMm).map(({ id }) => id));
});

describe('ticks', () => {
  it('go on and off, and count only steps that the job has', () => {
    const steps = mountSteps(newJob(), inMm);
    const once = setTick(setTick(newJob(), 'dry', true), 'prove-pitch', true);
    expect(isTicked(once, 'dry')).toBe(true);
    expect(ticksAmong(once, steps)).toBe(2);
    expect(ticksAmong(once, mountSteps(proved(0.03), inMm))).toBe(1);
    expect(setTick(once, 'dry', true)).toBe(once);
    expect(setTick(setTick(once, 'dry', false), 'prove-pitch', false)).toEqual(newJob());
    expect(clearTicks(once)).toEqual(newJob());
  });

  it('come back from disk with the job, and every id is one that the job may keep', () => {
    const all = mountSteps(newJob(), inMm).reduce(
      (job, { id }) => setTick(job, id, true),
      newJob(),
    );
    const restored = restoreJob(JSON.parse(JSON.stringify(all)));
    expect(restored.ok && restored.job.mountTicks).toEqual(all.mountTicks);
    expect(v.safeParse(jobSchema, { ...newJob(), mountTicks: [3] }).success).toBe(false);
  });
});
