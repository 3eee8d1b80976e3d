/** Reads a depth map: the numbers as they stand in the file, never turned into colours. */
import { decode } from 'fast-png';
import { fromArrayBuffer } from 'geotiff';
import { FloatType } from 'three';
import { EXRLoader } from 'three/addons/loaders/EXRLoader.js';
import { StudioError } from '../src/contract/errors.ts';
import type { FileToRead } from '../src/contract/synth.ts';
import type { DepthMap } from '../src/core/frames/synth/depth-map.ts';
import { checkExrComplete, readExrHeader } from './decode/exr-header.ts';
import { asStudioError, checkSize, unsupported } from './decode/image.ts';
import { pngSize } from './decode/png-header.ts';
import { sniff } from './decode/sniff.ts';

const SAVE_AS = 'Save the depths as grey PNG or TIFF, best with 16 bits, or as OpenEXR.';

/** The first of every `stride` numbers. */
const firstOf = <T extends Uint8Array | Uint16Array | Float32Array>(data: T, stride: number): T => {
  if (stride === 1) return data;
  const out = data.slice(0, data.length / stride) as T;
  for (let i = 0; i < out.length; i += 1) out[i] = data[i * stride] as number;
  return out;
};

const fromPng = (bytes: Uint8Array, name: string): DepthMap => {
  checkSize(pngSize(bytes, name), name);
  const { width, height, data, channels, depth, palette } = decode(bytes, { checkCrc: true });
  if (palette !== undefined)
    throw unsupported(name, 'has a palette of colours, which are not depths', SAVE_AS);
  const size = { widthPx: width, heightPx: height };
  if (depth < 8) throw unsupported(name, `has ${depth} bits, too few steps for depths`, SAVE_AS);
  // An 8-bit picture may come clamped; the numbers are the same.
  const values =
    data instanceof Uint16Array ? data : new Uint8Array(data.buffer, data.byteOffset, data.length);
  return { ...size, values: firstOf(values, channels), white: depth === 16 ? 65535 : 255 };
};

const fromTiff = async (bytes: Uint8Array, name: string): Promise<DepthMap> => {
  const tiff = await fromArrayBuffer(bytes.slice().buffer);
  const image = await tiff.getImage();
  const size = { widthPx: image.getWidth(), heightPx: image.getHeight() };
  checkSize(size, name);
  const [values] = (await image.readRasters({ samples: [0] })) as unknown as [unknown];
  if (values instanceof Uint8Array) return { ...size, values, white: 255 };
  if (values instanceof Uint16Array) return { ...size, values, white: 65535 };
  if (values instanceof Float32Array) return { ...size, values, white: 1 };
  throw unsupported(name, 'holds numbers of an unusual size', SAVE_AS);
};

/** Renames one-letter channels in the file's list, so that the loader takes depths for a colour. */
const renamed = (
  bytes: Uint8Array,
  names: ReadonlyMap<string, string>,
): Uint8Array<ArrayBuffer> => {
  const out = Uint8Array.from(bytes);
  const marker = new TextEncoder().encode('channels\0chlist\0');
  const starts = (at: number) => marker.every((byte, i) => out[at + i] === byte);
  let at = 0;
  while (at < out.length && !starts(at)) at += 1;
  // Attribute: name, type, four bytes of size, then for each channel its name, a zero and 16 bytes.
  at += marker.length + 4;
  while (at < out.length && out[at] !== 0) {
    const end = out.indexOf(0, at);
    const to = names.get(String.fromCharCode(...out.subarray(at, end)));
    if (to !== undefined) out[at] = to.charCodeAt(0);
    at = end + 17;
  }
  return out;
};

/** Where depths lie: in Z, else in the only channel, else in the first colour. */
const depthChannel = (names: readonly string[], name: string): ReadonlyMap<string, string> => {
  if (names.includes('Z'))
    return names.includes('R')
      ? new Map([
          ['R', 'q'],
          ['Z', 'R'],
        ])
      : new Map([['Z', 'Y']]);
  if (names.includes('R') || names.includes('Y')) return new Map();
  const [only] = names;
  if (names.length === 1 && only?.length === 1) return new Map([[only, 'Y']]);
  const found = names.slice(0, 12).join(', ');
  throw unsupported(
    name,
    `has no channel that is surely the depth; it has ${found}`,
    'Save the depth as a channel named Z, or alone as a grey picture.',
  );
};

const fromExr = (bytes: Uint8Array, name: string): DepthMap => {
  const header = readExrHeader(bytes, name);
  const { dataWindow: data, displayWindow: display } = header;
  const size = { widthPx: data.right - data.left + 1, heightPx: data.bottom - data.top + 1 };
  checkSize(size, name);
  if (Object.entries(data).some(([side, at]) => display[side as keyof typeof display] !== at))
    throw unsupported(name, 'holds only a part of its picture', 'Save it uncropped.');
  checkExrComplete(bytes, header, name);
  const loader = new EXRLoader();
  loader.type = FloatType;
  const channels = header.channels.map((channel) => channel.name);
  const source = renamed(bytes, depthChannel(channels, name));
  const flat = loader.parse(source.buffer).data;
  const { widthPx, heightPx } = size;
  const values = firstOf(flat, flat.length / (widthPx * heightPx));
  // The loader gives rows bottom first.
  const upright = new Float32Array(values.length);
  for (let y = 0; y < heightPx; y += 1)
    upright.set(
      values.subarray((heightPx - 1 - y) * widthPx, (heightPx - y) * widthPx),
      y * widthPx,
    );
  return { ...size, values: upright, white: 1 };
};

/** Throws StudioError that names the file and says what to do. */
export const readDepthFile = async ({ file, name }: FileToRead): Promise<DepthMap> => {
  const bytes = new Uint8Array(
    await file.arrayBuffer().catch(() => {
      throw new StudioError(
        'file-gone',
        `"${name}" can no longer be read: it was moved, changed or deleted. Choose the depth map again.`,
        name,
      );
    }),
  );
  const { id, label } = sniff(bytes.subarray(0, 1024), name);
  try {
    if (id === 'png') return fromPng(bytes, name);
    if (id === 'tiff') return await fromTiff(bytes, name);
    if (id === 'exr') return fromExr(bytes, name);
  } catch (error) {
    throw asStudioError(error, name, label);
  }
  throw unsupported(name, `is ${label}, whose compression changes depths`, SAVE_AS);
};
