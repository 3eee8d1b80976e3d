/** Many makers count fringes and measure bars: how often the stated ± is true, and who is barred for what. */
import { describe, expect, it } from 'vitest';
import { bandsToCount, readFringes } from '../../../src/core/pitch/read-fringes.ts';
import { checkScale, scaleFinding, spoils } from '../../../src/core/pitch/scale.ts';
import { adviseBands, bandsOf } from '../../../src/core/pitch/strip.ts';
import type { Maker } from './makers.ts';
import { countedBy, eyes, makerOf, measuredBy } from './makers.ts';

/** Inches of the bands: as wide as the print, and as A4 leaves of it; a small print. */
const WIDTHS = [8, 7.07, 4];

/** Share of the readings within their ±, and of the strips that give one. */
const coverage = (makers: number, eye: (maker: Maker) => number, width: number) => {
  const bands = bandsOf(
    adviseBands({
      centreLpi: 60,
      unsureLpi: 0.1,
      acrossIn: width,
      budgetZones: 0.25,
      room: 25,
    }),
  );
  const many = Math.min(bands.length, bandsToCount(width, 0.25 / width));
  const picked = Array.from(
    { length: many },
    (_, i) => bands[Math.round((i * (bands.length - 1)) / (many - 1))]!,
  );
  let [read, within] = [0, 0];
  for (let seed = 0; seed < makers; seed += 1) {
    const maker = makerOf(seed);
    const reading = readFringes(
      picked.map((bandLpi) => ({ bandLpi, fringes: countedBy(maker, eye, bandLpi, width) })),
      width,
    );
    if (!reading.ok) continue;
    read += 1;
    if (Math.abs(reading.viewingLpi - maker.suitsLpi) <= reading.plusMinusLpi) within += 1;
  }
  return { read: read / makers, within: within / read };
};

/** Two standard deviations of a share of 95 % among so many. */
const chance = (makers: number) => 2 * Math.sqrt((0.95 * 0.05) / makers);

describe.each([
  ['', 300],
  [' @wider', 5000],
])('makers who count%s', (wider, makers) => {
  it.each(WIDTHS)(`carefully over %d in are within their ± in 95 of 100${wider}`, (width) => {
    const { read, within } = coverage(makers, eyes.careful, width);
    expect(within).toBeGreaterThanOrEqual(0.95 - chance(makers));
    expect(read).toBeGreaterThan(0.98);
  });

  it.each(WIDTHS)(`carelessly over %d in are, too${wider}`, (width) => {
    const { read, within } = coverage(makers, eyes.careless, width);
    expect(within).toBeGreaterThanOrEqual(0.95 - chance(makers));
    expect(read).toBeGreaterThan(0.95);
  });
});

describe('makers who measure their bars', () => {
  const [ACROSS_MM, ALONG_MM] = [100, 50];
  const MAKERS = 500;
  const scaleOf = (maker: Maker, across: number, along: number) => ({
    across: checkScale(ACROSS_MM, measuredBy(maker, ACROSS_MM * maker.stretchAcross * across)),
    along: checkScale(ALONG_MM, measuredBy(maker, ALONG_MM * maker.stretchAlong * along)),
  });
  const makers = Array.from({ length: MAKERS }, (_, seed) => makerOf(seed));

  it('are not barred for what paper and feed do: the reading of the strip contains it', () => {
    expect(makers.filter((maker) => spoils(scaleOf(maker, 1, 1)))).toHaveLength(0);
    const found = makers.map((maker) => scaleFinding(scaleOf(maker, 1, 1)));
    // A tenth-millimetre ruler tells a stretch near 0.3 %, and it is said.
    expect(found.filter((one) => one === 'stretched').length).toBeGreaterThan(MAKERS / 50);
  });

  it('are told of a page that was scaled, by a margin or without borders', () => {
    for (const maker of makers) {
      const factor = 1 + (maker.either() < 0 ? -1 : 1) * (0.02 + 0.02 * Math.abs(maker.either()));
      expect(scaleFinding(scaleOf(maker, factor, factor))).toBe('scaled');
    }
  });

  it('are told of dots taken for another density one way', () => {
    for (const maker of makers) expect(scaleFinding(scaleOf(maker, 1, 720 / 600))).toBe('two-ways');
    for (const maker of makers) expect(scaleFinding(scaleOf(maker, 0.98, 1))).toBe('two-ways');
  });

  it('are asked about a length that is another bar’s', () => {
    const wrong = { across: checkScale(ACROSS_MM, 3.94), along: checkScale(ALONG_MM, 50) };
    expect(scaleFinding(wrong)).toBe('beyond');
    expect(spoils(wrong)).toBe(true);
    expect(scaleFinding({ across: undefined, along: undefined })).toBe('unmeasured');
  });
});
