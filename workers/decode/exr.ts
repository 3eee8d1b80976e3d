/** OpenEXR: scene-linear light, half or float. */
import type { Ground } from './alpha.ts';
import { FloatType } from 'three';
import { EXRLoader } from 'three/addons/loaders/EXRLoader.js';
import { checkExrComplete, exrCompressions, readExrHeader, windowSize } from './exr-header.ts';
import type { ExrHeader } from './exr-header.ts';
import { asStudioError, checkSize, unsupported } from './image.ts';
import type { DecodedImage, PixelSize } from './image.ts';
import { isRec709, multiplyPixels, toRec709 } from './primaries.ts';

/** The layouts the library misreads or cannot read are refused by name. */
const checkLayout = (header: ExrHeader, name: string): void => {
  const { channels, compression, deep, tiled, parts } = header;
  const remedy = 'Render it as one flat picture with channels R, G and B, half float, ZIP.';
  const names = new Set(channels.map((channel) => channel.name));
  if (deep) throw unsupported(name, 'is a deep OpenEXR, many samples a pixel', remedy);
  if (tiled && parts > 1) throw unsupported(name, 'is a tiled OpenEXR of several parts', remedy);
  if (!exrCompressions[compression]) {
    const read = exrCompressions.map(([label]) => label).join(', ');
    throw unsupported(
      name,
      `is an OpenEXR with compression number ${compression}; read are ${read}`,
      remedy,
    );
  }
  const colour = ['R', 'G', 'B'].every((key) => names.has(key));
  if (names.has('RY') || names.has('BY') || !(colour || names.has('Y'))) {
    const found = [...names].slice(0, 12).join(', ');
    throw unsupported(name, `is an OpenEXR without plain colour channels; it has ${found}`, remedy);
  }
  const odd = channels.find(
    ({ pixelType, xSampling, ySampling }) => pixelType === 0 || xSampling !== 1 || ySampling !== 1,
  );
  if (odd) {
    throw unsupported(
      name,
      `has a channel "${odd.name}" of whole numbers or of coarser sampling`,
      `Leave that channel out. ${remedy}`,
    );
  }
  const used = channels.filter((channel) =>
    (colour ? ['R', 'G', 'B', 'A'] : ['Y', 'A']).includes(channel.name),
  );
  if (new Set(used.map((channel) => channel.pixelType)).size > 1) {
    throw unsupported(name, 'mixes half and float in its colour channels', remedy);
  }
};

/** Rows come bottom first, as a graphics card wants them, RGBA. */
const readPixels = (file: Uint8Array, name: string): Float32Array => {
  const loader = new EXRLoader();
  loader.type = FloatType;
  try {
    const exact = file.byteLength === file.buffer.byteLength ? file : file.slice();
    // Float was asked for, and the header promised pixels.
    return loader.parse(exact.buffer as ArrayBuffer).data as Float32Array;
  } catch (error) {
    throw asStudioError(error, name, 'OpenEXR');
  }
};

/**
 * The display window's RGB out of the data window's RGBA. Alpha in OpenEXR is already multiplied in, so
 * what is missing from 1 is the ground. Outside the data window a picture with alpha is transparent and
 * one without is black.
 */
const place = (
  source: Float32Array,
  header: ExrHeader,
  { widthPx, heightPx }: PixelSize,
  ground: Ground,
): Float32Array => {
  const { dataWindow: data, displayWindow: display } = header;
  const inner = windowSize(data);
  const hasAlpha = header.channels.some(({ name }) => name === 'A');
  const out = new Float32Array(widthPx * heightPx * 3);
  const shines = hasAlpha && ground === 'white';
  if (shines) out.fill(1);
  const firstX = Math.max(data.left, display.left);
  const lastX = Math.min(data.right, display.right);
  const lastY = Math.min(data.bottom, display.bottom);
  for (let y = Math.max(data.top, display.top); y <= lastY; y += 1) {
    let from = ((data.bottom - y) * inner.widthPx + firstX - data.left) * 4;
    let to = ((y - display.top) * widthPx + firstX - display.left) * 3;
    for (let x = firstX; x <= lastX; x += 1, from += 4) {
      const paper = shines ? Math.max(0, 1 - source[from + 3]!) : 0;
      out[to++] = source[from]! + paper;
      out[to++] = source[from + 1]! + paper;
      out[to++] = source[from + 2]! + paper;
    }
  }
  return out;
};

/** Not-a-number and infinities, which renders leave in a few pixels, would poison every average. */
const mend = (data: Float32Array): void => {
  for (let i = 0; i < data.length; i += 1) {
    if (!Number.isFinite(data[i])) data[i] = data[i] === Infinity ? 65504 : 0;
  }
};

export const decodeExr = (
  file: Uint8Array,
  name: string,
  ground: Ground = 'white',
): DecodedImage => {
  const header = readExrHeader(file, name);
  const size = windowSize(header.displayWindow);
  checkSize(size, name);
  checkSize(windowSize(header.dataWindow), name);
  checkLayout(header, name);
  checkExrComplete(file, header, name);
  const data = place(readPixels(file, name), header, size, ground);
  mend(data);
  const { chromaticities } = header;
  const foreign = chromaticities && !isRec709(chromaticities) ? chromaticities : undefined;
  if (foreign) multiplyPixels(data, toRec709(foreign));
  const colour = header.channels.find((channel) => channel.name === 'R' || channel.name === 'Y');
  const depth = colour?.pixelType === 2 ? 'float' : 'half float';
  return {
    ...size,
    channels: 3,
    encoding: 'linear',
    data,
    kind: `OpenEXR, ${depth}${header.parts > 1 ? `, first of ${header.parts} parts` : ''}`,
    ...(foreign ? { profile: 'the primaries in the file' } : {}),
  };
};
