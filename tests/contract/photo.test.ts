/** Photos and scans through the real pool and worker service, from files written by libvips. */
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { readBareLens } from '../../src/core/pitch/bare/bare-lens.ts';
import { viewingPitch } from '../../src/core/lens/traced.ts';
import { mm } from '../../src/core/units/units.ts';
import { readPhoto, readPrintPhoto, readScan } from '../../src/calls/photo.ts';
import { createPictureService } from '../../workers/picture-service.ts';
import { statedDensity } from '../../workers/scan-density.ts';
import { scanLens } from '../golden/lens-scan.ts';
import { plainScene } from '../golden/strip-photo-scene.ts';
import { takePhoto } from '../golden/strip-photo.ts';
import { InProcessWorker } from './in-process-worker.ts';

/** True: workers take calls and answer nothing, not even a stop, as while one long sum is done. */
let deaf = false;
/** The workers that took a call then. */
const takenBy: InProcessWorker[] = [];

beforeAll(() => {
  vi.stubGlobal(
    'Worker',
    class extends InProcessWorker {
      takeUnanswered(): Promise<never> {
        takenBy.push(this);
        return new Promise(() => undefined);
      }

      constructor() {
        const service = createPictureService();
        super({
          ...service,
          readStrip: (...args: Parameters<typeof service.readStrip>) =>
            deaf ? this.takeUnanswered() : service.readStrip(...args),
        });
      }
    },
  );
});
afterAll(() => vi.unstubAllGlobals());

const scan = {
  seed: 7,
  dpi: 600,
  lensLpi: 59.87,
  widthPx: 900,
  heightPx: 300,
  tiltRad: 0.01,
  lamps: 2,
  noise: 0.02,
} as const;
const picture = () =>
  sharp(scanLens(scan), { raw: { width: 900, height: 300, channels: 1 } }).withMetadata({
    density: 600,
  });
const fileOf = (bytes: Uint8Array, name: string) => new File([Uint8Array.from(bytes)], name);
const call = (report: (share: number) => void = () => undefined) => ({
  signal: new AbortController().signal,
  report,
});

describe('a scan', () => {
  it('gives the lens pitch and the density its TIFF states, and tells how far it is', async () => {
    const file = fileOf(await picture().tiff({ compression: 'lzw' }).toBuffer(), 'lens.tif');
    const shares: number[] = [];
    const outcome = await readScan(
      { file, name: file.name },
      call((share) => shares.push(share)),
    );
    if (!outcome.done || !outcome.value.measure.ok) throw new Error('not read');
    const { density, measure, widthPx } = outcome.value;
    expect(widthPx).toBe(900);
    expect(density).toEqual({ acrossDpi: 600, downDpi: 600 });
    const read = readBareLens(measure.line, { density: density!, nominalLpi: 60 });
    if (!read.ok) throw new Error(read.sentence);
    expect(Math.abs(read.lensLpi - scan.lensLpi)).toBeLessThan(0.02);
    // Progress comes by a channel of its own, and may come late.
    await vi.waitFor(() => expect(shares.length).toBeGreaterThan(1));
    expect([...shares].sort((a, b) => a - b)).toEqual(shares);
  });

  it.each(['png', 'jpeg', 'tiff'] as const)('has its density read from %s', async (kind) => {
    const stated = statedDensity(await picture()[kind]().toBuffer());
    expect(stated?.acrossDpi).toBeCloseTo(600, 0);
    expect(stated?.downDpi).toBeCloseTo(600, 0);
    const silent = sharp(scanLens(scan), { raw: { width: 900, height: 300, channels: 1 } });
    // libvips writes 72 where nothing was asked, into all but PNG.
    if (kind !== 'tiff')
      expect(statedDensity(await silent[kind]().toBuffer())?.acrossDpi ?? 72).toBeLessThan(73);
  });

  it('that is no picture is refused by name', async () => {
    const file = fileOf(new TextEncoder().encode('a letter'), 'letter.txt');
    await expect(readScan({ file, name: file.name }, call())).rejects.toThrow(/letter\.txt/);
  });
});

describe('a photo', () => {
  const strip = {
    acrossDpi: 720,
    alongDpi: 720,
    ribs: 'upright',
    bandsLpi: [59.8, 59.9, 60],
    bandDots: 2800,
    lensLpi: 60,
    readFromMm: 400,
    barsIn: 'mm',
  } as const;
  const lens = { pitchMm: mm(25.4 / 60), thicknessMm: mm(0.84), index: 1.57 };

  it('of something else is refused with what to do, as an answer and not an error', async () => {
    const grey = { width: 400, height: 300, channels: 3, background: '#888' } as const;
    // 16 bit: decoded without a browser.
    const file = fileOf(
      await sharp({ create: grey }).toColourspace('rgb16').png().toBuffer(),
      'wall.png',
    );
    const outcome = await readPhoto({ file, name: file.name, strip, lens }, call());
    if (!outcome.done || outcome.value.reading.ok) throw new Error('expected a refusal');
    expect(outcome.value).toMatchObject({ widthPx: 400, heightPx: 300 });
    expect(outcome.value.reading.whatToDo).not.toBe('');
  });

  const scene = {
    ...plainScene(strip, { ...lens, radiusMm: (0.84 * 0.57) / 1.57 }),
    widthPx: 1100,
    heightPx: 800,
  };
  const photo = async () => {
    const { data } = await takePhoto(scene);
    // 16 bit: decoded without a browser.
    const bytes = await sharp(data, { raw: { width: 1100, height: 800, channels: 4 } })
      .removeAlpha()
      .toColourspace('rgb16')
      .png()
      .toBuffer();
    return fileOf(bytes, 'strip.png');
  };

  it('is read through the worker, and its progress never goes back', async () => {
    const file = await photo();
    const shares: number[] = [];
    const outcome = await readPhoto(
      { file, name: file.name, strip, lens, readAtMm: scene.distanceMm },
      call((share) => shares.push(share)),
    );
    if (!outcome.done || !outcome.value.reading.ok) throw new Error('not read');
    // Relation 2, for a lens true to its label; the round lens departs from it by some thousandths.
    const truth = 25.4 / viewingPitch(lens, mm(400));
    expect(Math.abs(outcome.value.reading.pitchLpi - truth)).toBeLessThan(0.03);
    await vi.waitFor(() => expect(shares.at(-1)).toBe(1));
    expect(shares.length).toBeGreaterThan(5);
    expect([...shares].sort((a, b) => a - b)).toEqual(shares);
    expect(shares[0]).toBeGreaterThanOrEqual(0);
  });

  it('stops at once: before it begins, between its steps, and when its worker hears nothing', async () => {
    const file = await photo();
    const request = { file, name: file.name, strip, lens };
    const halt = new AbortController();
    const stoppedSoon = readPhoto(request, { signal: halt.signal, report: () => undefined });
    halt.abort();
    expect(await stoppedSoon).toEqual({ done: false });
    expect(await readPhoto(request, { signal: halt.signal, report: () => undefined })).toEqual({
      done: false,
    });

    deaf = true;
    const other = new AbortController();
    const hung = readPhoto(request, { signal: other.signal, report: () => undefined });
    await vi.waitFor(() => expect(takenBy).toHaveLength(1));
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    other.abort();
    await vi.advanceTimersByTimeAsync(2000);
    vi.useRealTimers();
    expect(await hung).toEqual({ done: false });
    expect(takenBy[0]?.terminated).toBe(true);

    // The next photo gets a new worker.
    deaf = false;
    const next = await readPhoto(request, call());
    expect(next.done && next.value.reading.ok).toBe(true);
  });

  it('from a telephone’s own format is refused with a sentence', async () => {
    const heic = Uint8Array.from([0, 0, 0, 24, ...Buffer.from('ftypheic\0\0\0\0mif1heic')]);
    const file = fileOf(heic, 'IMG_1.heic');
    await expect(readPhoto({ file, name: file.name, strip, lens }, call())).rejects.toThrow(
      /HEIF.*JPEG/,
    );
  });
});

describe('a photo of a failed print', () => {
  const lens = { pitchMm: mm(25.4 / 60), thicknessMm: mm(0.84), index: 1.57 };
  const grey = (code: number) => ({
    columns: 2,
    rows: 2,
    pixels: new Uint8Array(16).fill(code),
  });
  const request = {
    pictures: [grey(40), grey(200)],
    slots: [0, 0, 1, 1],
    setup: {
      lens,
      sheet: {
        widthDots: 1440,
        heightDots: 1080,
        acrossDpi: 720,
        alongDpi: 720,
        ribs: 'upright',
        viewingPitchMm: viewingPitch(lens, mm(400)),
        lensPitchMm: lens.pitchMm,
        offsetMm: 0,
        viewSlots: 4,
        columns: 'blended',
      },
      distanceMm: 400,
    },
    blur: { spot: 0.1, dot: 0.1 },
  } as const;
  const wall = async () => {
    const even = { width: 400, height: 300, channels: 3, background: '#888' } as const;
    // 16 bit: decoded without a browser.
    const bytes = await sharp({ create: even }).toColourspace('rgb16').png().toBuffer();
    return fileOf(bytes, 'wall.png');
  };

  it('that says nothing is refused with what to do, as an answer and not an error', async () => {
    const file = await wall();
    const outcome = await readPrintPhoto({ ...request, file, name: file.name }, call());
    if (!outcome.done || outcome.value.reading.ok) throw new Error('expected a refusal');
    expect(outcome.value).toMatchObject({ widthPx: 400, heightPx: 300 });
    expect(outcome.value.reading.reason).toBe('flat');
    expect(outcome.value.reading.whatToDo).not.toBe('');
  });

  it('that is no picture is refused by name', async () => {
    const file = fileOf(new TextEncoder().encode('a letter'), 'letter.txt');
    await expect(readPrintPhoto({ ...request, file, name: file.name }, call())).rejects.toThrow(
      /letter\.txt/,
    );
  });
});
