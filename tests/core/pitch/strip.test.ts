/** The strip's dots: where its lines fall, what its phase strip says, and that any rows will do. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LINE_SHARE, lineShares, phaseLight, phaseRow } from '../../../src/core/pitch/gratings.ts';
import { lettering } from '../../../src/core/pitch/lettering.ts';
import { paperAcrossMm, stripRoom } from '../../../src/core/pitch/paper.ts';
import { stripLayout } from '../../../src/core/pitch/strip-layout.ts';
import { stripRows, stripSize, stripSource } from '../../../src/core/pitch/strip-rows.ts';
import type { StripSpec } from '../../../src/core/pitch/strip.ts';
import { adviseBands, bandStep, bandsOf } from '../../../src/core/pitch/strip.ts';

const specOf = (change: Partial<StripSpec> = {}): StripSpec => ({
  acrossDpi: 360,
  alongDpi: 180,
  ribs: 'upright',
  bandsLpi: bandsOf({ centreLpi: 59.92, spreadLpi: 0.14, bands: 5 }),
  bandDots: 701,
  lensLpi: 60,
  readFromMm: 400,
  barsIn: 'mm',
  ...change,
});

/**
 * Share of dot j under the dark lines in whole numbers, exactly. In units of a dot over 16 lpi: the
 * dot's edges are (2j − dots) × 8 lpi and 16 lpi further, a rib is 16 dpi long, rib k's line reaches
 * 2 dpi to either side of 16 dpi k. Pitches are in thousandths of a line to the inch, so all is whole.
 */
const exactShare = (j: number, dots: number, milliLpi: bigint, dpi: bigint): number => {
  const left = (2n * BigInt(j) - BigInt(dots)) * 8n * milliLpi;
  const right = left + 16n * milliLpi;
  const rib = 16n * dpi * 1000n;
  const half = 2n * dpi * 1000n;
  let dark = 0n;
  for (let k = left / rib - 2n; k <= right / rib + 2n; k += 1n) {
    const from = left > k * rib - half ? left : k * rib - half;
    const to = right < k * rib + half ? right : k * rib + half;
    if (to > from) dark += to - from;
  }
  return Number((dark * 10n ** 18n) / (16n * milliLpi)) / 1e18;
};

describe('the lines of a band', () => {
  it('fall where exact arithmetic has them, to 1e-9 mm on the outermost dot', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 20_000, max: 110_000 }),
        fc.constantFrom(360, 600, 720, 1440),
        fc.integer({ min: 2000, max: 9000 }),
        (milliLpi, dpi, dots) => {
          const shares = lineShares(25.4 / (milliLpi / 1000), dpi, dots);
          const dotMm = 25.4 / dpi;
          for (const j of [0, 1, 17, Math.floor(dots / 3), dots - 2, dots - 1]) {
            const exact = exactShare(j, dots, BigInt(milliLpi), BigInt(dpi));
            expect(Math.abs((shares[j] as number) - exact) * dotMm).toBeLessThan(1e-9);
          }
        },
      ),
      { numRuns: 200, seed: 4 },
    );
  });

  it('lie at the middle of their rib, the rib at the middle of the band', () => {
    const [dpi, dots, pitch] = [720, 2001, 0.4239];
    const shares = lineShares(pitch, dpi, dots);
    let mass = 0;
    let moment = 0;
    for (let j = 0; j < dots; j += 1) {
      const x = ((j + 0.5 - dots / 2) * 25.4) / dpi;
      if (Math.abs(x) > pitch / 2) continue;
      mass += shares[j] as number;
      moment += x * (shares[j] as number);
    }
    expect(moment / mass).toBeCloseTo(0, 12);
    expect(mass * (25.4 / dpi)).toBeCloseTo(pitch * LINE_SHARE, 9);
  });
});

describe('the phase strip', () => {
  // The three-step formula of phase-measuring profilometry, docs/optics.md relation 10.
  const phaseOf = (r: number, g: number, b: number) =>
    Math.atan2(Math.sqrt(3) * (r - b), 2 * g - r - b);
  const turns = (phase: number, expected: number) => {
    const apart = (phase - expected) / (2 * Math.PI);
    return Math.abs(apart - Math.round(apart));
  };

  it('tells the phase at every dot by the three-step formula', () => {
    const [pitch, dpi, dots] = [0.4239, 720, 1500];
    const light = phaseLight(pitch, dpi, dots);
    for (let j = 0; j < dots; j += 1) {
      const x = ((j + 0.5 - dots / 2) * 25.4) / dpi;
      const phase = phaseOf(light[j * 3]!, light[j * 3 + 1]!, light[j * 3 + 2]!);
      expect(turns(phase, (2 * Math.PI * x) / pitch)).toBeLessThan(1e-10);
    }
  });

  it('keeps it within half a hundredth of a turn once it is 8-bit sRGB', () => {
    // sRGB decoding, IEC 61966-2-1.
    const decode = (code: number) =>
      code / 255 <= 0.04045 ? code / 255 / 12.92 : ((code / 255 + 0.055) / 1.055) ** 2.4;
    const [pitch, dpi, dots] = [0.4239, 720, 1500];
    const row = phaseRow(pitch, dpi, dots);
    for (let j = 0; j < dots; j += 1) {
      const x = ((j + 0.5 - dots / 2) * 25.4) / dpi;
      const phase = phaseOf(decode(row[j * 3]!), decode(row[j * 3 + 1]!), decode(row[j * 3 + 2]!));
      expect(turns(phase, (2 * Math.PI * x) / pitch)).toBeLessThan(0.005);
    }
  });
});

describe('what the strip says of itself', () => {
  const foot = 'Kingfisher at the pond, woven 2026-11-30, paper Satin photo paper 260';
  const at = (spec: StripSpec) => {
    const { ink, phase, alongDots } = stripLayout(spec);
    const toDots = (mm: number) => (mm * spec.alongDpi) / 25.4;
    const field = ink.filter(
      ({ acrossFirst, acrossLast }) =>
        acrossFirst >= phase.acrossFirst && acrossLast <= phase.acrossLast,
    );
    return { field, phase, toDots, alongDots };
  };

  it.each(['upright', 'lying'] as const)('stands in free room, ribs %s', (ribs) => {
    for (const bandDots of [400, 701, 2700]) {
      const spec = specOf({ acrossDpi: 720, alongDpi: 720, ribs, bandDots, foot });
      const { field, phase, toDots, alongDots } = at(spec);
      const below = field.filter((box) => box.alongFirst > phase.alongLast);
      // The bar and its name end 7.6 mm below the bands; white that a photo is measured against comes before them.
      const small = below.filter((box) => box.alongLast > phase.alongLast + toDots(1 + 7.7));
      expect(small.length).toBeGreaterThan(80);
      for (const box of small) {
        expect(box.alongFirst).toBeGreaterThanOrEqual(
          Math.floor(phase.alongLast + toDots(1 + 7.7)),
        );
        expect(box.alongLast).toBeLessThanOrEqual(alongDots);
      }
      // Two lines, apart from each other.
      const middle = Math.round(phase.alongLast + toDots(1 + 9.32));
      for (const box of small)
        expect(box.alongLast <= middle || box.alongFirst >= middle, JSON.stringify(box)).toBe(true);
    }
  });

  it('leaves every measure and every other dot of a strip as it was', () => {
    const [plain, named] = [stripLayout(specOf()), stripLayout(specOf({ foot }))];
    expect({ ...named, ink: [] }).toEqual({ ...plain, ink: [] });
    const before = new Set(plain.ink.map((box) => JSON.stringify(box)));
    const added = named.ink.filter((box) => !before.has(JSON.stringify(box)));
    expect(added).toHaveLength(named.ink.length - plain.ink.length);
  });
});

describe('the rows', () => {
  it('are the same however they are cut', () => {
    for (const ribs of ['upright', 'lying'] as const) {
      const spec = specOf({ ribs });
      const { widthDots, heightDots } = stripSize(spec);
      const whole = stripRows(spec, 0, heightDots);
      expect(whole).toHaveLength(widthDots * heightDots * 3);
      const source = stripSource(spec);
      for (let first = 0; first < heightDots; first += 97) {
        const count = Math.min(97, heightDots - first);
        expect(
          Buffer.compare(
            source(first, count),
            whole.subarray(first * widthDots * 3, (first + count) * widthDots * 3),
          ),
        ).toBe(0);
      }
    }
  });

  it('with lying ribs are those of upright ribs turned by a quarter, but for the arrow', () => {
    const upright = specOf({ alongDpi: 360 });
    const lying = specOf({ alongDpi: 360, ribs: 'lying' });
    const { widthDots: w, heightDots: h } = stripSize(upright);
    const a = stripRows(upright, 0, h);
    const b = stripRows(lying, 0, w);
    const layout = stripLayout(upright);
    let differ = 0;
    for (let along = layout.bands[0]!.alongFirst; along < layout.phase.alongLast; along += 7)
      for (let across = 0; across < w; across += 1)
        for (let c = 0; c < 3; c += 1) {
          const turned = b[(across * h + (h - 1 - along)) * 3 + c];
          if (turned !== a[(along * w + across) * 3 + c]) differ += 1;
        }
    expect(differ).toBe(0);
  });

  it('refuse rows that the strip has not', () => {
    const spec = specOf();
    expect(() => stripRows(spec, stripSize(spec).heightDots, 1)).toThrow(/rows: expected/);
  });

  it('keep labels outside the bands, and everything on the strip', () => {
    const layout = stripLayout(specOf());
    const bandsEnd = layout.phase.alongLast;
    for (const box of layout.ink) {
      expect(box.acrossFirst).toBeGreaterThanOrEqual(0);
      expect(box.acrossLast).toBeLessThanOrEqual(layout.acrossDots);
      expect(box.alongLast).toBeLessThanOrEqual(layout.alongDots);
      const overField =
        box.acrossLast > layout.bands[0]!.acrossFirst &&
        box.acrossFirst < layout.bands[0]!.acrossLast;
      if (overField)
        expect(
          box.alongLast <= layout.bands[0]!.alongFirst || box.alongFirst >= bandsEnd,
          JSON.stringify(box),
        ).toBe(true);
    }
  });

  it('draw bars as long as they say, to a dot', () => {
    const wide = stripLayout(specOf({ bandDots: 2200, acrossDpi: 720, alongDpi: 720 }));
    expect(wide.barAcrossMm).toBeCloseTo(50, 1);
    const inches = stripLayout(specOf({ bandDots: 4000, acrossDpi: 720, barsIn: 'in' }));
    expect(Math.abs(inches.barAcrossMm - 101.6)).toBeLessThan(25.4 / 720);
    expect(Math.abs(stripLayout(specOf()).barAlongMm - 40)).toBeLessThan(25.4 / 180);
  });
});

describe('the lettering', () => {
  it('has what the strip says, and refuses the rest', () => {
    expect(lettering('0123456789. PHASE', 0, 0, 1).length).toBeGreaterThan(0);
    expect(() => lettering('é', 0, 0, 1)).toThrow(/no "é"/);
  });
});

describe('the bands', () => {
  it('stand in even steps round the centre, each at exactly what its label says', () => {
    const bands = bandsOf({ centreLpi: 59.92, spreadLpi: 0.14, bands: 9 });
    expect(bands).toEqual([59.78, 59.815, 59.85, 59.885, 59.92, 59.955, 59.99, 60.025, 60.06]);
    expect(() => bandsOf({ centreLpi: 60, spreadLpi: 0.1, bands: 4 })).toThrow(/bands/);
    expect(() => bandsOf({ centreLpi: 60, spreadLpi: 0, bands: 3 })).toThrow(/spreadLpi/);
  });

  it('are advised a quarter zone apart where that reaches as far as the doubt (relation 7)', () => {
    const facts = { centreLpi: 59.92, unsureLpi: 0.1, acrossIn: 8, budgetZones: 0.25, room: 30 };
    const fine = adviseBands(facts);
    expect(fine.grain).toBe('fine');
    expect(bandStep(fine) * 8).toBeLessThanOrEqual(0.25);
    expect(bandStep(fine) * 8).toBeGreaterThan(0.24);
    expect(fine.spreadLpi).toBeGreaterThanOrEqual(0.1);
    const coarse = adviseBands({ ...facts, unsureLpi: 2 });
    expect(coarse.grain).toBe('coarse');
    expect(coarse.spreadLpi).toBeGreaterThanOrEqual(2);
    expect(adviseBands({ ...facts, room: 7 }).bands).toBeLessThanOrEqual(7);
    expect(bandStep(adviseBands({ ...facts, finer: 2 }))).toBeLessThan(bandStep(fine) * 0.55);
  });
});

describe('the paper', () => {
  it('holds the bands beside labels and margins, across whichever side the ribs ask for', () => {
    const a4 = { widthMm: 210, heightMm: 297, marginMm: 3 }; // ISO 216
    expect(paperAcrossMm(stripRoom(a4, 'upright').acrossMm, 3)).toBeCloseTo(210, 9);
    expect(paperAcrossMm(stripRoom(a4, 'lying').acrossMm, 3)).toBeCloseTo(297, 9);
    expect(stripRoom({ ...a4, widthMm: 25 }, 'upright').acrossMm).toBeLessThan(0);
  });
});
