/**
 * Depth as OpenEXR: one channel "Z" of 32-bit floats, scan lines without compression. "The OpenEXR File Layout" (Academy
 * Software Foundation): magic, version, attributes, line offsets, then each line with its number and length.
 */
import { joinBytes } from './bytes.ts';

const text = (value: string): Uint8Array => {
  const bytes = new Uint8Array(value.length + 1);
  for (let at = 0; at < value.length; at += 1) bytes[at] = value.charCodeAt(at);
  return bytes;
};

const numbers = (values: readonly number[], set: 'setInt32' | 'setFloat32'): Uint8Array => {
  const view = new DataView(new ArrayBuffer(4 * values.length));
  values.forEach((value, at) => view[set](4 * at, value, true));
  return new Uint8Array(view.buffer);
};
const ints = (...values: number[]): Uint8Array => numbers(values, 'setInt32');
const floats = (...values: number[]): Uint8Array => numbers(values, 'setFloat32');

const attribute = (name: string, type: string, value: Uint8Array): Uint8Array[] => [
  text(name),
  text(type),
  ints(value.length),
  value,
];

const MAGIC = 20000630;
const FLOAT = 2;

const header = (width: number, height: number): Uint8Array => {
  const window = ints(0, 0, width - 1, height - 1);
  // A channel: name, type, linear, three bytes of nothing, sampling across and down; an empty name ends the list.
  const channels = joinBytes([text('Z'), ints(FLOAT, 0, 1, 1), Uint8Array.of(0)]);
  return joinBytes([
    ints(MAGIC, 2),
    ...attribute('channels', 'chlist', channels),
    ...attribute('compression', 'compression', Uint8Array.of(0)),
    ...attribute('dataWindow', 'box2i', window),
    ...attribute('displayWindow', 'box2i', window),
    ...attribute('lineOrder', 'lineOrder', Uint8Array.of(0)),
    ...attribute('pixelAspectRatio', 'float', floats(1)),
    ...attribute('screenWindowCenter', 'v2f', floats(0, 0)),
    ...attribute('screenWindowWidth', 'float', floats(1)),
    Uint8Array.of(0),
  ]);
};

/**
 * @param depths row-major from the upper left, width × height; Infinity where nothing is
 * @throws RangeError when their number is not width × height, or 0
 */
export const depthExr = (
  width: number,
  height: number,
  depths: Float32Array,
): Uint8Array<ArrayBuffer> => {
  if (width * height !== depths.length || depths.length === 0)
    throw new RangeError(`depths: expected ${width} × ${height}, received ${depths.length}`);
  const head = header(width, height);
  const lineBytes = 8 + 4 * width;
  const first = head.length + 8 * height;
  const rest = new DataView(new ArrayBuffer(8 * height + lineBytes * height));
  for (let y = 0; y < height; y += 1) {
    rest.setBigUint64(8 * y, BigInt(first + y * lineBytes), true);
    const at = 8 * height + y * lineBytes;
    rest.setInt32(at, y, true);
    rest.setInt32(at + 4, 4 * width, true);
    for (let x = 0; x < width; x += 1)
      rest.setFloat32(at + 8 + 4 * x, depths[y * width + x]!, true);
  }
  return joinBytes([head, new Uint8Array(rest.buffer)]);
};
