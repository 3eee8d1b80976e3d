/** Rows of a printed target: gratings that vary across the ribs only, and solid black over them. */
import { dpi, mm, wholeDots } from '../units/units.ts';
import type { Ribs } from '../weave/sheet-spec.ts';
import type { InkMm } from './lettering.ts';

/** Dots [first, last), across and along the ribs, from the target's first corner. */
export interface DotBox {
  readonly acrossFirst: number;
  readonly acrossLast: number;
  readonly alongFirst: number;
  readonly alongLast: number;
}

/** A box whose colours vary across the ribs only. `row`: RGB, 8 bit, from `box.acrossFirst`. */
export interface Grating {
  readonly box: DotBox;
  readonly row: Uint8Array;
}

/** Everything on a target, on white. */
export interface Painting {
  readonly ribs: Ribs;
  readonly acrossDots: number;
  readonly alongDots: number;
  readonly gratings: readonly Grating[];
  /** Solid black. */
  readonly ink: readonly DotBox[];
}

/** Rows [firstRow, firstRow + rowCount): row-major RGB, 8 bit, sRGB-encoded. */
export type RowSource = (firstRow: number, rowCount: number) => Uint8Array<ArrayBuffer>;

/** Width and height of the target’s file, dots. With lying ribs the target is turned by a quarter. */
export const paintingSize = ({
  ribs,
  acrossDots,
  alongDots,
}: Pick<Painting, 'ribs' | 'acrossDots' | 'alongDots'>) =>
  ribs === 'upright'
    ? { widthDots: acrossDots, heightDots: alongDots }
    : { widthDots: alongDots, heightDots: acrossDots };

/** @throws RangeError from the source, for rows outside the painting. */
export const rowsOfPainting = (painting: Painting): RowSource => {
  const paint = painting.ribs === 'upright' ? uprightRow : lyingRow;
  const { widthDots, heightDots } = paintingSize(painting);
  return (firstRow, rowCount) => {
    if (!(firstRow >= 0 && rowCount >= 0 && firstRow + rowCount <= heightDots))
      throw new RangeError(
        `rows: expected some of ${heightDots}, received ${rowCount} from ${firstRow}`,
      );
    const out = new Uint8Array(rowCount * widthDots * 3).fill(255);
    for (let i = 0; i < rowCount; i += 1)
      paint(painting, firstRow + i, out.subarray(i * widthDots * 3, (i + 1) * widthDots * 3));
    return out;
  };
};

const uprightRow = ({ gratings, ink }: Painting, along: number, out: Uint8Array) => {
  const meets = (box: DotBox) => along >= box.alongFirst && along < box.alongLast;
  for (const { box, row } of gratings) if (meets(box)) out.set(row, box.acrossFirst * 3);
  for (const box of ink) if (meets(box)) out.fill(0, box.acrossFirst * 3, box.acrossLast * 3);
};

/** A row across the ribs of the quarter-turned target, whose along runs from right to left. */
const lyingRow = ({ gratings, ink, alongDots }: Painting, across: number, out: Uint8Array) => {
  const meets = (box: DotBox) => across >= box.acrossFirst && across < box.acrossLast;
  const stretch = (box: DotBox) => [alongDots - box.alongLast, alongDots - box.alongFirst] as const;
  for (const { box, row } of gratings) {
    if (!meets(box)) continue;
    const at = (across - box.acrossFirst) * 3;
    const [from, to] = stretch(box);
    for (let x = from; x < to; x += 1) for (let c = 0; c < 3; c += 1) out[x * 3 + c] = row[at + c]!;
  }
  for (const box of ink) {
    if (!meets(box)) continue;
    const [from, to] = stretch(box);
    out.fill(0, from * 3, to * 3);
  }
};

/** Functions that round a length in mm, across or along the ribs, to whole dots. */
export const inDots = (spec: { readonly acrossDpi: number; readonly alongDpi: number }) => ({
  toAcross: (lengthMm: number) => wholeDots(mm(lengthMm), dpi(spec.acrossDpi)),
  toAlong: (lengthMm: number) => wholeDots(mm(lengthMm), dpi(spec.alongDpi)),
});

/** Rectangles in millimetres as whole dots, at least one each way. */
export const inkInDots = (
  ink: readonly InkMm[],
  { toAcross, toAlong }: ReturnType<typeof inDots>,
): DotBox[] =>
  ink.map((box) => ({
    acrossFirst: toAcross(box.across),
    acrossLast: Math.max(toAcross(box.across) + 1, toAcross(box.across + box.width)),
    alongFirst: toAlong(box.along),
    alongLast: Math.max(toAlong(box.along) + 1, toAlong(box.along + box.height)),
  }));
