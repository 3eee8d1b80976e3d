/** Depth maps as the worker reads them: files written by libvips and by hand, and the glasshouse's own. */
import { readFileSync } from 'node:fs';
import { decode } from 'fast-png';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { readDepthFile } from '../../workers/depth/index.ts';
import { depthBytes, depthFile, framePath } from './glasshouse-files.ts';

describe('depth maps', () => {
  const fixture = (name: string) => {
    const bytes = readFileSync(new URL(`./decode-fixtures/${name}`, import.meta.url));
    return readDepthFile({ key: name, name, file: new Blob([Uint8Array.from(bytes)]) });
  };
  const codes = Uint16Array.from({ length: 12 }, (_, i) => i * 5000);
  const grey = sharp(codes, { raw: { width: 4, height: 3, channels: 1 } }).toColourspace('grey16');
  const readBytes = (bytes: Uint8Array, name: string) =>
    readDepthFile({ key: name, name, file: new Blob([Uint8Array.from(bytes)]) });

  it('give the numbers in the file: 16-bit PNG and TIFF, 8 bits, and none turned by a curve', async () => {
    const png = await readBytes(await grey.clone().png().toBuffer(), 'z.png');
    expect(png).toMatchObject({ widthPx: 4, heightPx: 3, white: 65535 });
    expect([...png.values]).toEqual([...codes]);
    const tiff = await readBytes(
      await grey.clone().tiff({ compression: 'lzw' }).toBuffer(),
      'z.tif',
    );
    expect([...tiff.values]).toEqual([...codes]);
    const eight = Uint8Array.from({ length: 12 }, (_, i) => i * 20);
    const small = await readBytes(
      await sharp(eight, { raw: { width: 4, height: 3, channels: 1 } })
        .toColourspace('b-w')
        .png({ palette: false })
        .toBuffer(),
      'z8.png',
    );
    expect(small.white).toBe(255);
    expect([...small.values]).toEqual([...eight]);
    const scene = decode(depthBytes(6));
    const map = await readDepthFile(depthFile(6));
    expect(map.values).toEqual(scene.data);
  });

  it('are read from OpenEXR by their channel, rows from the top', async () => {
    const plain = await fixture('grey.exr');
    expect(plain.values).toBeInstanceOf(Float32Array);
    expect(plain.values.length).toBe(plain.widthPx * plain.heightPx);
    // The same file with its one channel named Z instead of Y: the format's list of channels is
    // plain text (OpenEXR file layout), so that no writer is needed.
    const bytes = Uint8Array.from(
      readFileSync(new URL('./decode-fixtures/grey.exr', import.meta.url)),
    );
    const text = Buffer.from(bytes).toString('latin1');
    const list = text.indexOf('chlist\0');
    const at = text.indexOf('Y\0', list + 11);
    expect(at).toBe(list + 11);
    bytes[at] = 'Z'.charCodeAt(0);
    const named = await readBytes(bytes, 'z.exr');
    expect(named.values).toEqual(plain.values);
  });

  it('are found beside colours in OpenEXR, in the channel Z', async () => {
    // Written out after the OpenEXR file layout: scan lines, not compressed, 32-bit float.
    const int = (value: number) => {
      const bytes = Buffer.alloc(4);
      bytes.writeInt32LE(value);
      return bytes;
    };
    const text = (value: string) => Buffer.from(`${value}\0`, 'latin1');
    const attribute = (name: string, type: string, value: Buffer) =>
      Buffer.concat([text(name), text(type), int(value.length), value]);
    const floats = (...values: number[]) => Buffer.from(Float32Array.from(values).buffer);
    const [width, height] = [3, 2];
    const names = ['B', 'G', 'R', 'Z'];
    const channels = names.map((name) =>
      Buffer.concat([text(name), int(2), int(0), int(1), int(1)]),
    );
    const window = Buffer.concat([0, 0, width - 1, height - 1].map(int));
    const header = Buffer.concat([
      Buffer.from([0x76, 0x2f, 0x31, 0x01, 2, 0, 0, 0]),
      attribute('channels', 'chlist', Buffer.concat([...channels, Buffer.from([0])])),
      attribute('compression', 'compression', Buffer.from([0])),
      attribute('dataWindow', 'box2i', window),
      attribute('displayWindow', 'box2i', window),
      attribute('lineOrder', 'lineOrder', Buffer.from([0])),
      attribute('pixelAspectRatio', 'float', floats(1)),
      attribute('screenWindowCenter', 'v2f', floats(0, 0)),
      attribute('screenWindowWidth', 'float', floats(1)),
      Buffer.from([0]),
    ]);
    const depths = [
      [1500, 2500, Infinity],
      [0.25, 1e9, 7],
    ];
    const lines = depths.map((z, y) => {
      const line = floats(
        ...[0.1, 0.2, 0.3].flatMap((grey) => Array(width).fill(grey) as number[]),
        ...z,
      );
      return Buffer.concat([int(y), int(line.length), line]);
    });
    const table = Buffer.alloc(8 * height);
    lines.forEach((line, y) =>
      table.writeBigUInt64LE(BigInt(header.length + table.length + y * line.length), 8 * y),
    );
    const map = await readBytes(Buffer.concat([header, table, ...lines]), 'beauty.exr');
    expect([...map.values]).toEqual(depths.flat());
  });

  it('in a form that spoils depths are refused by name', async () => {
    const jpeg = await sharp(framePath(6)).jpeg().toBuffer();
    await expect(readBytes(jpeg, 'z.jpg')).rejects.toThrow(
      /"z\.jpg" is JPEG.*changes depths.*16 bits/s,
    );
    await expect(
      readDepthFile({
        key: 'p',
        name: 'p.png',
        file: new Blob([Uint8Array.from(readFileSync(framePath(6)))]),
      }),
    ).rejects.toThrow(/palette/);
  });
});
