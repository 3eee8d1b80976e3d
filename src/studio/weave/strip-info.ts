/** What a strip's file says about itself. */
import type { SheetFileType } from '../../core/encode/file-types.ts';
import { sheetFileTypes } from '../../core/encode/file-types.ts';
import type { SheetInfo } from '../../core/encode/row-writer.ts';
import type { Paper } from '../../core/pitch/paper.ts';
import { stripSize } from '../../core/pitch/strip-rows.ts';
import type { StripSpec } from '../../core/pitch/strip.ts';
import { bandLabel } from '../../core/pitch/strip.ts';

const middle = ({ bandsLpi }: StripSpec): string =>
  bandLabel(bandsLpi[(bandsLpi.length - 1) / 2] as number);

export const stripFileName = (spec: StripSpec, fileType: SheetFileType): string =>
  `pitch strip ${middle(spec)} lpi at ${Math.round(spec.readFromMm)} mm${sheetFileTypes[fileType].extension}`;

export const stripInfo = (spec: StripSpec, paper: Paper, writtenAt: Date): SheetInfo => {
  const { widthDots, heightDots } = stripSize(spec);
  const [horizontalDpi, verticalDpi] =
    spec.ribs === 'upright' ? [spec.acrossDpi, spec.alongDpi] : [spec.alongDpi, spec.acrossDpi];
  return {
    width: widthDots,
    height: heightDots,
    horizontalDpi,
    verticalDpi,
    paperMm: { width: paper.widthMm, height: paper.heightMm },
    title: `Pitch strip round ${middle(spec)} LPI`,
    description:
      `Bands of ${spec.bandsLpi.map(bandLabel).join(', ')} LPI, ribs ${spec.ribs}, to be read from ` +
      `${spec.readFromMm} mm. Print at 100 %, no scaling, the same way round as the sheet.`,
    software: 'Tiltloom',
    writtenAt,
  };
};
