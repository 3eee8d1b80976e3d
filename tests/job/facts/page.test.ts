/** The page of a job: its paper, where things lie, what does not fit, and what stays as it was. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { PageBox } from '../../../src/core/sheet/page-spec.ts';
import { columnMap } from '../../../src/core/weave/column-map.ts';
import { findings } from '../../../src/job/findings/all.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import {
  copyNumber,
  overhangOf,
  pagePlanOf,
  pageToWeave,
  setPage,
  smallestPaper,
  switchPage,
} from '../../../src/job/facts/page.ts';
import { sheetSpecOf } from '../../../src/job/facts/sheet.ts';

const work = { prepareFaults: new Map(), arrivalNotes: [] };
const onPage = (change: Parameters<typeof setPage>[1] = {}, job: Job = newJob()) =>
  setPage(job, { on: true, ...change });
const pageFinding = (job: Job) => findings(job, work).find(({ id }) => id.startsWith('page-'));

describe('paper', () => {
  it('begins as the smaller usual one that takes all of it, and stays what it was chosen to be', () => {
    const small = { ...newJob(), print: { ...newJob().print, widthMm: 101.6, heightMm: 152.4 } };
    const paperOf = (job: Job, units: 'mm' | 'in') => switchPage(job, true, units).page?.paper;
    expect([paperOf(small, 'mm'), paperOf(small, 'in')]).toEqual(['a4', 'letter']);
    // 8 × 10 in leave no room for rails on 210 mm.
    expect([paperOf(newJob(), 'mm'), paperOf(newJob(), 'in')]).toEqual(['a3', 'tabloid']);
    expect(paperOf(setPage(small, { on: false, paper: 'a5' }), 'mm')).toBe('a5');
  });

  it('comes off a roll as long as the print needs', () => {
    const job = onPage({ paper: 'roll' });
    expect(overhangOf(job).allMm).toBeCloseTo(0, 9);
  });
});

const overlap = (a: PageBox, b: PageBox) =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

describe('the page', () => {
  it('is nothing while it is off, and changes nothing then', () => {
    const off = setPage(newJob(), { on: false, bleedMm: 4 });
    expect(pageToWeave(off, 'mm', '2025-11-25')).toBeUndefined();
    expect(sheetSpecOf(off)).toEqual(sheetSpecOf(newJob()));
  });

  it('has a line of the person’s own words on its label, off the picture, and none without', () => {
    const [plain, edition] = [onPage(), onPage({ edition: 'Edition 3 / 12' })];
    expect(pagePlanOf(edition).label).toEqual([
      pagePlanOf(plain).label[0],
      'Edition 3 / 12',
      pagePlanOf(plain).label[1],
    ]);
    const inkOf = (job: Job) => pageToWeave(job, 'mm', '2026-12-01')?.ink ?? [];
    const [before, after] = [inkOf(plain), inkOf(edition)];
    expect(after.length).toBeGreaterThan(before.length);
    const trim = pageToWeave(edition, 'mm', '2026-12-01')?.trim as PageBox;
    expect(after.filter((box) => overlap(box, trim))).toEqual([]);
    expect(inkOf(onPage({ edition: 'Edition 3 / 12', label: false })).length).toBeLessThan(
      before.length,
    );
  });

  it('numbers the copies of the print run, one on as each is mounted', () => {
    const run = (mounted: readonly number[]) => ({
      ...newJob(),
      printRun: {
        copies: 25,
        mounted: mounted.map((copy) => ({
          piece: 'sheet',
          copy,
          on: '2026-12-01',
          pitchMm: 0.4,
          proved: true,
        })),
      },
    });
    const lineOf = (mounted: readonly number[], edition?: string) =>
      pagePlanOf(onPage({ numbered: true, edition }, run(mounted))).label[1];
    expect(lineOf([])).toBe('1/25');
    expect(lineOf([1, 2], 'Kingfisher')).toBe('Kingfisher 3/25');
    expect(lineOf([1, 3])).toBe('2/25');
    expect(lineOf(Array.from({ length: 25 }, (_, at) => at + 1))).toBe('25/25');
    expect(pagePlanOf(onPage({}, run([1]))).label).toHaveLength(2);
    // Of a print over four lens sheets, a copy is done when all four are mounted.
    expect(copyNumber(onPage({ numbered: true }, run([1, 1, 1, 1, 2])), 4)).toBe('2/25');
  });

  it('has a line to number and one to sign, with room to write above them', () => {
    const dpi = 720;
    const written = (signLine: true | undefined) =>
      (pageToWeave(onPage({ signLine }), 'mm', '2026-12-01')?.ink ?? []).filter(
        ({ left, right, top, bottom }) =>
          right - left > (20 * dpi) / 25.4 && bottom - top < (0.5 * dpi) / 25.4,
      );
    const other = written(undefined);
    const lines = written(true).filter(
      (line) => !other.some(({ left, right }) => left === line.left && right === line.right),
    );
    expect(lines).toHaveLength(2);
    const ink = pageToWeave(onPage({ signLine: true }), 'mm', '2026-12-01')?.ink ?? [];
    for (const line of lines) {
      const room = { ...line, top: line.top - Math.floor((8 * dpi) / 25.4) };
      expect(ink.filter((box) => box.top !== line.top && overlap(box, room))).toEqual([]);
    }
  });

  it('keeps rails and ink off the picture and off each other, within the paper where they fit', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('upright' as const, 'lying' as const),
        fc.constantFrom('mm' as const, 'in' as const),
        fc.double({ min: 20, max: 250, noNaN: true }),
        fc.double({ min: 20, max: 350, noNaN: true }),
        fc.double({ min: 0, max: 6, noNaN: true }),
        fc.constantFrom(true as const, undefined),
        (ribs, barIn, widthMm, heightMm, bleedMm, signLine) => {
          const base = newJob();
          const print = { ...base.print, widthMm, heightMm };
          const job = onPage(
            { bleedMm, signLine },
            { ...base, ribs, print, name: 'Glasshouse & Eisvögel' },
          );
          const page = pageToWeave(job, barIn, '2025-11-25');
          if (page === undefined) throw new Error('off');
          expect(page.rails).toHaveLength(4);
          expect(page.ink.length).toBeGreaterThan(12);
          const printed = [...page.rails, ...page.ink];
          expect(printed.filter((box) => overlap(box, page.woven))).toEqual([]);
          expect(page.ink.filter((box) => page.rails.some((rail) => overlap(box, rail)))).toEqual(
            [],
          );
          if (overhangOf(job).allMm > 0) return;
          const { widthDots, heightDots } = page;
          const off = ({ left, top, right, bottom }: PageBox) =>
            Math.min(left, top) < 0 || right > widthDots || bottom > heightDots;
          expect([...printed, page.woven].filter(off)).toEqual([]);
        },
      ),
      { numRuns: 60, seed: 6 },
    );
  });

  it('weaves the same columns within the trim, whatever the bleed', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 12, noNaN: true }), (bleedMm) => {
        const bare = columnMap(sheetSpecOf(newJob()));
        const job = onPage({ bleedMm });
        const bled = columnMap(sheetSpecOf(job));
        const aside = (bled.dots - bare.dots) / 2;
        expect(aside).toBe(Math.round((bleedMm * 720) / 25.4));
        for (let dot = 0; dot < bare.dots; dot += 7) {
          const [a, b] = [bare.start[dot] as number, bled.start[dot + aside] as number];
          expect(bled.slot[b]).toBe(bare.slot[a]);
          expect((bled.lenticule[b] as number) + bled.firstLenticule).toBe(
            (bare.lenticule[a] as number) + bare.firstLenticule,
          );
          expect(bled.weight[b]).toBeCloseTo(bare.weight[a] as number, 6);
        }
      }),
      { numRuns: 10, seed: 6 },
    );
  });
});

describe('what does not fit', () => {
  it('is nothing on paper that is large enough', () => {
    expect(pageFinding(onPage({ paper: 'a3' }))).toBeUndefined();
  });

  it('is the rails on A4 for a print of 8 × 10 in, and larger paper is one press away', () => {
    const job = onPage({
      paper: 'a4',
      bleedMm: 0,
      marginsMm: { left: 3, top: 3, right: 3, bottom: 3 },
    });
    const finding = pageFinding(job);
    expect(finding?.id).toBe('page-parts-off-paper');
    const action = finding?.action;
    if (action === undefined || !('edit' in action)) throw new Error('no action');
    expect(pageFinding(action.edit(job))).toBeUndefined();
  });

  it('is the print itself where it was moved off the paper; the middle is one press away', () => {
    const job = onPage({ paper: 'a3', place: { leftMm: 200, topMm: 50 } });
    const finding = pageFinding(job);
    expect(finding).toMatchObject({ id: 'page-picture-off-paper', severity: 'problem' });
    // 200 + 203.2 + 2 of bleed, against 297 − 5.
    expect(finding?.figure).toBe('113.2 mm too far');
    const action = finding?.action;
    if (action === undefined || !('edit' in action)) throw new Error('no action');
    expect(pagePlanOf(action.edit(job)).leftMm).toBeCloseTo((297 - 203.2) / 2, 9);
  });

  it('names no paper for a print larger than all of them', () => {
    const base = newJob();
    const poster = onPage({}, { ...base, print: { ...base.print, widthMm: 2000, heightMm: 2000 } });
    expect(smallestPaper(poster)).toBeUndefined();
    expect(pageFinding(poster)?.remedy).toMatch(/roll/);
  });
});
