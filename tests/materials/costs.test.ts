/** Money and time: costs against sums done by hand. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { costsOf } from '../../src/materials/costs.ts';
import { chosenOf, lensCut, paperCut, printPiece } from '../../src/materials/cut-list.ts';
import type { Job } from '../../src/job/schema/job.ts';
import { newJob } from '../../src/job/schema/job.ts';
import { setStock, takePaper } from '../../src/materials/use-in-job.ts';
import { starterShelves } from '../../src/materials/starters.ts';
import type { LensEntry, PaperEntry, PrinterEntry } from '../../src/materials/shelves.ts';

const lens: LensEntry = {
  id: 'l',
  name: 'Lens',
  ...newJob().lens,
  widthMm: 300,
  heightMm: 400,
  price: 24,
  note: '',
};
const printer: PrinterEntry = {
  id: 'p',
  name: 'Printer',
  acrossDpi: 720,
  alongDpi: 720,
  inkPerSquareMetre: 20,
  marginMm: 5,
  note: '',
};
const paper: PaperEntry = {
  id: 'a',
  name: 'Paper',
  widthMm: 297,
  heightMm: 420,
  price: 3,
  note: '',
};

const jobOf = (widthMm: number, heightMm: number, stock: NonNullable<Job['stock']> = {}): Job => ({
  ...newJob(),
  print: { widthMm, heightMm, viewingDistanceMm: 400 },
  stock: { gapMm: 4, ...stock },
});

describe('how sheets lie under the print', () => {
  test('the ribs set the way on a lens sheet, and the count on paper', () => {
    const upright = jobOf(140, 60);
    // 300 across the ribs: 140 + 4 + 140 = 284. 400 along: (400 + 4) / 64 = 6.3.
    expect(lensCut(upright, lens)).toMatchObject({ across: 2, down: 6, turned: false });
    // Lying ribs: the sheet turned, 400 wide and 300 high. 2 × 140 + 4 = 284; 304 / 64 = 4.75.
    const lying = { ...upright, ribs: 'lying' as const };
    expect(lensCut(lying, lens)).toMatchObject({
      widthMm: 400,
      heightMm: 300,
      across: 2,
      down: 4,
      turned: true,
    });
    // Paper less 5 mm at each edge: 287 × 410. As stated 2 × 6 (414 / 64 = 6.47), turned 410 × 287:
    // 414 / 144 = 2.9 and 291 / 64 = 4.5, so 2 × 4. It stays as stated.
    expect(paperCut(upright, paper, 5)).toMatchObject({ across: 2, down: 6, turned: false });
    // A print of 300 × 200 has room on the turned paper alone.
    expect(paperCut(jobOf(300, 200), paper, 5)).toMatchObject({
      across: 1,
      down: 1,
      turned: true,
      widthMm: 420,
    });
  });

  test('a margin wider than the paper leaves no room, not a negative one', () => {
    const narrow = { ...paper, widthMm: 100, heightMm: 100 };
    expect(paperCut(jobOf(5, 5), narrow, 60)).toMatchObject({ across: 0, down: 0, pieces: 0 });
  });
});

describe('costs', () => {
  const job = jobOf(140, 60, { trials: 3, strips: 2, printHours: 1.5, stripHours: 0.5 });

  test('of a print: shares of the sheets, and ink by its area', () => {
    const costs = costsOf(job, { lens, printer, paper });
    // 24 / 12 pieces = 2; 3 / 12 pieces = 0.25; 20 × 0.14 × 0.06 m² = 0.168.
    expect(costs.lens.each).toBeCloseTo(2, 12);
    expect(costs.paper.each).toBeCloseTo(0.25, 12);
    expect(costs.ink.each).toBeCloseTo(0.168, 12);
    expect(costs.print.known).toBeCloseTo(2.418, 12);
    expect(costs.print.missing).toEqual([]);
    // A slice of lens 140 × 25: two across, (400 + 4) / 29 = 13.9 down: 24 / 26.
    expect(costs.lensSlice.each).toBeCloseTo(24 / 26, 12);
  });

  test('so far: three prints and two strips, in money and hours', () => {
    const costs = costsOf(job, { lens, printer, paper });
    const strip = (costs.stripPaper.each ?? NaN) + (costs.stripInk.each ?? NaN);
    expect(costs.strip.known).toBeCloseTo(strip, 12);
    expect(costs.spent.known).toBeCloseTo(3 * 2.418 + 2 * strip, 12);
    // 3 × 1.5 + 2 × 0.5.
    expect(costs.hours).toEqual({ known: 5.5, missing: [] });
    // The lens is no part of a strip's price: it is kept.
    expect(costsOf(job, { lens: { ...lens, price: 999 }, printer, paper }).strip.known).toBe(
      costs.strip.known,
    );
  });

  test('what has no price is named and not counted as nothing', () => {
    const { price: _none, ...unpriced } = lens;
    const costs = costsOf(job, { lens: unpriced, printer, paper });
    expect(costs.lens.each).toBeUndefined();
    expect(costs.print.known).toBeCloseTo(0.418, 12);
    expect(costs.print.missing).toEqual(['the lens sheet has no price yet']);
    expect(costs.spent.missing).toContain('the lens sheet has no price yet');
    const nothing = costsOf(job, { lens: undefined, printer: undefined, paper: undefined });
    expect(nothing.print).toEqual({
      known: undefined,
      missing: ['no lens sheet is chosen', 'no paper is chosen', 'no printer is chosen'],
    });
    expect(nothing.spent.known).toBeUndefined();
  });

  test('a price of nothing is a price', () => {
    const costs = costsOf(job, { lens: { ...lens, price: 0 }, printer, paper });
    expect(costs.lens.each).toBe(0);
    expect(costs.print.missing).toEqual([]);
  });

  test('a print that does not fit costs nothing known, and says so', () => {
    const wide = costsOf(jobOf(301, 60, { trials: 1 }), { lens, printer, paper });
    expect(wide.print.missing).toContain('the print does not fit on the lens sheet');
    expect(wide.lens.each).toBeUndefined();
  });

  test('nothing made cost nothing, whatever has no price', () => {
    const none = costsOf(jobOf(140, 60), { lens: undefined, printer: undefined, paper: undefined });
    expect(none.spent).toEqual({ known: 0, missing: [] });
    expect(none.hours).toEqual({ known: 0, missing: [] });
    const one = costsOf(jobOf(140, 60, { trials: 1 }), { lens, printer, paper });
    expect(one.hours).toEqual({
      known: undefined,
      missing: ['the hours for a print are not given'],
    });
  });

  test('never a number that is not one', () => {
    const length = fc.double({ min: 5, max: 5000, noNaN: true });
    const price = fc.option(fc.double({ min: 0, max: 1e9, noNaN: true }), { nil: undefined });
    fc.assert(
      fc.property(length, length, price, fc.integer({ min: 0, max: 100000 }), (w, h, cost, n) => {
        const priced = cost === undefined ? {} : { price: cost };
        const { price: _own, ...bare } = lens;
        const { print, spent } = costsOf(jobOf(w, h, { trials: n }), {
          lens: { ...bare, ...priced },
          printer,
          paper,
        });
        for (const total of [print, spent])
          expect(
            total.known === undefined || (Number.isFinite(total.known) && total.known >= 0),
          ).toBe(true);
        // Known in full exactly when nothing is missing; what is missing is never a zero.
        if (spent.missing.length === 0) expect(spent.known).toBeDefined();
      }),
      { numRuns: 50 },
    );
  });
});

describe('which entries the costs are computed with', () => {
  const shelves = starterShelves();

  test('those with its numbers, until one is chosen; a removed one is nobody’s stand-in', () => {
    const job = newJob();
    const found = chosenOf(job, shelves);
    expect(found.lens?.name).toContain('60 LPI');
    expect(found.printer).toMatchObject({ acrossDpi: 720, alongDpi: 720 });
    expect(found.paper?.name).toBe('A4');
    const [other] = shelves.lenses;
    expect(chosenOf(setStock(job, { lensId: other?.id }), shelves).lens).toBe(other);
    expect(chosenOf(setStock(job, { lensId: 'gone' }), shelves).lens).toBeUndefined();
  });

  test('a paper taken into the job is the strip’s paper as well', () => {
    const own: PaperEntry = { ...paper, id: 'own', name: 'Own', widthMm: 320, heightMm: 450 };
    const job = takePaper(newJob(), own);
    expect(job.pitchStrip).toMatchObject({ paper: 'own', paperWidthMm: 320, paperHeightMm: 450 });
    expect(chosenOf(job, { ...shelves, papers: [own] }).paper).toBe(own);
    expect(printPiece(job)).toEqual({
      widthMm: job.print.widthMm,
      heightMm: job.print.heightMm,
    });
  });
});
