/**
 * Sheets that stretched as the strip did on which their pitch was proved, and sheets that did not: whom the ruler
 * blames. Makers, rulers and stretches are those of tests/core/pitch/makers.ts.
 */
import { describe, expect, test } from 'vitest';
import type { Bar, Counts } from '../../../src/core/mend/counts.ts';
import type { StripBars } from '../../../src/core/mend/fault.ts';
import { printAcrossMm, printAlongMm } from '../../../src/core/mend/fault.ts';
import { rankCauses } from '../../../src/core/mend/rank.ts';
import { readCounts } from '../../../src/core/mend/read-counts.ts';
import type { Maker } from '../pitch/makers.ts';
import { makerOf, measuredBy } from '../pitch/makers.ts';
import { setup } from './setup.ts';

const MAKERS = 200;
/** The bars of a strip on A4. */
const [BAR_ACROSS, BAR_ALONG] = [150, 100];
const [WIDE, HIGH] = [printAcrossMm(setup.sheet), printAlongMm(setup.sheet)];
const makers = Array.from({ length: MAKERS }, (_, seed) => makerOf(seed));

const bar = (maker: Maker, drawnMm: number, factor: number): Bar => ({
  drawnMm,
  measuredMm: measuredBy(maker, drawnMm * factor),
});
const stripBarsOf = (maker: Maker): StripBars => ({
  across: bar(maker, BAR_ACROSS, maker.stretchAcross),
  along: bar(maker, BAR_ALONG, maker.stretchAlong),
});
/** A sheet that came out `more` times as large as the strip: it shows ribs × (1 − more) bands, counted to a quarter. */
const countsOf = (maker: Maker, more = 1): Counts => ({
  bandsAcross: Math.round(4 * Math.abs((WIDE / setup.sheet.viewingPitchMm) * (1 - more))) / 4,
  run: more < 1 ? 'with' : 'against',
  barAcross: bar(maker, WIDE, maker.stretchAcross * more),
  barAlong: bar(maker, HIGH, maker.stretchAlong * more),
});
const blamed = (counts: Counts, stripBars?: StripBars): boolean =>
  rankCauses(
    { ...setup, ...(stripBars === undefined ? {} : { stripBars }) },
    { chosen: [], counts },
  ).some(({ cause, confidence }) => cause === 'scale' && confidence >= 0.5);

describe('a sheet beside the strip on which its pitch was proved', () => {
  test('is not called wrong in size for a steady stretch, which the reading contains', () => {
    // Bands of another cause, a lens of another pack: beside them a stretch of 0.2 or 0.3 % looks like theirs.
    for (const bands of [
      {},
      { bandsAcross: 1.5, run: 'with' },
      { bandsAcross: 1.5, run: 'against' },
    ] as const) {
      const wrongly = makers.filter((maker) =>
        blamed({ ...countsOf(maker), ...bands }, stripBarsOf(maker)),
      );
      // One in twenty is left to the ruler.
      expect(wrongly.length).toBeLessThanOrEqual(MAKERS / 20);
    }
  });

  test('is called wrong in size where it was scaled, or was not as the strip was', () => {
    for (const more of [0.97, 0.985, 0.994, 1.006, 1.03])
      for (const maker of makers)
        expect(blamed(countsOf(maker, more), stripBarsOf(maker))).toBe(true);
    // The strip was shrunk to fit its page, the sheet was not.
    for (const maker of makers) {
      const shrunk = { across: bar(maker, BAR_ACROSS, 0.97 * maker.stretchAcross) };
      expect(blamed(countsOf(maker, 1 / 0.97), shrunk)).toBe(true);
    }
  });

  test('is measured by the strip, and the doubt of both rulers is in it', () => {
    const counts: Counts = {
      barAcross: { drawnMm: 200, measuredMm: 201 },
      barAlong: { drawnMm: 250, measuredMm: 250 },
    };
    const alone = readCounts(setup, counts);
    const stripBars = { across: { drawnMm: 100, measuredMm: 100.5 } };
    const beside = readCounts({ ...setup, stripBars }, counts);
    expect(alone.scaleAcross!.value).toBeCloseTo(1.005, 12);
    expect(beside.scaleAcross!.value).toBeCloseTo(1, 12);
    expect(beside.scaleAcross!.plusMinus).toBeGreaterThan(alone.scaleAcross!.plusMinus);
    expect(beside.scaleAlong).toEqual(alone.scaleAlong);
  });
});
