/**
 * Writes the TIFF fixtures with libtiff's tools and ImageMagick 6, for the layouts that sharp cannot write.
 *   apt-get install libtiff-tools imagemagick && node make-tiff.mjs
 * Only needed to make them again: the files are kept beside this one.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';

const [width, height] = [37, 29];
const samples = width * height * 3;
const rgb8 = Uint8Array.from({ length: samples }, (_, i) => (i * 37 + (i >> 5) * 11) & 255);
const rgb16 = Uint16Array.from({ length: samples }, (_, i) => (i * 7919 + (i >> 3) * 101) & 65535);
const smooth = Uint8Array.from({ length: samples }, (_, i) => {
  const [x, y] = [Math.floor(i / 3) % width, Math.floor(i / 3 / width)];
  return [60 + x * 4, 200 - y * 5, 90 + x * 2 + y * 2][i % 3];
});

const here = fileURLToPath(new URL('.', import.meta.url));
const scratch = mkdtempSync(join(tmpdir(), 'decode-'));
const at = (name) => join(scratch, name);
const raw = { raw: { width, height, channels: 3 } };
await sharp(rgb8, raw).tiff({ compression: 'none' }).toFile(at('8.tif'));
await sharp(rgb16, raw).toColourspace('rgb16').tiff({ compression: 'none' }).toFile(at('16.tif'));
await sharp(smooth, raw).tiff({ compression: 'none' }).toFile(at('smooth.tif'));
writeFileSync(at('8.rgb'), rgb8);
writeFileSync(at('16.rgb'), Buffer.from(rgb16.buffer));

const tiffcp = (source, name, ...options) =>
  execFileSync('tiffcp', [...options, at(source), join(here, name)]);
const magick = (source, name, ...options) => {
  const depth = source.split('.')[0];
  const input = [
    '-size',
    `${width}x${height}`,
    '-depth',
    depth,
    '-endian',
    'LSB',
    `rgb:${at(source)}`,
  ];
  execFileSync('/usr/bin/convert', [...input, ...options, join(here, name)]);
};

tiffcp('16.tif', '16-msb-lzw-predictor.tif', '-B', '-c', 'lzw:2');
tiffcp('16.tif', '16-msb-deflate-predictor.tif', '-B', '-c', 'zip:2');
tiffcp('16.tif', '16-msb-packbits.tif', '-B', '-c', 'packbits');
tiffcp('16.tif', '16-zstandard.tif', '-c', 'zstd');
tiffcp('8.tif', '8-msb-tiles.tif', '-B', '-t', '-w', '16', '-l', '16', '-c', 'zip:2');
tiffcp('8.tif', '8-planes-tiles.tif', '-p', 'separate', '-t', '-w', '16', '-l', '16');
tiffcp('8.tif', '8-strips-of-5.tif', '-r', '5', '-c', 'lzw');
tiffcp('8.tif', '8-bigtiff.tif', '-8');
tiffcp('8.tif', '8-fill-order-2.tif', '-f', 'lsb2msb', '-c', 'lzw');
tiffcp('smooth.tif', 'smooth-jpeg-ycbcr.tif', '-c', 'jpeg:95');
for (const [order, name] of [
  ['MSB', 'msb'],
  ['LSB', 'lsb'],
]) {
  const planes = ['-endian', order, '-interlace', 'Plane'];
  magick('16.rgb', `16-planes-${name}.tif`, ...planes, '-compress', 'Zip');
  const float = ['-endian', order, '-define', 'quantum:format=floating-point', '-depth', '32'];
  magick('8.rgb', `float-${name}.tif`, ...float, '-compress', 'Zip', '-define', 'tiff:predictor=1');
  const predicted = ['-compress', 'Zip', '-define', 'tiff:predictor=3'];
  magick('8.rgb', `float-${name}-predictor.tif`, ...float, ...predicted);
}
magick('8.rgb', 'palette-4.tif', '-colors', '16', '-type', 'Palette', '-compress', 'None');
magick(
  '8.rgb',
  'grey-white-is-zero.tif',
  '-colorspace',
  'gray',
  '-define',
  'quantum:polarity=min-is-white',
  '-compress',
  'None',
);
magick('8.rgb', 'bilevel.tif', '-colorspace', 'gray', '-type', 'Bilevel', '-compress', 'None');
magick('8.rgb', 'fax.tif', '-colorspace', 'gray', '-type', 'Bilevel', '-compress', 'Group4');
magick('8.rgb', 'cmyk.tif', '-colorspace', 'CMYK', '-compress', 'LZW');
const veil = ['-alpha', 'on', '-channel', 'A', '-evaluate', 'set', '40%', '+channel'];
magick(
  '16.rgb',
  '16-alpha-unassociated.tif',
  ...veil,
  '-define',
  'tiff:alpha=unassociated',
  '-compress',
  'Zip',
);
magick(
  '16.rgb',
  '16-alpha-associated.tif',
  ...veil,
  '-define',
  'tiff:alpha=associated',
  '-compress',
  'Zip',
);
rmSync(scratch, { recursive: true });
