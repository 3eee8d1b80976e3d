/** The strip's dots, any rows at a time: what a row becomes depends on its number alone. */
import { lpi, lpiToMm } from '../units/units.ts';
import { lineRow, phaseRow } from './gratings.ts';
import type { DotBox, StripLayout } from './strip-layout.ts';
import { stripLayout } from './strip-layout.ts';
import type { StripSpec } from './strip.ts';

/** Dots in a row of the strip's file, and rows in it. */
export const stripSize = (spec: StripSpec, layout: StripLayout = stripLayout(spec)) =>
  spec.ribs === 'upright'
    ? { widthDots: layout.acrossDots, heightDots: layout.alongDots }
    : { widthDots: layout.alongDots, heightDots: layout.acrossDots };

/** A box whose colours change across the ribs alone. `row`: RGB, 8 bit, from `box.acrossFirst`. */
interface Grating {
  readonly box: DotBox;
  readonly row: Uint8Array;
}

/** Rows [firstRow, firstRow + rowCount): row-major RGB, 8 bit, sRGB-encoded. */
export type RowSource = (firstRow: number, rowCount: number) => Uint8Array<ArrayBuffer>;

/** Lays the strip out once; the source then gives any of its rows. */
export const stripSource = (spec: StripSpec): RowSource => {
  const layout = stripLayout(spec);
  const pitch = (bandLpi: number) => lpiToMm(lpi(bandLpi));
  const gratings: Grating[] = [
    ...layout.bands.map((box, band) => ({
      box,
      row: lineRow(pitch(spec.bandsLpi[band] as number), spec.acrossDpi, spec.bandDots),
    })),
    { box: layout.phase, row: phaseRow(pitch(layout.phaseLpi), spec.acrossDpi, spec.bandDots) },
  ];
  const paint = spec.ribs === 'upright' ? uprightRow : lyingRow;
  const { widthDots, heightDots } = stripSize(spec, layout);
  return (firstRow, rowCount) => {
    if (!(firstRow >= 0 && rowCount >= 0 && firstRow + rowCount <= heightDots))
      throw new RangeError(
        `rows: expected some of ${heightDots}, received ${rowCount} from ${firstRow}`,
      );
    const out = new Uint8Array(rowCount * widthDots * 3).fill(255);
    for (let i = 0; i < rowCount; i += 1)
      paint(
        layout,
        gratings,
        firstRow + i,
        out.subarray(i * widthDots * 3, (i + 1) * widthDots * 3),
      );
    return out;
  };
};

export const stripRows = (
  spec: StripSpec,
  firstRow: number,
  rowCount: number,
): Uint8Array<ArrayBuffer> => stripSource(spec)(firstRow, rowCount);

const uprightRow = (
  layout: StripLayout,
  gratings: readonly Grating[],
  along: number,
  out: Uint8Array,
) => {
  const meets = (box: DotBox) => along >= box.alongFirst && along < box.alongLast;
  for (const { box, row } of gratings) if (meets(box)) out.set(row, box.acrossFirst * 3);
  for (const box of layout.ink)
    if (meets(box)) out.fill(0, box.acrossFirst * 3, box.acrossLast * 3);
};

/** Turned by a quarter: a row lies across the strip's along, which runs from right to left. */
const lyingRow = (
  layout: StripLayout,
  gratings: readonly Grating[],
  across: number,
  out: Uint8Array,
) => {
  const meets = (box: DotBox) => across >= box.acrossFirst && across < box.acrossLast;
  const stretch = (box: DotBox) =>
    [layout.alongDots - box.alongLast, layout.alongDots - box.alongFirst] as const;
  for (const { box, row } of gratings) {
    if (!meets(box)) continue;
    const at = (across - box.acrossFirst) * 3;
    const [from, to] = stretch(box);
    for (let x = from; x < to; x += 1)
      for (let c = 0; c < 3; c += 1) out[x * 3 + c] = row[at + c] as number;
  }
  for (const box of layout.ink) {
    if (!meets(box)) continue;
    const [from, to] = stretch(box);
    out.fill(0, from * 3, to * 3);
  }
};
