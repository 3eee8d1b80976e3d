/**
 * The bare lens from a scan: the spectrum against another library's, simulated scans whose pitch is
 * known, and scans that must be refused.
 */
import FFT from 'fft.js';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { readBareLens } from '../../../src/core/pitch/bare/bare-lens.ts';
import { fft } from '../../../src/core/numeric/fft.ts';
import type { ScanLine } from '../../../src/core/pitch/bare/scan.ts';
import { measureScan } from '../../../src/core/pitch/bare/scan.ts';
import type { LensScan } from '../../golden/lens-scan.ts';
import { randomFrom, scanLens } from '../../golden/lens-scan.ts';

const through = (scan: LensScan, grey: Uint8Array = scanLens(scan)) =>
  measureScan({
    widthPx: scan.widthPx,
    heightPx: scan.heightPx,
    light: Float32Array.from(grey),
  });

const plain: LensScan = {
  seed: 1,
  dpi: 600,
  lensLpi: 60.21,
  widthPx: 1200,
  heightPx: 500,
  tiltRad: 0.02,
  lamps: 1,
  noise: 0.02,
};

const lineOf = (scan: LensScan, grey?: Uint8Array): ScanLine => {
  const measured = through(scan, grey);
  if (!measured.ok) throw new Error(measured.sentence);
  return measured.line;
};

const reading = (scan: LensScan, nominalLpi: number, grey?: Uint8Array) => {
  const read = readBareLens(lineOf(scan, grey), {
    density: { acrossDpi: scan.dpi, downDpi: scan.dpi },
    nominalLpi,
  });
  if (!read.ok) throw new Error(read.sentence);
  return read;
};

/** What JPEG at this quality makes of it (libjpeg through libvips). */
const jpeg = async (scan: LensScan, quality: number): Promise<Uint8Array> => {
  const { widthPx: width, heightPx: height } = scan;
  const file = await sharp(scanLens(scan), { raw: { width, height, channels: 1 } })
    .jpeg({ quality })
    .toBuffer();
  return sharp(file).greyscale().raw().toBuffer();
};

describe('the transform', () => {
  it.each([2, 8, 256, 4096])('equals fft.js’s at %i samples', (n) => {
    const random = randomFrom(n);
    const re = Float64Array.from({ length: n }, () => random() - 0.5);
    const im = Float64Array.from({ length: n }, () => random() - 0.5);
    const reference = new FFT(n);
    const input = reference.createComplexArray();
    for (let i = 0; i < n; i += 1) [input[2 * i], input[2 * i + 1]] = [re[i]!, im[i]!];
    const expected = reference.createComplexArray() as number[];
    reference.transform(expected, input);
    fft(re, im);
    for (let k = 0; k < n; k += 1) {
      expect(re[k]).toBeCloseTo(expected[2 * k]!, 9);
      expect(im[k]).toBeCloseTo(expected[2 * k + 1]!, 9);
    }
  });

  it('refuses lengths that are no power of two', () => {
    expect(() => fft(new Float64Array(12), new Float64Array(12))).toThrow(RangeError);
  });
});

describe('simulated scans', () => {
  it('give the pitch within their stated doubt, and to a few in a hundred thousand', async () => {
    const random = randomFrom(2026);
    const misses: number[] = [];
    let within = 0;
    const cases = 24;
    for (let seed = 1; seed <= cases; seed += 1) {
      const nominal = [40, 60, 75, 100][seed % 4]!;
      const scan: LensScan = {
        seed,
        dpi: nominal === 100 ? 1200 : 600,
        lensLpi: nominal * (1 + (random() - 0.5) * 0.02),
        widthPx: 900 + Math.floor(random() * 500),
        heightPx: 300 + Math.floor(random() * 200),
        tiltRad: (random() - 0.5) * 0.12,
        lying: random() < 0.3,
        lamps: random() < 0.5 ? 1 : 2,
        noise: 0.01 + random() * 0.05,
        sway: random() * 0.4,
      };
      const turned =
        scan.lying === true ? { ...scan, widthPx: scan.heightPx, heightPx: scan.widthPx } : scan;
      const read = reading(turned, nominal, await jpeg(turned, 70 + (seed % 5) * 6));
      const miss = Math.abs(read.lensLpi - turned.lensLpi);
      if (miss <= read.fromRibsLpi) within += 1;
      expect(miss).toBeLessThan(read.plusMinusLpi);
      expect(miss / turned.lensLpi).toBeLessThan(4e-4);
      expect(read.tiltRad).toBeCloseTo(turned.tiltRad, 3);
      misses.push(miss / turned.lensLpi);
    }
    misses.sort((a, b) => a - b);
    expect(misses[cases / 2]).toBeLessThan(1e-4);
    // Two standard deviations: 95 in 100, with room for 24 throws.
    expect(within).toBeGreaterThanOrEqual(20);
  });

  it('does not take a rib’s two glints for two ribs, with or without a near nominal pitch', () => {
    const scan: LensScan = { ...plain, lamps: 2 };
    const line = lineOf(scan);
    for (const nominalLpi of [60, 43]) {
      const read = readBareLens(line, { density: { acrossDpi: 600, downDpi: 600 }, nominalLpi });
      expect(read).toMatchObject({ ok: true });
      if (read.ok) expect(read.lensLpi).toBeCloseTo(60.21, 1);
    }
  });

  it('measures square to the ribs where the two densities differ', () => {
    // As if every second row had been left out: 600 across, 300 down.
    const { widthPx, heightPx } = plain;
    const whole = scanLens({ ...plain, tiltRad: 0.09 });
    const half = new Float32Array(widthPx * (heightPx / 2));
    for (let y = 0; y < heightPx / 2; y += 1)
      half.set(whole.subarray(2 * y * widthPx, (2 * y + 1) * widthPx), y * widthPx);
    const measured = measureScan({ widthPx, heightPx: heightPx / 2, light: half });
    if (!measured.ok) throw new Error(measured.sentence);
    const read = readBareLens(measured.line, {
      density: { acrossDpi: 600, downDpi: 300 },
      nominalLpi: 60,
    });
    if (!read.ok) throw new Error(read.sentence);
    expect(read.lensLpi).toBeCloseTo(60.21, 2);
    expect(read.tiltRad).toBeCloseTo(0.09, 3);
  });
});

describe('the scanner’s scale', () => {
  const line = lineOf(plain);
  const facts = { density: { acrossDpi: 600, downDpi: 600 }, nominalLpi: 60 };

  it('is put right by a ruler in the same scan, which narrows the doubt', () => {
    // The scanner stretched by 0.4 %: 100 mm fill 100 / 25.4 × 600 × 1.004 pixels.
    const scanPx = (100 / 25.4) * 600 * 1.004;
    const bare = readBareLens(line, facts);
    const ruled = readBareLens(line, { ...facts, ruler: { trueMm: 100, scanPx } });
    if (!bare.ok || !ruled.ok) throw new Error('refused');
    expect(ruled.lensLpi / bare.lensLpi).toBeCloseTo(1.004, 9);
    expect(ruled.plusMinusLpi).toBeLessThan(bare.plusMinusLpi);
    expect(ruled.ruled).toBe(true);
  });

  it('refuses a ruler that makes no sense', () => {
    const read = readBareLens(line, { ...facts, ruler: { trueMm: 100, scanPx: 5000 } });
    expect(read).toMatchObject({ ok: false });
    expect(() => readBareLens(line, { ...facts, density: { acrossDpi: 0, downDpi: 600 } })).toThrow(
      /acrossDpi/,
    );
  });

  it('says when the lens is far from the one on the job sheet', () => {
    const read = readBareLens(line, { ...facts, nominalLpi: 62 });
    expect(read).toMatchObject({ ok: true });
    if (read.ok) expect(read.cautions.join()).toMatch(/2\.9 % coarser/);
  });
});

describe('refusals', () => {
  it('bare glass with noise', () => {
    for (let seed = 1; seed <= 8; seed += 1)
      expect(through({ ...plain, seed, contrast: 0, noise: 0.1 })).toMatchObject({
        ok: false,
        reason: 'no-peak',
      });
  });

  it('even the 8 × 8 blocks that strong JPEG leaves in noise', async () => {
    const scan = { ...plain, contrast: 0, noise: 0.1 };
    expect(through(scan, await jpeg(scan, 15))).toMatchObject({ ok: false });
  });

  it('a scan of a few ribs', () => {
    expect(through({ ...plain, widthPx: 120 })).toMatchObject({ ok: false, reason: 'too-small' });
  });

  it('too few pixels a rib, where the line may be a folded one', () => {
    const scan = { ...plain, dpi: 150, widthPx: 600 };
    const measured = through(scan);
    if (!measured.ok) return expect(measured.whatToDo).not.toBe('');
    const read = readBareLens(measured.line, {
      density: { acrossDpi: 150, downDpi: 150 },
      nominalLpi: 60,
    });
    expect(read).toMatchObject({ ok: false });
    if (!read.ok) expect(read.whatToDo).toMatch(/600 dpi/);
  });

  it('ribs that do not keep step', () => {
    const scan = { ...plain, sway: 14 };
    expect(through(scan)).toMatchObject({ ok: false });
  });
});
