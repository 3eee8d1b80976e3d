/** The shelves as a document: starters that can stand, files from outside, one pile put onto another. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FOCUS_TOLERANCE, focusCheck, standing } from '../../src/core/lens/focus.ts';
import { newJob } from '../../src/job/schema/job.ts';
import {
  carryOver,
  mergeShelves,
  readShelves,
  readShelvesText,
  writeShelves,
} from '../../src/materials/shelf-file.ts';
import { starterShelves, withStarters } from '../../src/materials/starters.ts';
import { addEntry, changeEntry, freeName, removeEntry } from '../../src/materials/shelves.ts';
import {
  isLensOfJob,
  lensFromJob,
  takeLens,
  takePaper,
  takePrinter,
} from '../../src/materials/use-in-job.ts';
import { lensOf } from '../../src/job/facts/sheet.ts';

const starters = starterShelves();
const lens = starters.lenses[0]!;
const paper = starters.papers[0]!;
let counter = 0;
const newId = () => `new-${(counter += 1)}`;

describe('the starters', () => {
  it('are called nominal, without a price, and can stand in focus', () => {
    for (const one of starters.lenses) {
      expect(one.name).toMatch(/nominal/);
      expect(one.note).toMatch(/Confirm with the supplier’s data and prove the pitch/);
      expect(one.price).toBeUndefined();
      const job = takeLens(newJob(), one, starters);
      const stands = standing(lensOf(job));
      expect(stands).toBeDefined();
      expect(Math.abs(focusCheck(stands!.lens)!.off)).toBeLessThan(FOCUS_TOLERANCE);
    }
    expect(readShelves(starters)).toMatchObject({ ok: true, leftOut: [] });
  });

  it('come back once each', () => {
    const emptied = removeEntry(starters, 'lenses', lens.id);
    expect(withStarters(emptied).lenses).toHaveLength(starters.lenses.length);
    expect(withStarters(starters)).toEqual(starters);
  });
});

describe('into the job', () => {
  it('a lens brings its numbers and lets a proved pitch go', () => {
    const proved = { ...newJob(), provedPitch: { viewingPitchMm: 0.42, readFromMm: 400 } };
    const job = takeLens(proved, lens, starters);
    expect(isLensOfJob(job, lens)).toBe(true);
    expect(job.provedPitch).toBeUndefined();
    expect(takeLens(job, lens, starters).lens).toEqual(job.lens);
  });

  it('a printer brings its grid, a paper its size', () => {
    const printed = takePrinter(newJob(), starters.printers[2]!);
    expect(printed.printer).toEqual({ carriageDpi: 720, feedDpi: 1440 });
    expect(takePaper(newJob(), paper).pitchStrip).toMatchObject({ paper: 'a4' });
    const roll = { ...paper, id: 'roll', name: 'Roll', widthMm: 610, heightMm: 1000 };
    expect(takePaper(newJob(), roll).pitchStrip).toMatchObject({ paper: 'own', paperWidthMm: 610 });
  });

  it('and out of it again', () => {
    const entry = lensFromJob(newJob(), starters, 'mine');
    expect(isLensOfJob(newJob(), entry)).toBe(true);
    expect(readShelves(addEntry(starters, 'lenses', entry))).toMatchObject({
      ok: true,
      leftOut: [],
    });
  });
});

describe('an entry', () => {
  it('refuses what no lens can be, with the reason', () => {
    for (const [change, why] of [
      [{ pitchMm: 0 }, /at least 0\.05 mm/],
      [{ radiusMm: 0.1 }, /half the lens pitch/],
      [{ index: NaN }, /Refractive index/],
      [{ price: -1 }, /Price/],
      [{ name: '  ' }, /Name/],
    ] as const)
      expect(changeEntry(starters, 'lenses', lens.id, change)).toMatchObject({
        ok: false,
        message: expect.stringMatching(why) as string,
      });
    expect(changeEntry(starters, 'lenses', 'gone', {})).toMatchObject({ ok: false });
  });

  it('gets a name of its own', () => {
    expect(freeName(starters, 'papers', 'A4')).toBe('A4 2');
    expect(freeName(starters, 'papers', 'A5')).toBe('A5');
  });
});

describe('a file', () => {
  it('comes back as it went, with fields that the studio does not know', () => {
    const odd = { ...starters, shop: 'the glasshouse', lenses: [{ ...lens, batch: 7 }] };
    const read = readShelvesText(writeShelves(odd));
    expect(read).toEqual({ ok: true, shelves: odd, leftOut: [] });
    expect(readShelvesText(`\uFEFF${writeShelves(odd)}`)).toMatchObject({ ok: true });
  });

  it.each([
    ['nothing', '', /not JSON/],
    ['a half one', writeShelves(starters).slice(0, 300), /not JSON/],
    ['a list', '[]', /does not hold shelves/],
    ['another document', '{"kind":"recipe","version":1}', /does not hold shelves/],
    ['a newer one', '{"kind":"tiltloom-shelves","version":9}', /newer studio/],
    ['no version', '{"kind":"tiltloom-shelves"}', /which version/],
    ['no list', '{"kind":"tiltloom-shelves","version":1,"lenses":{}}', /“lenses” is not a list/],
    [
      'a deep one',
      `{"kind":"tiltloom-shelves","a":${'['.repeat(60)}${']'.repeat(60)}}`,
      /deeper than/,
    ],
    [
      'a long one',
      JSON.stringify({ ...starters, papers: Array(501).fill(paper) }),
      /more than 500 entries/,
    ],
  ])('that is %s is refused with the reason', (_what, text, why) => {
    const read = readShelvesText(text);
    expect(read).toMatchObject({ ok: false, reason: expect.stringMatching(why) as string });
  });

  it('with damaged entries gives the others, and names each with its field', () => {
    const read = readShelves({
      ...starters,
      lenses: [lens, { ...lens, id: 'b', name: 'Torn', pitchMm: 'wide' }, 7, lens],
    });
    expect(read).toMatchObject({ ok: true, shelves: { lenses: [lens] } });
    expect(read.ok && read.leftOut.map(({ name }) => name)).toEqual(['Torn', 'entry 3', lens.name]);
    expect(read.ok && read.leftOut[0]?.reason).toMatch(/pitchMm/);
  });

  it('never throws and never reaches what objects share, whatever it holds', () => {
    fc.assert(
      fc.property(fc.json({ maxDepth: 6 }), (text) => {
        const shelves = `{"kind":"tiltloom-shelves","version":1,"lenses":[${text}],"__proto__":{"seen":1}}`;
        const read = readShelvesText(shelves);
        expect(({} as Record<string, unknown>)['seen']).toBeUndefined();
        if (read.ok) expect(read.shelves.lenses.length + read.leftOut.length).toBe(1);
        readShelvesText(text);
      }),
    );
    fc.assert(fc.property(fc.anything(), (value) => void readShelves(value)));
  });
});

it('an entry inherits nothing from a field called __proto__', () => {
  const text = writeShelves({ ...starters, papers: [paper] }).replace(
    '"id": "starter-paper-a4"',
    '"id": "starter-paper-a4", "__proto__": { "price": "evil" }',
  );
  const read = readShelvesText(text);
  expect(read.ok && read.shelves.papers).toEqual([paper]);
  expect(read.ok && read.shelves.papers[0]?.price).toBeUndefined();
});

describe('theirs onto ours', () => {
  it('adds what is new, skips what is the same, and puts beside what differs', () => {
    const theirs = {
      ...starters,
      lenses: [lens, { ...starters.lenses[1]!, thicknessMm: 0.9, radiusMm: 0.32 }],
      printers: [{ ...starters.printers[0]!, id: 'theirs', name: 'The shop’s printer' }],
      papers: [],
    };
    const { shelves, added, besides, leftOut } = mergeShelves(starters, theirs, newId);
    expect(added).toBe(1);
    expect(besides).toHaveLength(1);
    expect(leftOut).toHaveLength(1);
    expect(shelves.lenses.slice(0, starters.lenses.length)).toEqual(starters.lenses);
    expect(shelves.lenses.at(-1)?.name).toMatch(/\(imported\)/);
    expect(readShelves(shelves)).toMatchObject({ ok: true, leftOut: [] });
    // The same file once more brings nothing.
    expect(mergeShelves(shelves, theirs, newId)).toMatchObject({ added: 0, besides: [] });
  });
});

it('what two tabs change comes together: the later word wins, entry by entry', () => {
  const changed = (price: number, from = starters) => {
    const next = changeEntry(from, 'lenses', lens.id, { price });
    if (!next.ok) throw new Error(next.message);
    return next.shelves;
  };
  const here = removeEntry(changed(3), 'papers', paper.id);
  const there = addEntry(starters, 'papers', { ...paper, id: 'p2', name: 'Roll' });
  const both = carryOver(starters, here, there);
  expect(both.lenses.find(({ id }) => id === lens.id)?.price).toBe(3);
  expect(both.papers.map(({ id }) => id)).not.toContain(paper.id);
  expect(both.papers.map(({ id }) => id)).toContain('p2');
});
