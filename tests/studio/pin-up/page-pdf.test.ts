/** The page above the bench, read back by pdf.js: one page of the right size, all its words, none cut. */
import fc from 'fast-check';
import { VerbosityLevel, getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, it } from 'vitest';
import { pageContent } from '../../../src/studio/pin-up/page-content.ts';
import { pagePdf } from '../../../src/studio/pin-up/page-pdf.ts';
import { setRibs } from '../../../src/job/edits/consequences.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { setGang } from '../../../src/job/facts/gang.ts';
import { setTiles } from '../../../src/job/facts/tiles.ts';
import { setPage } from '../../../src/job/facts/page.ts';
import type { MountSetting } from '../../../src/job/facts/mount/steps.ts';

/** What no desktop printer is likely to leave blank: 12 mm, in points. */
const EDGE = (12 * 72) / 25.4;

interface Piece {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly base: number;
  readonly size: number;
}

const read = async (bytes: Uint8Array) => {
  const loading = getDocument({
    data: new Uint8Array(bytes),
    stopAtErrors: true,
    verbosity: VerbosityLevel.ERRORS,
  });
  const document = await loading.promise;
  const page = await document.getPage(1);
  const { items } = await page.getTextContent();
  const pieces = items.flatMap((item): Piece[] => {
    if (!('str' in item) || item.str.trim() === '') return [];
    const [size, , , , left, base] = item.transform as number[] as [
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    return [{ text: item.str, left, right: left + item.width, base, size }];
  });
  const metadata = (await document.getMetadata()).info as Record<string, unknown>;
  const found = {
    pages: document.numPages,
    view: page.view,
    pieces,
    words: pieces
      .map(({ text }) => text)
      .join(' ')
      .replace(/\s+/g, ' '),
    title: metadata['Title'],
  };
  await loading.destroy();
  return found;
};

const made = async (job: Job, setting: MountSetting) => {
  const content = pageContent(job, setting);
  const pdf = await pagePdf(content, setting.unit);
  return { content, pdf, ...(await read(pdf.bytes)) };
};

const inMm: MountSetting = { unit: 'mm', fileType: 'png' };

describe('the page', () => {
  it('is one A4 (ISO 216: 210 × 297 mm) by millimetres, one Letter (8.5 × 11 in) by inches', async () => {
    const metric = await made(newJob(), inMm);
    expect(metric.pages).toBe(1);
    expect(metric.view[2]).toBeCloseTo((210 / 25.4) * 72, 2);
    expect(metric.view[3]).toBeCloseTo((297 / 25.4) * 72, 2);
    const inches = await made(newJob(), { ...inMm, unit: 'in' });
    expect(inches.pages).toBe(1);
    expect(inches.view.slice(2)).toEqual([612, 792]);
  });

  it('holds the name, the numbers and every step, and names itself', async () => {
    const { content, words, title, pieces } = await made(
      { ...newJob(), name: 'Kingfisher at the Pond' },
      inMm,
    );
    expect(words).toContain('Kingfisher at the Pond');
    expect(title).toBe('Kingfisher at the Pond: mounting');
    for (const { title: head, text, cautions } of content.steps)
      expect(words).toContain(
        [head, text, ...cautions.flatMap((caution) => ['Caution:', caution])].join(' '),
      );
    expect(content.steps.flatMap(({ cautions }) => cautions)).not.toEqual([]);
    for (const [name, value] of content.facts) expect(words).toContain(`${name}: ${value}`);
    // Large type: this is read standing.
    expect(Math.max(...pieces.map(({ size }) => size))).toBeGreaterThanOrEqual(16);
  });

  it('says which letters its type lacks, keeps those it has, and lets accents fall', async () => {
    const garden = await made({ ...newJob(), name: 'Gewächshaus żółw 温室 зимородок' }, inMm);
    expect(garden.words).toContain('Gewächshaus zó?w ?? ?????????');
    expect(new Set(garden.pdf.lost)).toEqual(new Set('ł温室зимородк'));
    // The document's own title is no type: it keeps every letter.
    expect(garden.title).toContain('温室');
  });
});

const words = fc.string({ unit: 'binary', maxLength: 200 });
const job = fc
  .record({
    name: fc.oneof(words, fc.stringMatching(/^[A-Za-z ]{0,200}$/), fc.constant('W'.repeat(200))),
    paper: fc.oneof(words, fc.constant('M'.repeat(80))),
    pitchMm: fc.double({ min: 0.05, max: 5, noNaN: true }),
    width: fc.double({ min: 5, max: 5000, noNaN: true }),
    height: fc.double({ min: 5, max: 20000, noNaN: true }),
    distance: fc.double({ min: 50, max: 50000, noNaN: true }),
    dots: fc.double({ min: 50, max: 10000, noNaN: true }),
    viewSlots: fc.integer({ min: 1, max: 200 }),
    proved: fc.boolean(),
    plusMinusLpi: fc.double({ min: 0, max: 10, noNaN: true }),
    lying: fc.boolean(),
    flips: fc.boolean(),
    onPage: fc.boolean(),
    onFilm: fc.boolean(),
    layout: fc.constantFrom('one' as const, 'tiles' as const, 'several' as const),
    budgetZones: fc.double({ min: 0.01, max: 1, noNaN: true }),
  })
  .map((of): Job => {
    const made: Job = {
      ...newJob(),
      name: of.name,
      lens: { ...newJob().lens, pitchMm: of.pitchMm },
      printer: { carriageDpi: of.dots, feedDpi: 10050 - of.dots },
      print: { widthMm: of.width, heightMm: of.height, viewingDistanceMm: of.distance },
      viewSlots: of.viewSlots,
      exactness: { budgetZones: of.budgetZones, pitchUnsureLpi: 0.1, stretchShare: 0.001 },
      ...(of.flips
        ? { recipe: { kind: 'flip', pictures: ['a', 'b'], guardSlots: 1, guard: 'mean' } }
        : {}),
    };
    const laid = of.onPage ? setPage(made, { on: true, bleedMm: 12.3 }) : made;
    const onFilm = of.onFilm ? setPage(laid, { mirrored: true }) : laid;
    const spread = {
      one: onFilm,
      tiles: setTiles(onFilm, { on: true }),
      several: setGang(onFilm, { on: true }),
    }[of.layout];
    const turned = of.lying ? setRibs(spread, 'lying') : spread;
    if (!of.proved) return turned;
    return {
      ...turned,
      provedPitch: {
        viewingPitchMm: of.pitchMm,
        readFromMm: of.distance,
        plusMinusLpi: of.plusMinusLpi,
        readOn: '2026-11-03',
        paper: of.paper.slice(0, 80),
      },
    };
  });
const setting = fc.record({
  unit: fc.constantFrom('mm' as const, 'in' as const),
  fileType: fc.constantFrom('png' as const, 'tiff' as const, 'pdf' as const),
});

it('stands on one page for every job: nothing cut, nothing over another, and large enough', async () => {
  await fc.assert(
    fc.asyncProperty(job, setting, async (print, shown) => {
      const { content, pdf, pages, view, pieces, words: all } = await made(print, shown);
      const [, , width = 0, height = 0] = view;
      expect(pages).toBe(1);
      for (const { left, right, base, size } of pieces) {
        expect(left).toBeGreaterThanOrEqual(EDGE);
        expect(right).toBeLessThanOrEqual(width - EDGE);
        expect(base - size * 0.25).toBeGreaterThanOrEqual(EDGE);
        expect(base + size * 0.75).toBeLessThanOrEqual(height - EDGE);
      }
      const sorted = [...pieces].sort((a, b) => b.base - a.base);
      sorted.forEach((one, place) => {
        for (const other of sorted.slice(place + 1)) {
          const apart = one.base - other.base;
          if (apart > 0.5 * one.size) break;
          const beside = one.right <= other.left + 0.5 || other.right <= one.left + 0.5;
          expect(beside || apart > 0.9 * other.size).toBe(true);
        }
      });
      // The person's own words may be broken, or lose letters; the studio's may not.
      for (const { title, text } of content.steps)
        if (!text.startsWith('Load ')) expect(all).toContain(`${title} ${text}`);
      for (const [name, value] of content.facts) expect(all).toContain(`${name}: ${value}`);
      // Common practice for print read at arm's length: 9 points or more.
      expect(pdf.typeSize).toBeGreaterThanOrEqual(9);
    }),
    { numRuns: 20, seed: 20261125 },
  );
});
