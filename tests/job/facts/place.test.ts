/** Where a picture lies on the print. Checked on points of the print, each found on the picture by plain geometry. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { moved, shiftBy } from '../../../src/core/numeric/similarity.ts';
import { setPlace } from '../../../src/job/edits/set-place.ts';
import { betweenAsLaid, middlePlace, placeOnOther } from '../../../src/job/facts/laid.ts';
import {
  bareMm,
  changedPlace,
  onPrint,
  pixelsAcross,
  placeFrom,
  zoomToFill,
} from '../../../src/job/facts/place.ts';
import { withBleed, areaOf } from '../../../src/job/facts/sheet.ts';
import type { Frame, Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { photograph } from '../photograph.ts';

const jobOf = (...frames: Frame[]): Job => ({
  ...newJob(),
  print: { widthMm: 100, heightMm: 150, viewingDistanceMm: 400 },
  frames,
});

const places = fc.record({
  zoom: fc.double({ min: 0.3, max: 3, noNaN: true }),
  right: fc.double({ min: -0.4, max: 0.4, noNaN: true }),
  down: fc.double({ min: -0.4, max: 0.4, noNaN: true }),
  turnDeg: fc.double({ min: -179, max: 179, noNaN: true }),
});
const sizes = fc.constantFrom([600, 900], [900, 600], [800, 800], [4000, 3000]) as fc.Arbitrary<
  [number, number]
>;

/** Whether the picture has a pixel at this point of the print. */
const isThere = (job: Job, frame: Frame, xMm: number, yMm: number, by = 0.6): boolean => {
  const { a, b, x0, y0 } = onPrint(job, frame);
  // Solved for the pixel: the print's vector turned back and shortened.
  const [dx, dy] = [xMm - x0, yMm - y0];
  const x = (a * dx + b * dy) / (a * a + b * b);
  const y = (a * dy - b * dx) / (a * a + b * b);
  return x > -by && y > -by && x < frame.widthPx + by && y < frame.heightPx + by;
};

describe('a picture on the print', () => {
  test('comes to lie where it is wanted, to a hundredth of a pixel', () => {
    fc.assert(
      fc.property(places, sizes, (place, [w, h]) => {
        const placed = photograph('kingfisher', w, h, place);
        const plain = photograph('kingfisher', w, h);
        const wanted = onPrint(jobOf(placed), placed);
        const again = { ...plain, place: placeFrom(jobOf(plain), plain, wanted)! };
        for (const corner of [
          { x: 0, y: 0 },
          { x: w, y: h },
        ]) {
          const [there, here] = [
            moved(wanted, corner),
            moved(onPrint(jobOf(again), again), corner),
          ];
          const pxMm = Math.hypot(wanted.a, wanted.b);
          expect(Math.hypot(there.x - here.x, there.y - here.y)).toBeLessThan(0.01 * pxMm);
        }
      }),
    );
  });

  test('a zoom about the middle of the print leaves what lies there where it is', () => {
    const frame = photograph('kingfisher', 900, 600, {
      zoom: 1.2,
      right: 0.1,
      down: 0.2,
      turnDeg: 9,
    });
    const job = jobOf(frame);
    for (const change of [{ zoomBy: 1.7 }, { turnByDeg: -25 }] as const) {
      const next = { ...frame, place: changedPlace(job, frame, change)! };
      const other = jobOf(next);
      for (const at of [
        { x: 450, y: 300 },
        { x: 0, y: 0 },
      ]) {
        const [was, is] = [moved(onPrint(job, frame), at), moved(onPrint(other, next), at)];
        const reach = (p: typeof was) => Math.hypot(p.x - 50, p.y - 75);
        expect(reach(is)).toBeCloseTo(reach(was) * ('zoomBy' in change ? 1.7 : 1), 3);
      }
    }
    const shifted = { ...frame, place: changedPlace(job, frame, { rightMm: 3, downMm: -2 })! };
    const [was, is] = [
      moved(onPrint(job, frame), { x: 5, y: 5 }),
      moved(onPrint(jobOf(shifted), shifted), { x: 5, y: 5 }),
    ];
    expect([is.x - was.x, is.y - was.y].map((mm) => Math.round(mm * 1e3) / 1e3)).toEqual([3, -2]);
  });

  test('one that lies by itself has no place', () => {
    const frame = photograph('kingfisher', 900, 600, { zoom: 2, right: 0.1, down: 0, turnDeg: 3 });
    const plain = photograph('kingfisher', 900, 600);
    expect(placeFrom(jobOf(frame), frame, onPrint(jobOf(plain), plain))).toBeUndefined();
    expect(middlePlace(jobOf(plain), plain, 'fill')).toBeUndefined();
  });

  test('two laid on each other stay so on a print of another size, or with the key plane moved', () => {
    const one = photograph('glasshouse', 4000, 3000);
    const two = photograph('lighthouse', 4000, 3000);
    const between = { a: 1.05, b: 0.02, x0: -130, y0: 44 };
    const job = jobOf(one, two);
    const laid = setPlace(job, two.id, placeOnOther(job, two, one, between));
    const jobs: Job[] = [
      laid,
      { ...laid, print: { ...laid.print, widthMm: 300, heightMm: 210 } },
      { ...laid, placement: { mode: 'fit', shiftX: 0.3, shiftY: 0 } },
      { ...laid, keyShift: 1.2 },
    ];
    for (const each of jobs) {
      const found = betweenAsLaid(each, each.frames[1]!, each.frames[0]!);
      for (const at of [
        { x: 0, y: 0 },
        { x: 4000, y: 3000 },
      ]) {
        const [wanted, is] = [moved(between, at), moved(found, at)];
        expect(Math.hypot(is.x - wanted.x, is.y - wanted.y)).toBeLessThan(0.05);
      }
    }
  });

  test('pictures of different shapes are laid on each other too', () => {
    const one = photograph('glasshouse', 4000, 3000);
    const two = photograph('lighthouse', 2000, 3000);
    const job = jobOf(one, two);
    const laid = setPlace(job, two.id, placeOnOther(job, two, one, shiftBy(500, 0)));
    const [a, b] = laid.frames as [Frame, Frame];
    const [there, here] = [
      moved(onPrint(laid, a), { x: 600, y: 200 }),
      moved(onPrint(laid, b), { x: 100, y: 200 }),
    ];
    expect(Math.hypot(there.x - here.x, there.y - here.y)).toBeLessThan(0.001);
  });
});

describe('bare paper', () => {
  test('by itself, “fill” leaves none and “fit” leaves what the shapes differ by', () => {
    const frame = photograph('lighthouse', 900, 900);
    expect(bareMm(jobOf(frame), frame)).toEqual({ left: 0, top: 0, right: 0, bottom: 0 });
    const fit: Job = { ...jobOf(frame), placement: { mode: 'fit', shiftX: 0, shiftY: 0 } };
    // A square of 100 mm in the middle of 150 mm.
    const bare = bareMm(fit, frame);
    expect([bare.top, bare.bottom].map((mm) => mm.toFixed(1))).toEqual(['24.9', '24.9']);
  });

  test('is none exactly where no point of the print is without picture', () => {
    fc.assert(
      fc.property(places, sizes, (place, [w, h]) => {
        const frame = photograph('lighthouse', w, h, place);
        const job = jobOf(frame);
        const raster = Array.from({ length: 41 * 61 }, (_, i): [number, number] => [
          (i % 41) * 2.5,
          Math.floor(i / 41) * 2.5,
        ]);
        const most = Math.max(...Object.values(bareMm(job, frame)));
        if (most === 0) expect(raster.every(([x, y]) => isThere(job, frame, x, y))).toBe(true);
        // Two millimetres of a corner may lie between two points of the raster.
        if (most > 8) expect(raster.some(([x, y]) => !isThere(job, frame, x, y, 0.4))).toBe(true);
      }),
      { numRuns: 300, seed: 7 },
    );
  });

  test.each([
    // Of a square of 150 mm, laid in the middle of 100 × 150 mm.
    [
      { zoom: 1, right: 0.4, down: 0, turnDeg: 0 },
      { left: 35, top: 0, right: 0, bottom: 0 },
    ],
    [
      { zoom: 0.5, right: 0, down: 0, turnDeg: 0 },
      { left: 12.5, top: 37.5, right: 12.5, bottom: 37.5 },
    ],
    [
      { zoom: 1, right: 0, down: -0.1, turnDeg: 90 },
      { left: 0, top: 0, right: 0, bottom: 15 },
    ],
    [
      { zoom: 1, right: 2, down: 0, turnDeg: 0 },
      { left: 100, top: 150, right: 100, bottom: 150 },
    ],
    // Turned about its middle, 110 mm from the left: its left edge meets the print's lower side 71.17 mm from the
    // middle of the edge, at 110 − 75 cos 3° + 71.17 sin 3°; its upper left corner is 75 − 75 cos 3° + 75 sin 3° down.
    [
      { zoom: 1, right: 0.4, down: 0, turnDeg: -3 },
      { left: 38.83, top: 4.03, right: 0, bottom: 0 },
    ],
  ])('of %j is what a ruler shows', (place, wanted) => {
    const frame = photograph('lighthouse', 900, 900, place);
    const bare = bareMm(jobOf(frame), frame);
    for (const [side, mm] of Object.entries(wanted))
      expect(Math.abs(bare[side as keyof typeof bare] - mm)).toBeLessThan(0.15);
  });

  test('the zoom that fills leaves none, and a hundredth less does', () => {
    fc.assert(
      fc.property(places, sizes, (place, [w, h]) => {
        const frame = photograph('lighthouse', w, h, place);
        const job = jobOf(frame);
        const zoom = zoomToFill(job, frame);
        if (zoom === undefined) {
          expect(isThere(job, frame, 50, 75, -0.1)).toBe(false);
          return;
        }
        const bareAt = (zoomBy: number) => {
          const wanted = changedPlace(job, frame, { zoomBy });
          const next: Frame = wanted === undefined ? frame : { ...frame, place: wanted };
          return Math.max(...Object.values(bareMm(jobOf(next), next)));
        };
        if (zoom > 20) return;
        expect(bareAt(zoom * 1.0001)).toBeLessThan(0.02);
        if (zoom > 1.02) expect(bareAt(zoom * 0.98)).toBeGreaterThan(0);
      }),
      { numRuns: 200, seed: 8 },
    );
  });

  test.each(['fill', 'fit'] as const)(
    '“%s” of a turned picture is the tightest there is',
    (how) => {
      const frame = photograph('lighthouse', 900, 600, {
        zoom: 2,
        right: 0.3,
        down: 0.1,
        turnDeg: 20,
      });
      const job = jobOf(frame);
      const place = middlePlace(job, frame, how)!;
      const next = { ...frame, place };
      const now = jobOf(next);
      expect(place.turnDeg).toBeCloseTo(20, 5);
      const corners = [0, 900].flatMap((x) =>
        [0, 600].map((y) => moved(onPrint(now, next), { x, y })),
      );
      const outside = Math.max(...corners.flatMap(({ x, y }) => [-x, -y, x - 100, y - 150]));
      if (how === 'fit') expect(outside).toBeCloseTo(0, 3);
      else {
        expect(Math.max(...Object.values(bareMm(now, next)))).toBe(0);
        const less = { ...next, place: { ...place, zoom: place.zoom * 0.99 } };
        expect(Math.max(...Object.values(bareMm(jobOf(less), less)))).toBeGreaterThan(0);
      }
    },
  );

  test('the bleed is mirrored where the placed picture reaches the trim, and nowhere else', () => {
    const page = { on: true, bleedMm: 2 } as Job['page'];
    const frame = photograph('lighthouse', 900, 900, { zoom: 1, right: 0.06, down: 0, turnDeg: 0 });
    // A square of 150 mm over a width of 100 mm: shifted 9 mm to the right it still reaches both sides.
    const job = { ...jobOf(frame), ...(page === undefined ? {} : { page }) };
    const both = withBleed(job, areaOf(job, frame), frame);
    expect(both.mirror).toEqual({ left: true, top: true, right: true, bottom: true });
    const far = photograph('lighthouse', 900, 900, { zoom: 1, right: 0.3, down: 0, turnDeg: 0 });
    expect(withBleed(job, areaOf(job, far), far).mirror).toMatchObject({
      left: false,
      right: true,
    });
    const askew = photograph('lighthouse', 900, 900, { zoom: 1.6, right: 0, down: 0, turnDeg: 8 });
    expect(withBleed(job, areaOf(job, askew), askew).mirror).toEqual(both.mirror);
  });

  test('a picture that lies twice as large has half the pixels across', () => {
    const frame = photograph('a', 900, 600);
    const before = pixelsAcross(jobOf(frame), frame);
    const twice = { ...frame, place: { zoom: 2, right: 0, down: 0, turnDeg: 0 } };
    expect(pixelsAcross(jobOf(twice), twice)).toBeCloseTo(before / 2, 6);
  });
});
