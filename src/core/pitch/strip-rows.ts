/** The dots of the strip, any rows at a time; a row depends on its number only. */
import { lpi, lpiToMm } from '../units/units.ts';
import { lineRow, phaseRow } from './gratings.ts';
import type { Painting, RowSource } from './painted-rows.ts';
import { paintingSize, rowsOfPainting } from './painted-rows.ts';
import type { StripLayout } from './strip-layout.ts';
import { stripLayout } from './strip-layout.ts';
import type { StripSpec } from './strip.ts';

/** Width and height of the strip’s file, dots. */
export const stripSize = (spec: StripSpec, layout: StripLayout = stripLayout(spec)) =>
  paintingSize({ ...layout, ribs: spec.ribs });

const stripPainting = (spec: StripSpec): Painting => {
  const layout = stripLayout(spec);
  const pitch = (bandLpi: number) => lpiToMm(lpi(bandLpi));
  const { ribs, acrossDpi, bandDots } = spec;
  return {
    ribs,
    acrossDots: layout.acrossDots,
    alongDots: layout.alongDots,
    ink: layout.ink,
    gratings: [
      ...layout.bands.map((box, band) => ({
        box,
        row: lineRow(pitch(spec.bandsLpi[band]!), acrossDpi, bandDots),
      })),
      { box: layout.phase, row: phaseRow(pitch(layout.phaseLpi), acrossDpi, bandDots) },
    ],
  };
};

/** Computes the layout once; the source then gives any rows. */
export const stripSource = (spec: StripSpec): RowSource => rowsOfPainting(stripPainting(spec));

export const stripRows = (
  spec: StripSpec,
  firstRow: number,
  rowCount: number,
): Uint8Array<ArrayBuffer> => stripSource(spec)(firstRow, rowCount);
