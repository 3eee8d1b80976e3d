/** What an OpenEXR file says about itself (OpenEXR file layout, openexr.com "OpenEXR File Layout"). */
import { ascii, u32le } from './bytes.ts';
import { checkExrChunk } from './exr-chunks.ts';
import { damaged, unsupported } from './image.ts';
import type { PixelSize } from './image.ts';
import type { Chromaticities } from './primaries.ts';
import { MOST_PROFILE_BYTES } from './profile-size.ts';

export interface ExrChannel {
  readonly name: string;
  /** 0 whole number, 1 half float, 2 float. */
  readonly pixelType: number;
  readonly xSampling: number;
  readonly ySampling: number;
}

/** Corner pixels, both inside. */
export interface ExrWindow {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export const windowSize = ({ left, top, right, bottom }: ExrWindow): PixelSize => ({
  widthPx: right - left + 1,
  heightPx: bottom - top + 1,
});

export interface ExrHeader {
  readonly channels: readonly ExrChannel[];
  /** Index into `exrCompressions`. */
  readonly compression: number;
  readonly dataWindow: ExrWindow;
  readonly displayWindow: ExrWindow;
  readonly chromaticities?: Chromaticities;
  readonly tiled: boolean;
  readonly deep: boolean;
  /** Parts in the file; everything else here is about the first. */
  readonly parts: number;
  /** First byte after all headers: the table of chunk offsets. */
  readonly end: number;
}

/** By the number in the file, with the rows of a chunk. */
export const exrCompressions: readonly (readonly [name: string, rows: number])[] = [
  ['none', 1],
  ['RLE', 1],
  ['ZIPS', 1],
  ['ZIP', 16],
  ['PIZ', 32],
  ['PXR24', 16],
  ['B44', 32],
  ['B44A', 32],
  ['DWAA', 32],
  ['DWAB', 256],
];

const ATTRIBUTES_AT_MOST = 2000;

interface Attribute {
  readonly type: string;
  readonly at: number;
  readonly size: number;
}

/**
 * Bytes of a value, by type, for the types of a fixed size ("OpenEXR File Layout", attribute types). The
 * reading library skips such a value by its type and not by the stated size. If the two differ, it looks
 * for the next name in the wrong place and may never end: such a file is refused.
 */
const FIXED_BYTES: Readonly<Record<string, number>> = {
  box2i: 16,
  chromaticities: 32,
  compression: 1,
  envmap: 1,
  float: 4,
  int: 4,
  lineOrder: 1,
  rational: 8,
  tiledesc: 9,
  timecode: 8,
  v2f: 8,
  v3f: 12,
};

/** Bytes of a channel in a list after its name; the shortest list is one closing zero. */
const CHANNEL_BYTES = 16;

/** Whether a list of channels ends where it is said to, with the end of each name inside it. */
const isChannelList = (file: Uint8Array, { at, size }: Attribute): boolean => {
  const end = at + size - 1;
  let next = at;
  while (next < end) {
    const nameEnd = file.indexOf(0, next);
    if (nameEnd < 0 || nameEnd === next) return false;
    next = nameEnd + 1 + CHANNEL_BYTES;
  }
  return next === end && file[end] === 0;
};

/** Null-terminated text; names are at most 255 bytes long. */
const textAt = (file: Uint8Array, at: number): string => {
  const end = file.indexOf(0, at);
  return ascii(file, at, end < 0 || end > at + 255 ? 0 : end - at);
};

/** One part's attributes by name, and the byte after their closing zero. */
const readAttributes = (
  file: Uint8Array,
  start: number,
  name: string,
): { attributes: Map<string, Attribute>; end: number } => {
  const attributes = new Map<string, Attribute>();
  let at = start;
  while (at < file.length && file[at] !== 0) {
    const key = textAt(file, at);
    const type = textAt(file, at + key.length + 1);
    const sizeAt = at + key.length + type.length + 2;
    const size = u32le(file, sizeAt);
    if (key === '' || type === '' || sizeAt + 4 + size > file.length) break;
    const attribute = { type, at: sizeAt + 4, size };
    const fits =
      type === 'chlist'
        ? isChannelList(file, attribute)
        : size === (FIXED_BYTES[type] ?? size) &&
          size <= MOST_PROFILE_BYTES &&
          attributes.size < ATTRIBUTES_AT_MOST;
    if (!fits) throw damaged(name, `its OpenEXR header has no usable "${key.slice(0, 40)}"`);
    attributes.set(key, attribute);
    at = sizeAt + 4 + size;
  }
  if (file[at] !== 0) throw damaged(name, 'its OpenEXR header breaks off');
  return { attributes, end: at + 1 };
};

const readChannels = (file: Uint8Array, { at, size }: Attribute): ExrChannel[] => {
  const channels: ExrChannel[] = [];
  for (let next = at; next < at + size - 1;) {
    const name = textAt(file, next);
    const body = next + name.length + 1;
    channels.push({
      name,
      pixelType: u32le(file, body),
      xSampling: u32le(file, body + 8),
      ySampling: u32le(file, body + 12),
    });
    next = body + 16;
  }
  return channels;
};

const readWindow = (file: Uint8Array, { at }: Attribute): ExrWindow => {
  const view = new DataView(file.buffer, file.byteOffset + at, 16);
  return {
    left: view.getInt32(0, true),
    top: view.getInt32(4, true),
    right: view.getInt32(8, true),
    bottom: view.getInt32(12, true),
  };
};

/** Memory for a whole tile is taken at once, so its size is limited. */
const isTileSize = (file: Uint8Array, { at }: Attribute): boolean =>
  [u32le(file, at), u32le(file, at + 4)].every((side) => side > 0 && side <= 8192);

const readChromaticities = (file: Uint8Array, { at }: Attribute): Chromaticities => {
  const view = new DataView(file.buffer, file.byteOffset + at, 32);
  const pair = (i: number) => [view.getFloat32(i, true), view.getFloat32(i + 4, true)] as const;
  return { red: pair(0), green: pair(8), blue: pair(16), white: pair(24) };
};

/** @throws StudioError `damaged` when a required attribute is missing or the header breaks off */
export const readExrHeader = (file: Uint8Array, name: string): ExrHeader => {
  const version = file[4] ?? 0;
  const flags = file[5] ?? 0;
  if (version !== 2) {
    throw unsupported(
      name,
      `is OpenEXR version ${version}, newer than is read here`,
      'Render it as version 2.',
    );
  }
  const multiPart = (flags & 0x10) !== 0;
  const first = readAttributes(file, 8, name);
  let { end } = first;
  let parts = 1;
  // With several parts an empty header closes the list.
  for (; multiPart && file[end] !== 0; parts += 1) ({ end } = readAttributes(file, end, name));
  const need = (key: string, type: string): Attribute => {
    const attribute = first.attributes.get(key);
    if (attribute?.type === type) return attribute;
    throw damaged(name, `its OpenEXR header has no usable "${key}"`);
  };
  const chromaticities = first.attributes.get('chromaticities');
  const type = first.attributes.get('type');
  const tiles = first.attributes.get('tiles');
  if (tiles?.type === 'tiledesc' && !isTileSize(file, tiles))
    throw damaged(name, 'its OpenEXR header gives tiles of no size or beyond all size');
  const typeName = type ? ascii(file, type.at, type.size).replace(/\0.*/, '') : '';
  return {
    channels: readChannels(file, need('channels', 'chlist')),
    compression: file[need('compression', 'compression').at] ?? 0,
    dataWindow: readWindow(file, need('dataWindow', 'box2i')),
    displayWindow: readWindow(file, need('displayWindow', 'box2i')),
    ...(chromaticities?.type === 'chromaticities'
      ? { chromaticities: readChromaticities(file, chromaticities) }
      : {}),
    tiled: (flags & 0x02) !== 0 || typeName === 'tiledimage',
    deep: (flags & 0x08) !== 0 || typeName.startsWith('deep'),
    parts,
    end: multiPart ? end + 1 : end,
  };
};

/**
 * Checks the table of chunks of a plain scan-line file; other files fail while they are read. A render that
 * was stopped leaves gaps in the table.
 * @throws StudioError `damaged` when the table has gaps or points past the end
 */
export const checkExrComplete = (file: Uint8Array, header: ExrHeader, name: string): void => {
  if (header.tiled || header.parts > 1) return;
  const rows = exrCompressions[header.compression]?.[1] ?? 1;
  const height = header.dataWindow.bottom - header.dataWindow.top + 1;
  const chunks = Math.ceil(height / rows);
  const width = header.dataWindow.right - header.dataWindow.left + 1;
  const rowBytes =
    width * header.channels.reduce((sum, { pixelType }) => sum + (pixelType === 1 ? 2 : 4), 0);
  for (let i = 0; i < chunks; i += 1) {
    const offset = u32le(file, header.end + i * 8) + u32le(file, header.end + i * 8 + 4) * 2 ** 32;
    const sizeAt = offset + 4;
    const end = sizeAt + 4 + u32le(file, sizeAt);
    if (offset === 0 || end > file.length) {
      throw damaged(name, 'not all of its rows are there, as if its render had been stopped');
    }
    const rowsHere = Math.min(rows, height - i * rows);
    const chunk = { from: sizeAt + 4, to: end, rawBytes: rowBytes * rowsHere };
    checkExrChunk(file, header.compression, chunk, name);
  }
};
