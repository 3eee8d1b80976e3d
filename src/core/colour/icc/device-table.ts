/**
 * A table from sRGB codes to the numbers of a printer, and dots through it. The engine fills the table once, and the
 * kernels go through it for every dot: tens of millions, for which the engine would take minutes.
 *
 * Its nodes lie on whole codes, so that what is a straight line stays exact: through the table of sRGB itself
 * every dot keeps its codes.
 */
import { kernels, layRooms, roomBytes, roomWords } from '../../numeric/kernels.ts';

/**
 * Nodes along an edge: three codes apart for sheets, five for the screen. Measured against the engine
 * (docs/decisions.md): five apart are worse than ΔE00 1 at the edge of a press's colours, three are not.
 */
export const SHEET_EDGE = 86;
export const SCREEN_EDGE = 52;
/** Enough to find where the most ink falls. */
export const INK_EDGE = 18;
/** Numbers of a node as the kernel takes them, whatever the channels. */
export const NODE_NUMBERS = 4;

export interface DeviceTable {
  /** Numbers of a dot. */
  readonly channels: 1 | 3 | 4;
  /** 16 bit, `NODE_NUMBERS` a node, zeros behind the last channel; red slowest, blue fastest. */
  readonly nodes: Uint16Array;
}

/** The sRGB codes of every node, 8 bit, in the order of the table: length edge³ × 3. */
export const nodeCodes = (edge: number): Uint8Array => {
  const step = 255 / (edge - 1);
  const codes = new Uint8Array(edge ** 3 * 3);
  let at = 0;
  for (let red = 0; red < edge; red += 1)
    for (let green = 0; green < edge; green += 1)
      for (let blue = 0; blue < edge; blue += 1) {
        codes[at++] = red * step;
        codes[at++] = green * step;
        codes[at++] = blue * step;
      }
  return codes;
};

/** @param numbers 16 bit, `channels` a node. @returns the same with zeros behind them. */
export const paddedNodes = (numbers: Uint16Array, channels: number): Uint16Array<ArrayBuffer> => {
  const count = numbers.length / channels;
  const nodes = new Uint16Array(count * NODE_NUMBERS);
  for (let node = 0; node < count; node += 1)
    for (let c = 0; c < channels; c += 1)
      nodes[node * NODE_NUMBERS + c] = numbers[node * channels + c]!;
  return nodes;
};

const putPlaces = (room: number, edge: number, step: number): void => {
  const places = roomWords(room, 512);
  for (let code = 0; code < 256; code += 1) {
    // The last node has none after it: it is reached from the one before.
    const node = Math.min(edge - 2, Math.floor(code / step));
    places[2 * code] = node;
    places[2 * code + 1] = code - node * step;
  }
};

/** @throws RangeError where the nodes are those of no edge that divides the codes evenly */
const edgeOf = ({ nodes }: DeviceTable): number => {
  const edge = Math.round(Math.cbrt(nodes.length / NODE_NUMBERS));
  if (edge < 2 || edge ** 3 * NODE_NUMBERS !== nodes.length || 255 % (edge - 1) !== 0)
    throw new RangeError(
      `nodes: expected ${NODE_NUMBERS} numbers for each node of ${SHEET_EDGE} or ${SCREEN_EDGE} along an edge, received ${nodes.length}`,
    );
  return edge;
};

/**
 * Converts dots by tetrahedral interpolation.
 * @param codes RGB, 8 bit, sRGB-encoded.
 * @returns 8 bit, dots × channels.
 * @throws RangeError where the lengths do not fit
 */
export const convertDots = (codes: Uint8Array, table: DeviceTable): Uint8Array<ArrayBuffer> => {
  const { nodes, channels } = table;
  const edge = edgeOf(table);
  const step = 255 / (edge - 1);
  if (codes.length % 3 !== 0)
    throw new RangeError(`codes: expected whole dots of 3 bytes, received ${codes.length} bytes`);
  const dots = codes.length / 3;
  const [from, places, at, out] = layRooms(
    codes.length,
    256 * 8,
    nodes.byteLength,
    dots * channels,
  );
  roomBytes(from, codes.length).set(codes);
  putPlaces(places, edge, step);
  new Uint16Array(kernels().memory.buffer, at, nodes.length).set(nodes);
  kernels().convertDots(from, dots, places, edge, step, at, channels, out);
  return roomBytes(out, dots * channels).slice();
};

/** The most ink that any dot can get, all channels together, 1 for one full channel: between nodes it is never more. */
export const mostInk = ({ nodes, channels }: DeviceTable): number => {
  let most = 0;
  for (let at = 0; at < nodes.length; at += NODE_NUMBERS) {
    let sum = 0;
    for (let c = 0; c < channels; c += 1) sum += nodes[at + c]!;
    if (sum > most) most = sum;
  }
  return most / 65535;
};
