/**
 * Pitch strips under a lens of another pitch than its label says, looked at through the bench's exact
 * ray trace: the band that goes darkest from edge to edge is the right one, and what is typed or
 * counted gives the truth back within its stated ±. Seeded.
 */
import { describe, expect, it } from 'vitest';
import { stripLayout } from '../../src/core/pitch/strip-layout.ts';
import { stripRows, stripSize } from '../../src/core/pitch/strip-rows.ts';
import type { StripSpec } from '../../src/core/pitch/strip.ts';
import { bandsOf } from '../../src/core/pitch/strip.ts';
import { beatPeriodMm } from '../../src/core/pitch/fringes.ts';
import { readBand } from '../../src/core/pitch/read-band.ts';
import { readFringes } from '../../src/core/pitch/read-fringes.ts';
import type { BenchLens } from './lens-bench.ts';
import { lookThrough } from './lens-bench.ts';
import { lensInFocus, pitchFor } from './press.ts';

const DISTANCE_MM = 400;
const LINES = 40;
const DPI = 720;
const BAND_DOTS = 2268; // 80 mm
const ACROSS_IN = BAND_DOTS / DPI;
const EYES = 8;

/** mulberry32, a published 32-bit generator: the same cases every time. */
const random = (seed: number) => () => {
  seed = (seed + 0x6d2b79f5) | 0;
  let t = Math.imul(seed ^ (seed >>> 15), seed | 1);
  t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
  return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
};

const nominal = lensInFocus(LINES, 0.55);

const stripOf = (centreLpi: number, spreadLpi: number, bands: number): StripSpec => ({
  acrossDpi: DPI,
  alongDpi: DPI,
  ribs: 'upright',
  bandsLpi: bandsOf({ centreLpi, spreadLpi, bands }),
  bandDots: BAND_DOTS,
  lensLpi: LINES,
  readFromMm: DISTANCE_MM,
  barsIn: 'mm',
});

/** One row from the middle of each band, without what lies beside it: a print one line a band. */
const bandsOnly = (spec: StripSpec) => {
  const layout = stripLayout(spec);
  const { widthDots } = stripSize(spec);
  const rgb = new Uint8Array(layout.bands.length * BAND_DOTS * 3);
  layout.bands.forEach((box, band) => {
    const row = stripRows(spec, Math.floor((box.alongFirst + box.alongLast) / 2), 1);
    expect(row).toHaveLength(widthDots * 3);
    rgb.set(row.subarray(box.acrossFirst * 3, box.acrossLast * 3), band * BAND_DOTS * 3);
  });
  return {
    rgb,
    widthDots: BAND_DOTS,
    heightDots: layout.bands.length,
    acrossDpi: DPI,
    lensRibs: 'upright' as const,
  };
};

/** Looks from a whole zone's width of places; for each band and rib, the light from each of them. */
const lookAt = (lens: BenchLens, print: ReturnType<typeof bandsOnly>) => {
  const zoneMm = (lens.pitchMm * DISTANCE_MM * lens.index) / lens.thicknessMm;
  return Array.from({ length: EYES }, (_, eye) =>
    lookThrough(lens, print, {
      acrossMm: (eye / EYES - 0.5) * zoneMm,
      distanceMm: DISTANCE_MM,
    }),
  );
};

type Looks = ReturnType<typeof lookAt>;

const lightOf = (looks: Looks, eye: number, band: number, rib: number) => {
  const seen = looks[eye]!;
  // Ribs at the edges are seen from some places only: all are counted from the same rib.
  return seen.light[(band * seen.ribs + rib - seen.firstRib) * 3]!;
};

const commonRibs = (looks: Looks) => ({
  from: Math.max(...looks.map(({ firstRib }) => firstRib)),
  to: Math.min(...looks.map(({ firstRib, ribs }) => firstRib + ribs)),
});

/** How dark the band can be made from edge to edge: the most, over all eyes, of its mean darkness. */
const evenness = (looks: Looks, band: number): number => {
  const { from, to } = commonRibs(looks);
  let most = 0;
  for (let eye = 0; eye < EYES; eye += 1) {
    let dark = 0;
    for (let rib = from; rib < to; rib += 1) dark += 1 - lightOf(looks, eye, band, rib);
    most = Math.max(most, dark / (to - from));
  }
  return most;
};

/** Where, in zones, an eye must stand to see this rib darkest: the phase of the light over the eyes. */
const phaseAt = (looks: Looks, band: number, rib: number): number => {
  let re = 0;
  let im = 0;
  for (let eye = 0; eye < EYES; eye += 1) {
    const light = lightOf(looks, eye, band, rib);
    re += light * Math.cos((2 * Math.PI * eye) / EYES);
    im += light * Math.sin((2 * Math.PI * eye) / EYES);
  }
  return Math.atan2(im, re) / (2 * Math.PI);
};

/** Fringes from edge to edge: the slope of that phase over the ribs (least squares), times the width. */
const countFringes = (looks: Looks, band: number, pitchMm: number): number => {
  const { from, to } = commonRibs(looks);
  const middle = (from + to - 1) / 2;
  let unwrapped = phaseAt(looks, band, from);
  let cross = 0;
  let square = 0;
  for (let rib = from; rib < to; rib += 1) {
    const phase = phaseAt(looks, band, rib);
    unwrapped += phase - unwrapped - Math.round(phase - unwrapped);
    cross += (rib - middle) * unwrapped;
    square += (rib - middle) ** 2;
  }
  return (Math.abs(cross / square) * ACROSS_IN * 25.4) / pitchMm;
};

const viewingLpi = (lens: BenchLens) => 25.4 / pitchFor(lens, DISTANCE_MM);
const nominalLpi = viewingLpi(nominal);
const step = Math.floor((0.25 / ACROSS_IN) * 1000) / 1000;

/** A lens within ±1 % of its label, under a strip woven for the label. */
const cases = (() => {
  const next = random(2026);
  return Array.from({ length: 100 }, () => {
    const lens = { ...nominal, pitchMm: nominal.pitchMm * (1 + (next() - 0.5) * 0.02) };
    return { lens, truth: viewingLpi(lens), next };
  });
})();

describe.each([
  { title: 'a strip under a lens of random pitch: 6 cases', some: cases.slice(0, 6) },
  { title: 'a strip under a lens of random pitch: 100 cases @wider', some: cases },
])('$title', ({ some }) => {
  // Wide enough for ±1 %: 0.4 LPI, 13 bands at a quarter zone each.
  const wide = stripOf(nominalLpi, 6 * step, 13);
  const narrow = stripOf(nominalLpi, 2 * step, 5);
  const [widePrint, narrowPrint] = [bandsOnly(wide), bandsOnly(narrow)];

  it('goes darkest from edge to edge in the right band, and the band gives the pitch', () => {
    let inside = 0;
    for (const { lens, truth } of some) {
      const looks = lookAt(lens, widePrint);
      const scores = wide.bandsLpi.map((_, band) => evenness(looks, band));
      const best = scores.indexOf(Math.max(...scores));
      expect(Math.abs(wide.bandsLpi[best]! - truth), `true ${truth}`).toBeLessThan(step);
      const { viewingLpi: read, plusMinusLpi } = readBand(wide.bandsLpi, best * 2, ACROSS_IN);
      if (Math.abs(read - truth) <= plusMinusLpi) inside += 1;
    }
    expect(inside / some.length).toBeGreaterThanOrEqual(0.95);
  });

  it('shows the fringes of the published beat formula, and the counts give the pitch', () => {
    let inside = 0;
    for (const { lens, truth } of some) {
      const looks = lookAt(lens, narrowPrint);
      const counts = [0, 1, 3, 4].map((band) => {
        const bandLpi = narrow.bandsLpi[band]!;
        const counted = countFringes(looks, band, pitchFor(lens, DISTANCE_MM));
        // Amidror (2000): period p1 p2 / |p1 − p2|, with the paraxial pitch of relation 2. The trace of
        // a rib as round as this departs from it by some hundredths of a fringe (measured: 0.08).
        const periods = (ACROSS_IN * 25.4) / beatPeriodMm(25.4 / bandLpi, 25.4 / truth);
        expect(Math.abs(counted - periods)).toBeLessThan(0.1);
        // A person guesses to half a fringe.
        return { bandLpi, fringes: Math.round(counted * 2) / 2 };
      });
      const read = readFringes(counts, ACROSS_IN);
      // Counts a whole fringe apart or less can leave the side of the strip open: then it says so.
      if (!read.ok) {
        expect(read.why).toBe('two-ways');
        expect(Math.min(...read.candidatesLpi.map((one) => Math.abs(one - truth)))).toBeLessThan(
          0.4 / ACROSS_IN,
        );
        continue;
      }
      if (Math.abs(read.viewingLpi - truth) <= read.plusMinusLpi) inside += 1;
      expect(Math.abs(read.viewingLpi - truth)).toBeLessThan(2 * read.plusMinusLpi);
    }
    expect(inside).toBeGreaterThanOrEqual(0.8 * some.length);
  });
});
