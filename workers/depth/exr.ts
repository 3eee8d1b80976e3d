/** Reads depths from OpenEXR: the numbers of the channel that holds them. */
import { FloatType } from 'three';
import { EXRLoader } from 'three/addons/loaders/EXRLoader.js';
import type { DepthMap } from '../../src/core/frames/synth/depth-map.ts';
import { checkExrComplete, readExrHeader } from '../decode/exr-header.ts';
import { checkSize, unsupported } from '../decode/image.ts';
import { firstOf } from './common.ts';

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

/** The channel with the depths: Z, else the only channel, else the first colour. */
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
    `has no channel that is clearly the depth; it has ${found}`,
    'Save the depth as a channel named Z, or alone as a grey picture.',
  );
};

export const fromExr = (bytes: Uint8Array, name: string): DepthMap => {
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
  const flat = loader.parse(source.buffer).data as Float32Array;
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
