import type { Entry } from 'yauzl';
import { fromBuffer } from 'yauzl';
import { describe, expect, test } from 'vitest';
import { StudioError } from '../../src/contract/errors.ts';
import type { Sink } from '../../src/contract/sink.ts';
import { bundleName, isBundleName } from '../../src/files/bundle.ts';
import { readBundle } from '../../src/files/bundle-read.ts';
import { writeBundle } from '../../src/files/bundle-write.ts';
import { memorySink } from '../../src/files/sinks.ts';
import { bytesOf, jobOf, noise, opened, originalsOf, packed, saved } from './bundle-helpers.ts';

/** What yauzl, a zip reader that is not ours, finds: it checks sizes and CRC-32 itself. */
const readByOthers = async (file: Blob): Promise<Map<string, Buffer>> => {
  const bytes = Buffer.from(await file.arrayBuffer());
  return new Promise((resolve, reject) => {
    fromBuffer(bytes, { lazyEntries: true, strictFileNames: true }, (error, zip) => {
      if (error !== null) return reject(error);
      const found = new Map<string, Buffer>();
      zip.on('entry', (entry: Entry) => {
        zip.openReadStream(entry, (fault, stream) => {
          if (fault !== null) return reject(fault);
          const parts: Buffer[] = [];
          stream.on('data', (part: Buffer) => parts.push(part));
          stream.on('error', reject);
          stream.on('end', () => {
            found.set(entry.fileName, Buffer.concat(parts));
            zip.readEntry();
          });
        });
      });
      zip.on('end', () => resolve(found));
      zip.on('error', reject);
      zip.readEntry();
    });
  });
};

describe('a saved job file', () => {
  test('is a zip that another reader opens, with the originals byte for byte', async () => {
    const job = jobOf();
    const found = await readByOthers(await saved(job));
    expect([...found.keys()]).toEqual([
      'tiltloom.json',
      'job.json',
      'originals/0001.png',
      'originals/0002.png',
    ]);
    expect(JSON.parse(String(found.get('job.json')))).toEqual(job);
    expect(found.get('originals/0002.png')).toEqual(Buffer.from(noise(900, 2)));
  });

  test('opens as the same job with the same pictures', async () => {
    const job = jobOf();
    const back = await opened(await saved(job));
    expect(back.job).toEqual(job);
    expect(back.savedAt).toBe('2026-03-01T10:00:00.000Z');
    const originals = originalsOf(job);
    expect(back.originals.map(({ id, name }) => [id, name])).toEqual(
      originals.map(({ id, name }) => [id, name]),
    );
    for (const [i, { file }] of back.originals.entries())
      expect(await bytesOf(file)).toEqual(await bytesOf(originals[i]!.file));
  });

  test('keeps what a newer studio put into it', async () => {
    const job = jobOf();
    const newer = {
      ...job,
      lampHours: [1, { deep: 'leaf' }],
      lens: { ...job.lens, backing: 'matt' },
      frames: job.frames.map((frame) => ({ ...frame, seenBy: 'kingfisher' })),
    };
    const back = await opened(packed({ job: newer }));
    const again = await opened(await saved(back.job));
    expect(again.job).toEqual(newer);
  });

  test('opens when other software packed it anew, deflated and with its folders', async () => {
    const file = packed({ more: { originals: {}, __MACOSX: { '._job.json': noise(9) } } }, 9);
    const back = await opened(file);
    expect(back.job).toEqual(jobOf());
    expect(await bytesOf(back.originals[1]!.file)).toEqual(noise(900, 2));
  });

  test('is written a chunk at a time, however large the picture', async () => {
    const job = jobOf([9_000_000, 0]);
    const sizes: number[] = [];
    const kept = memorySink('application/zip');
    const counting: Sink = {
      ...kept,
      write: (bytes) => {
        sizes.push(bytes.length);
        return kept.write(bytes);
      },
    };
    const reports: number[] = [];
    const outcome = await writeBundle(counting, job, originalsOf(job), new Date(), {
      signal: new AbortController().signal,
      report: (done) => reports.push(done),
    });
    expect(Math.max(...sizes)).toBeLessThanOrEqual(2 ** 20);
    expect(outcome).toEqual({ done: true, value: { byteLength: (await kept.file()).size } });
    expect(reports).toEqual([...reports].sort((a, b) => a - b));
    expect((await opened(await kept.file())).originals[0]?.file.size).toBe(9_000_000);
  });

  test('is not left half written when it is stopped or a picture is gone', async () => {
    const job = jobOf([3_000_000, 900]);
    const halt = new AbortController();
    const sink = memorySink('application/zip');
    const outcome = await writeBundle(sink, job, originalsOf(job), new Date(), {
      signal: halt.signal,
      report: () => halt.abort(),
    });
    expect(outcome).toEqual({ done: false });
    expect((await sink.file()).size).toBe(0);

    const gone = new Blob([noise(50)]);
    gone.slice = () => gone;
    gone.arrayBuffer = () => Promise.reject(new DOMException('gone', 'NotReadableError'));
    const [first, second] = originalsOf(job);
    const write = writeBundle(sink, job, [first!, { ...second!, file: gone }], new Date(), {
      signal: new AbortController().signal,
      report: () => undefined,
    });
    await expect(write).rejects.toMatchObject({ code: 'file-gone', file: 'view_1.png' });
    expect((await sink.file()).size).toBe(0);
  });

  test('beyond 4 GB is refused before a byte is written', async () => {
    const huge = { size: 2 ** 30 } as Blob;
    const originals = Array.from({ length: 5 }, (_, i) => ({
      id: `frame-number-${i}`,
      name: `view_${i}.tif`,
      file: huge,
    }));
    const sink = memorySink('application/zip');
    const write = writeBundle(sink, jobOf(), originals, new Date(), {
      signal: new AbortController().signal,
      report: () => undefined,
    });
    await expect(write).rejects.toMatchObject({
      code: 'too-large',
      message: expect.stringMatching(/5120 MB.*4096 MB.*Nothing was written/) as string,
    });
    expect((await sink.file()).size).toBe(0);
  });

  test('is named after the job, in letters that every system takes', () => {
    expect(bundleName('Lighthouse: 8/10 <final>?')).toBe('Lighthouse 8 10 final.tiltloom.zip');
    expect(bundleName('..')).toBe('Job.tiltloom.zip');
    expect(bundleName('Gewächshaus 温室')).toBe('Gewächshaus 温室.tiltloom.zip');
    expect(isBundleName('Tram.tiltloom (2).zip')).toBe(true);
    expect(isBundleName('frames.zip')).toBe(false);
  });
});

test('reading can be stopped', async () => {
  const halt = new AbortController();
  halt.abort();
  const outcome = await readBundle(await saved(), 'print.tiltloom.zip', {
    signal: halt.signal,
    report: () => undefined,
  });
  expect(outcome).toEqual({ done: false });
});

/** Every cut and every flipped bit: never an error without a name, never a picture that is not the saved one. */
describe('damage anywhere', () => {
  const outcomeOf = async (bytes: Uint8Array<ArrayBuffer>): Promise<string> => {
    try {
      const back = await opened(new Blob([bytes]));
      const [one, two] = back.originals;
      expect(await bytesOf(one!.file)).toEqual(noise(700, 1));
      expect(await bytesOf(two!.file)).toEqual(noise(900, 2));
      expect(back.job).toEqual(jobOf());
      return 'whole';
    } catch (error) {
      if (!(error instanceof StudioError)) throw error;
      expect(error.message).toMatch(
        /^“print.tiltloom.zip” was not opened\. .+ Your work is as it was\.$/s,
      );
      return error.code;
    }
  };

  test('cut off after any byte', async () => {
    const whole = await bytesOf(await saved());
    for (let length = 0; length < whole.length; length += 3)
      expect(await outcomeOf(whole.slice(0, length)), `${length} bytes`).not.toBe('whole');
  });

  test('one bit turned', async () => {
    const whole = await bytesOf(await saved());
    let refused = 0;
    for (let at = 0; at < whole.length; at += 7) {
      const turned = whole.slice();
      turned[at]! ^= 1 << (at % 8);
      if ((await outcomeOf(turned)) !== 'whole') refused += 1;
    }
    // What is let through: dates, versions and such, of some tens of bytes an entry.
    expect(refused / (whole.length / 7)).toBeGreaterThan(0.8);
  });
});
