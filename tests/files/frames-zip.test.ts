import { strToU8, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { gatherFiles, gatherPicked } from '../../src/files/arrivals.ts';
import { pickDrop } from '../../src/files/pick-drop.ts';
import { picturesInZip, zipLimits } from '../../src/files/zip-in.ts';

/**
 * Written by Python's zipfile to a stream that cannot seek, so that every entry carries its size
 * behind it: folder set/, p_01.png ("first " × 40), .DS_Store, __MACOSX/…, notes.txt, p_02.png ("second").
 */
const streamedZip =
  'UEsDBBQACAAIAABgoVgAAAAAAAAAAAAAAAAEAAAAc2V0LwMAUEsHCAAAAAACAAAAAAAAAFBLAwQUAAgACAAAYKFYAAAAAAAAAAAAAAAADAAAAHNldC9wXzAxLnBuZ0vLLCouUUgbMSQAUEsHCM++D20LAAAA8AAAAFBLAwQUAAgACAAAYKFYAAAAAAAAAAAAAAAADQAAAHNldC8uRFNfU3RvcmXLySwpSS0CAFBLBwgLA/JLCAAAAAYAAABQSwMEFAAIAAgAAGChWAAAAAAAAAAAAAAAABcAAABfX01BQ09TWC9zZXQvLl9wXzAxLnBuZ8vJLClJLQIAUEsHCAsD8ksIAAAABgAAAFBLAwQUAAgACAAAYKFYAAAAAAAAAAAAAAAADQAAAHNldC9ub3Rlcy50eHQrzy9KKQYAUEsHCIwefXEHAAAABQAAAFBLAwQUAAgACAAAYKFYAAAAAAAAAAAAAAAADAAAAHNldC9wXzAyLnBuZytOTc7PSwEAUEsHCGkRH7YIAAAABgAAAFBLAQIUAxQACAAIAABgoVgAAAAAAgAAAAAAAAAEAAAAAAAAAAAAEAAAAAAAAABzZXQvUEsBAhQDFAAIAAgAAGChWM++D20LAAAA8AAAAAwAAAAAAAAAAAAAAIABNAAAAHNldC9wXzAxLnBuZ1BLAQIUAxQACAAIAABgoVgLA/JLCAAAAAYAAAANAAAAAAAAAAAAAACAAXkAAABzZXQvLkRTX1N0b3JlUEsBAhQDFAAIAAgAAGChWAsD8ksIAAAABgAAABcAAAAAAAAAAAAAAIABvAAAAF9fTUFDT1NYL3NldC8uX3BfMDEucG5nUEsBAhQDFAAIAAgAAGChWIwefXEHAAAABQAAAA0AAAAAAAAAAAAAAIABCQEAAHNldC9ub3Rlcy50eHRQSwECFAMUAAgACAAAYKFYaREftggAAAAGAAAADAAAAAAAAAAAAAAAgAFLAQAAc2V0L3BfMDIucG5nUEsFBgAAAAAGAAYAYQEAAI0BAAAAAA==';
/** By the same: p_01.png packed with LZMA (method 14), p_02.png ("second") with deflate. */
const lzmaZip =
  'UEsDBD8AAgAOAABgoVjPvg9tHAAAAPAAAAAIAAAAcF8wMS5wbmcJBAUAXQAAgAAAMxpKrAxyw490tTfT///HQgAAUEsDBBQAAAAIAABgoVhpER+2CAAAAAYAAAAIAAAAcF8wMi5wbmcrTk3Oz0sBAFBLAQI/Az8AAgAOAABgoVjPvg9tHAAAAPAAAAAIAAAAAAAAAAAAAACAAQAAAABwXzAxLnBuZ1BLAQIUAxQAAAAIAABgoVhpER+2CAAAAAYAAAAIAAAAAAAAAAAAAACAAUIAAABwXzAyLnBuZ1BLBQYAAAAAAgACAGwAAABwAAAAAAA=';

const fromBase64 = (text: string) => new Uint8Array(Buffer.from(text, 'base64'));
const zip = (bytes: Uint8Array<ArrayBuffer>, name = 'set.zip') => new File([bytes], name);
const isPng = (path: string) => path.endsWith('.png');
const texts = async (pictures: readonly { path: string; content: Blob }[]) =>
  Object.fromEntries(
    await Promise.all(pictures.map(async (one) => [one.path, await one.content.text()] as const)),
  );

describe('pictures out of a zip', () => {
  test('written as a stream, sizes behind the entries', async () => {
    const { pictures, faults } = await picturesInZip(zip(fromBase64(streamedZip)), isPng);
    expect(await texts(pictures)).toEqual({
      'set/p_01.png': 'first '.repeat(40),
      'set/p_02.png': 'second',
      '__MACOSX/set/._p_01.png': 'litter',
    });
    expect(faults).toEqual([]);
  });

  test('larger than one slice, stored and deflated alike', async () => {
    const noise = new Uint8Array(300_000).map((_, i) => (i * 2654435761) >>> 13);
    for (const level of [0, 6] as const) {
      const bytes = zipSync({ 'a.png': noise, 'b.txt': noise, 'c.png': noise }, { level });
      const { pictures, passedOver } = await picturesInZip(zip(bytes), isPng);
      expect(pictures.map(({ path }) => path)).toEqual(['a.png', 'c.png']);
      expect(passedOver).toEqual(['b.txt']);
      for (const { content } of pictures)
        expect(Buffer.from(await content.arrayBuffer()).equals(Buffer.from(noise))).toBe(true);
    }
  });

  test('an unknown way of packing is named, the rest is had', async () => {
    const { pictures, faults } = await picturesInZip(zip(fromBase64(lzmaZip)), isPng);
    expect(await texts(pictures)).toEqual({ 'p_02.png': 'second' });
    expect(faults).toHaveLength(1);
    expect(faults[0]?.path).toBe('p_01.png');
    expect(faults[0]?.reason).toContain('ordinary compression');
  });

  test('a zip cut short keeps what was whole and names where it broke', async () => {
    const noise = new Uint8Array(5000).map((_, i) => (i * 2654435761) >>> 13);
    const bytes = zipSync({ 'a.png': noise, 'b.png': noise }, { level: 0 });
    const { pictures, faults } = await picturesInZip(zip(bytes.slice(0, 7000)), isPng);
    expect(pictures.map(({ path }) => path)).toEqual(['a.png']);
    expect(faults).toEqual([
      { path: 'b.png', reason: expect.stringContaining('cut short or damaged') as string },
    ]);
  });

  test('a damaged entry is named, those behind it are had', async () => {
    const words = strToU8('the tide comes in and the tide goes out. '.repeat(50));
    const bytes = zipSync({ 'a.png': words, 'b.png': words });
    // Behind the 30 bytes of header and the name: a deflate block of the reserved type 3.
    bytes[35] = 0b111;
    const { pictures, faults } = await picturesInZip(zip(bytes), isPng);
    expect(pictures.map(({ path }) => path)).toEqual(['b.png']);
    expect(faults[0]?.path).toBe('a.png');
  });

  test('what is no zip says so', async () => {
    const { pictures, faults } = await picturesInZip(new Blob(['not a zip at all']), isPng);
    expect(pictures).toEqual([]);
    expect(faults[0]?.reason).toContain('no zip');
  });

  test('a stop ends it with what it has', async () => {
    const stop = new AbortController();
    stop.abort();
    const bytes = zipSync({ 'a.png': strToU8('a') });
    const contents = await picturesInZip(zip(bytes), isPng, { signal: stop.signal });
    expect(contents.pictures).toEqual([]);
  });
});

describe('a zip that would fill the memory', () => {
  const zeros = new Uint8Array(2_000_000);

  test('an entry beyond the limit ends the reading; what came before stays', async () => {
    const bytes = zipSync({ 'a.png': strToU8('small'), 'b.png': zeros, 'c.png': strToU8('small') });
    const limits = { ...zipLimits, entryBytes: 1_000_000 };
    const { pictures, faults } = await picturesInZip(zip(bytes), isPng, { limits });
    expect(pictures.map(({ path }) => path)).toEqual(['a.png']);
    expect(faults.map(({ path }) => path)).toEqual(['b.png']);
  });

  test('all together beyond the limit likewise', async () => {
    const bytes = zipSync({ 'a.png': zeros, 'b.png': zeros, 'c.png': zeros });
    const limits = { ...zipLimits, totalBytes: 3_000_000 };
    const { pictures, faults } = await picturesInZip(zip(bytes), isPng, { limits });
    expect(pictures.map(({ path }) => path)).toEqual(['a.png']);
    expect(faults[0]?.reason).toContain('The zip unpacks to more than');
  });

  test('an entry that declares less than it unpacks to is refused', async () => {
    const bytes = zipSync({ 'a.png': zeros });
    // Local header, APPNOTE 4.3.7: uncompressed size at offset 22.
    new DataView(bytes.buffer, bytes.byteOffset).setUint32(22, 1000, true);
    const { pictures, faults } = await picturesInZip(zip(bytes), isPng);
    expect(pictures).toEqual([]);
    expect(faults[0]?.reason).toContain('more than the zip declares');
  });

  test('an entry that declares more than it unpacks to is damaged', async () => {
    const bytes = zipSync({ 'a.png': strToU8('some light') });
    new DataView(bytes.buffer, bytes.byteOffset).setUint32(22, 1000, true);
    const { pictures, faults } = await picturesInZip(zip(bytes), isPng);
    expect(pictures).toEqual([]);
    expect(faults[0]?.reason).toContain('less than the zip declares');
  });

  test('too many entries', async () => {
    const bytes = zipSync(
      Object.fromEntries(Array.from({ length: 20 }, (_, i) => [`${i}.png`, strToU8('x')])),
    );
    const limits = { ...zipLimits, entries: 5 };
    const { pictures, faults } = await picturesInZip(zip(bytes), isPng, { limits });
    expect(pictures).toHaveLength(5);
    expect(faults[0]?.reason).toContain('more than 5 files');
  });
});

describe('gathering', () => {
  test('a zip is opened: litter in silence, others by name', async () => {
    const { arrivals, leftOut } = await gatherFiles([zip(fromBase64(streamedZip))]);
    expect(arrivals.map(({ name, path }) => [name, path])).toEqual([
      ['p_01.png', 'set.zip/set/p_01.png'],
      ['p_02.png', 'set.zip/set/p_02.png'],
    ]);
    expect(leftOut.map(({ path }) => path)).toEqual(['set.zip/set/notes.txt']);
  });

  test('paths in a zip are only text: steps up, drives and backslashes lead nowhere', async () => {
    const bytes = zipSync({ '../../up.png': strToU8('a'), 'wide\\sea.png': strToU8('b') });
    const { arrivals } = await gatherFiles([zip(bytes)]);
    expect(arrivals.map(({ name, path }) => [name, path])).toEqual([
      ['up.png', 'set.zip/up.png'],
      ['sea.png', 'set.zip/wide/sea.png'],
    ]);
  });

  test('files: pictures and names without extension come, others are named, litter is not', async () => {
    const files = ['a.PNG', 'bloom.0012', 'notes.md', '.DS_Store', 'Thumbs.db', 'b.exr'];
    const { arrivals, leftOut } = await gatherFiles(files.map((name) => new File(['x'], name)));
    expect(arrivals.map(({ name }) => name)).toEqual(['a.PNG', 'bloom.0012', 'b.exr']);
    expect(leftOut.map(({ path }) => path)).toEqual(['notes.md']);
  });

  test('a scene comes with all beside it, unless numbered frames lie there', async () => {
    const of = (names: readonly string[]) =>
      gatherFiles(names.map((name) => new File(['x'], name)));
    const { scene, arrivals } = await of(['shop.gltf', 'shop.bin', 'leaf.png', 'bark.jpg']);
    expect(arrivals).toEqual([]);
    expect(scene?.map(({ path }) => path)).toEqual([
      'shop.gltf',
      'shop.bin',
      'leaf.png',
      'bark.jpg',
    ]);
    const zipped = zip(zipSync({ 'a/shop.gltf': strToU8('{}'), 'a/leaf.png': strToU8('l') }));
    expect((await gatherFiles([zipped])).scene?.map(({ name }) => name)).toEqual(['set.zip']);
    const frames = await of(['view_01.png', 'view_02.png', 'view_03.png', 'rig.usda']);
    expect(frames.scene).toBeUndefined();
    expect(frames.arrivals).toHaveLength(3);
    expect(frames.leftOut[0]?.reason).toMatch(/3D scene beside numbered frames/);
  });

  test('a zip in a zip is named, an empty one too', async () => {
    const inner = zipSync({ 'a.png': strToU8('a') });
    const { arrivals, leftOut } = await gatherFiles([
      zip(zipSync({ 'inner.zip': inner }), 'outer.zip'),
      zip(zipSync({ 'set/': new Uint8Array() }), 'bare.zip'),
    ]);
    expect(arrivals).toEqual([]);
    expect(leftOut[0]).toMatchObject({ path: 'outer.zip/inner.zip' });
    expect(leftOut[1]).toMatchObject({
      path: 'bare.zip',
      reason: 'There are no pictures in this zip.',
    });
  });
});

/** Entries as the File and Directory Entries API hands them out, a folder in portions of 2. */
const fileEntry = (fullPath: string, readable = true) => ({
  isFile: true,
  fullPath,
  file: (resolve: (file: File) => void, reject: (error: Error) => void) =>
    readable
      ? resolve(new File(['x'], fullPath.slice(fullPath.lastIndexOf('/') + 1)))
      : reject(new Error('NotReadableError')),
});
const folderEntry = (fullPath: string, children: unknown[]) => ({
  isFile: false,
  fullPath,
  createReader: () => {
    let at = 0;
    return {
      readEntries: (resolve: (entries: unknown[]) => void) => {
        resolve(children.slice(at, at + 2));
        at += 2;
      },
    };
  },
});
const drop = (...entries: unknown[]) =>
  gatherPicked(
    pickDrop({
      items: entries.map((entry) => ({ kind: 'file', webkitGetAsEntry: () => entry })),
    } as unknown as DataTransfer),
  );

describe('a drop', () => {
  test('of nested folders reads every portion of every folder', async () => {
    const { arrivals, leftOut } = await drop(
      folderEntry('/set', [
        fileEntry('/set/p_1.png'),
        fileEntry('/set/p_2.png'),
        fileEntry('/set/p_3.png'),
        folderEntry('/set/more', [fileEntry('/set/more/p_4.png')]),
        fileEntry('/set/.hidden.png'),
      ]),
      fileEntry('/p_5.png'),
    );
    expect(arrivals.map(({ path }) => path)).toEqual([
      'set/p_1.png',
      'set/p_2.png',
      'set/p_3.png',
      'set/more/p_4.png',
      'p_5.png',
    ]);
    expect(leftOut).toEqual([]);
  });

  test('with a file that may not be read names it and keeps the rest', async () => {
    const { arrivals, leftOut } = await drop(
      folderEntry('/set', [fileEntry('/set/a.png', false), fileEntry('/set/b.png')]),
    );
    expect(arrivals.map(({ name }) => name)).toEqual(['b.png']);
    expect(leftOut[0]?.path).toBe('set/a.png');
  });
});
