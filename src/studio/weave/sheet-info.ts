/** A sheet's file name and the text inside the file. */
import type { SheetFileType } from '../../core/encode/file-types.ts';
import { sheetFileTypes } from '../../core/encode/file-types.ts';
import type { SheetInfo } from '../../core/encode/row-writer.ts';
import { inFileName } from '../../core/names/in-file-name.ts';
import { mmToLpi } from '../../core/units/units.ts';
import type { PageSpec } from '../../core/sheet/page-spec.ts';
import { madeForWords } from '../../job/facts/ghost.ts';
import { isMirrored } from '../../job/facts/printer.ts';
import { gridOf } from '../../job/facts/printer.ts';
import type { Job } from '../../job/schema/job.ts';
import { pitchStanding, sheetDensity, sheetSpecOf, viewingPitchOf } from '../../job/facts/sheet.ts';
import { convertedWords } from '../../job/words/colour.ts';
import { edgeWords, mirroredWords } from '../../job/words/printer.ts';

export const sheetFileName = (job: Job, fileType: SheetFileType): string => {
  const pitch = mmToLpi(viewingPitchOf(job)).toFixed(3);
  const distance = Math.round(job.print.viewingDistanceMm);
  const { extension } = sheetFileTypes[fileType];
  const side = isMirrored(job) ? ' mirrored' : '';
  return `${inFileName(job.name, 'sheet')} ${pitch} lpi at ${distance} mm${side}${extension}`;
};

/** @param page the page around the sheet; left out: none. */
export const sheetInfo = (job: Job, writtenAt: Date, page?: PageSpec): SheetInfo => {
  const { widthDots, heightDots } = page ?? sheetSpecOf(job);
  const { horizontalDpi, verticalDpi } = sheetDensity(job);
  const pitch = viewingPitchOf(job);
  return {
    width: widthDots,
    height: heightDots,
    horizontalDpi,
    verticalDpi,
    ...(page === undefined ? {} : { trim: page.trim, bleed: page.shown ?? page.woven }),
    ...(isMirrored(job) && { mirrored: true }),
    title: job.name,
    description:
      `Woven at ${mmToLpi(pitch).toFixed(4)} LPI (${pitch.toFixed(6)} mm, ${pitchStanding(job)}) ` +
      `for a viewing distance of ${job.print.viewingDistanceMm} mm, ${job.viewSlots} view slots, ` +
      `ribs ${job.ribs}. Print at 100 %, no scaling, ${edgeWords[gridOf(job).fedFirst]} first. ${mirroredWords(job)} ${convertedWords(job)} ${madeForWords(job)}`
        .replace(/ +/g, ' ')
        .trim(),
    software: 'Tiltloom',
    writtenAt,
  };
};
