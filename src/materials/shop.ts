/** What a print takes before it leaves the shop: its file, the weave, the renders and the money. */
import type { SheetFileType } from '../core/encode/file-types.ts';
import { sheetFileTypes } from '../core/encode/file-types.ts';
import type { Told, WovenSheet } from '../core/plan/forecast.ts';
import { bytesOf, weaveSecondsOf } from '../core/plan/forecast.ts';
import { renderHoursOf } from '../job/facts/render-hours.ts';
import { sheetSpecOf } from '../job/facts/sheet.ts';
import type { Job } from '../job/schema/job.ts';
import type { Total } from './costs.ts';
import { costsOf } from './costs.ts';
import { chosenOf } from './cut-list.ts';
import type { Shelves } from './shelves.ts';

/** More side by side nobody can read on a page. */
export const MOST_COMPARED = 4;

const dotsOf = (job: Job): number => {
  const { widthDots, heightDots } = sheetSpecOf(job);
  return widthDots * heightDots;
};

export interface Forecast {
  readonly job: Job;
  readonly dots: number;
  /** The file that was woven from the job as it is now; left out where none was. */
  readonly woven?: WovenSheet;
  readonly bytes: Told;
  readonly weaveSeconds: Told;
  /** For all frames; undefined as long as none is timed. */
  readonly renderHours: number | undefined;
  /** Of one print. */
  readonly cost: Total;
}

export interface ForecastSetting {
  readonly shelves: Shelves;
  readonly fileType: SheetFileType;
  /** Sheets that were woven in this visit. */
  readonly here: readonly WovenSheet[];
}

/** The sheet that was woven from the job as it is now; undefined for a file of a kind that is not known. */
export const wovenSheetOf = (
  job: Job,
  file: { readonly fileName: string; readonly byteLength: number },
  seconds: number,
): WovenSheet | undefined => {
  const fileType = (Object.keys(sheetFileTypes) as SheetFileType[]).find((type) =>
    file.fileName.endsWith(sheetFileTypes[type].extension),
  );
  return fileType && { fileType, dots: dotsOf(job), bytes: file.byteLength, seconds };
};

/** @param woven its own sheet, where one is up to date */
export const forecastOf = (
  job: Job,
  { shelves, fileType, here }: ForecastSetting,
  woven?: WovenSheet,
): Forecast => {
  const dots = dotsOf(job);
  return {
    job,
    dots,
    ...(woven === undefined ? {} : { woven }),
    bytes: bytesOf(fileType, dots, here),
    weaveSeconds: weaveSecondsOf(dots, here),
    renderHours: renderHoursOf(job),
    cost: costsOf(job, chosenOf(job, shelves)).print,
  };
};
