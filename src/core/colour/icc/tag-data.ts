/**
 * Checks what the tags of a profile hold, as far as the engine reads it: curves, tables and numbers must lie inside their
 * tag. Section numbers are those of ICC.1:2022; what it no longer has is ICC.1:2001-04 (version 2).
 */
import { signature, u16, u32 } from './reader.ts';
import type { Tag } from './tag-table.ts';
import { ProfileFault } from './tag-table.ts';

/** Numbers in a table of colours; the largest in use has some five million. */
const MOST_ENTRIES = 2 ** 23;

const fault = ({ name }: Tag, what: string) => new ProfileFault(`Its part “${name}” ${what}.`);

/** @param until bytes from the tag's beginning that must be inside it */
const mustHold = (tag: Tag, until: number): void => {
  if (!(until <= tag.length)) throw fault(tag, 'breaks off');
};

/** 10.6 curveType, 10.18 parametricCurveType. @returns bytes from `from` that it takes. */
const curveBytes = (bytes: Uint8Array, tag: Tag, from: number): number => {
  mustHold(tag, from + 12);
  const type = signature(bytes, tag.at + from);
  if (type === 'curv') {
    const count = u32(bytes, tag.at + from + 8);
    mustHold(tag, from + 12 + 2 * count);
    return 12 + 2 * count;
  }
  if (type !== 'para') throw fault(tag, 'holds a curve of a kind that no profile may have');
  const kind = u16(bytes, tag.at + from + 8);
  const numbers = [1, 3, 4, 5, 7][kind];
  if (numbers === undefined) throw fault(tag, 'holds a curve by a formula that does not exist');
  mustHold(tag, from + 12 + 4 * numbers);
  return 12 + 4 * numbers;
};

interface Shape {
  readonly inputs: number;
  readonly outputs: number;
}

/** Whether the numbers of channels are those that the header promises. */
const checkShape = (tag: Tag, found: Shape, { inputs, outputs }: Shape): void => {
  if (found.inputs !== inputs || found.outputs !== outputs)
    throw fault(
      tag,
      `turns ${found.inputs} numbers into ${found.outputs}; by its header it should turn ${inputs} into ${outputs}`,
    );
};

const entriesOf = (tag: Tag, steps: readonly number[], outputs: number): number => {
  const entries = steps.reduce((product, one) => product * one, outputs);
  if (steps.some((one) => one < 2)) throw fault(tag, 'holds a table with fewer than two steps');
  if (entries > MOST_ENTRIES) throw fault(tag, 'holds a table beyond all size');
  return entries;
};

/** 10.10, 10.11: lut16Type and lut8Type. */
const checkOldTable = (bytes: Uint8Array, tag: Tag, shape: Shape, wide: boolean): void => {
  mustHold(tag, wide ? 52 : 48);
  const at = (byte: number) => bytes[tag.at + byte]!;
  checkShape(tag, { inputs: at(8), outputs: at(9) }, shape);
  const { inputs, outputs } = shape;
  const entries = entriesOf(tag, new Array<number>(inputs).fill(at(10)), outputs);
  const [curveIn, curveOut] = wide
    ? [u16(bytes, tag.at + 48), u16(bytes, tag.at + 50)]
    : [256, 256];
  if (curveIn < 2 || curveOut < 2 || curveIn > 4096 || curveOut > 4096)
    throw fault(tag, 'holds curves of a length that no profile may have');
  const numbers = inputs * curveIn + entries + outputs * curveOut;
  mustHold(tag, wide ? 52 + 2 * numbers : 48 + numbers);
};

/** 10.12, 10.13: lutAToBType and lutBToAType, whose parts lie where their offsets say. */
const checkNewTable = (bytes: Uint8Array, tag: Tag, shape: Shape, toDevice: boolean): void => {
  mustHold(tag, 32);
  checkShape(tag, { inputs: bytes[tag.at + 8]!, outputs: bytes[tag.at + 9]! }, shape);
  const [b, matrix, m, table, a] = [12, 16, 20, 24, 28].map((byte) => u32(bytes, tag.at + byte));
  const curves = (from: number, count: number) => {
    for (let i = 0, at = from; i < count; i += 1) {
      const length = curveBytes(bytes, tag, at);
      at += (length + 3) & ~3;
    }
  };
  for (const offset of [b, matrix, m, table, a])
    if (offset! !== 0 && offset! < 32) throw fault(tag, 'points into its own head');
  const { inputs, outputs } = shape;
  if (b !== 0) curves(b!, toDevice ? inputs : outputs);
  if (a !== 0) curves(a!, toDevice ? outputs : inputs);
  if (m !== 0) curves(m!, 3);
  if (matrix !== 0) mustHold(tag, matrix! + 48);
  if (table === 0) {
    if (inputs !== outputs) throw fault(tag, 'has no table');
    return;
  }
  mustHold(tag, table! + 20);
  const steps = Array.from({ length: inputs }, (_, i) => bytes[tag.at + table! + i]!);
  const precision = bytes[tag.at + table! + 16]!;
  if (precision !== 1 && precision !== 2) throw fault(tag, 'holds numbers of an unknown size');
  mustHold(tag, table! + 20 + precision * entriesOf(tag, steps, outputs));
};

const tableTypes = ['mft1', 'mft2', 'mAB ', 'mBA '];

/** @throws ProfileFault @param toDevice whether it turns colours into the printer's numbers */
export const checkTable = (
  bytes: Uint8Array,
  tag: Tag,
  channels: number,
  toDevice: boolean,
): void => {
  const type = signature(bytes, tag.at);
  const shape = toDevice ? { inputs: 3, outputs: channels } : { inputs: channels, outputs: 3 };
  if (!tableTypes.includes(type)) throw fault(tag, 'is no table of a kind that is read here');
  if (type === 'mft1' || type === 'mft2') checkOldTable(bytes, tag, shape, type === 'mft2');
  else if (type !== (toDevice ? 'mBA ' : 'mAB '))
    throw fault(tag, 'holds a table that works the other way round');
  else checkNewTable(bytes, tag, shape, toDevice);
};

/** @throws ProfileFault */
export const checkCurve = (bytes: Uint8Array, tag: Tag): void => {
  curveBytes(bytes, tag, 0);
};

/** 10.31. @throws ProfileFault */
export const checkColour = (bytes: Uint8Array, tag: Tag): void => {
  if (signature(bytes, tag.at) !== 'XYZ ') throw fault(tag, 'is no colour');
  mustHold(tag, 20);
};
