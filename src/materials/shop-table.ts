/** Forecasts side by side: in words for the screen and the page, in plain figures for a spreadsheet. */
import type { CsvCell } from '../core/encode/csv.ts';
import type { SheetFileType } from '../core/encode/file-types.ts';
import { sheetFileTypes } from '../core/encode/file-types.ts';
import type { Told } from '../core/plan/forecast.ts';
import { nameInText } from '../core/names/shown.ts';
import { formatLengthRough, sayBytes, trimmed } from '../core/units/format.ts';
import type { LengthUnit } from '../core/units/parse.ts';
import { mm, mmToLpi } from '../core/units/units.ts';
import { sayRenderHours } from '../job/facts/render-hours.ts';
import type { Total } from './costs.ts';
import { money } from './money.ts';
import type { Forecast } from './shop.ts';

export interface ShopWords {
  readonly units: LengthUnit;
  /** Of the currency; may be empty. */
  readonly mark: string;
  readonly fileType: SheetFileType;
}

const UNNAMED = 'Untitled print';

const sayTime = (seconds: number): string => {
  if (seconds < 90) return `${Math.max(1, Math.round(seconds))} s`;
  return seconds < 5400 ? `${Math.round(seconds / 60)} min` : `${trimmed(seconds / 3600, 1)} h`;
};

/** "12 to 30 MB", "40 s to 2 min"; one where both say the same. */
const sayBetween = ({ least, most }: Told, say: (figure: number) => string): string => {
  const [low, high] = [say(least), say(most)];
  if (low === high) return `about ${high}`;
  const unit = ` ${high.split(' ').at(-1) ?? ''}`;
  return `${low.endsWith(unit) ? low.slice(0, -unit.length) : low} to ${high}`;
};

const sayCost = ({ known, missing }: Total, mark: string): string => {
  if (known === undefined) return 'not known yet';
  return missing.length === 0 ? money(known, mark) : `${money(known, mark)} and more`;
};

export interface ShopTable {
  /** “What”, then a name for each job. */
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** Sentences under the table: where the figures come from, and what no sum contains. */
  readonly notes: readonly string[];
}

/** What no sum contains, by the jobs that lack it: each list once. */
const missingNotes = (forecasts: readonly Forecast[]): string[] => {
  const byList = new Map<string, string[]>();
  for (const { job, cost } of forecasts) {
    const list = cost.missing.join('; ');
    byList.set(list, [...(byList.get(list) ?? []), nameInText(job.name || UNNAMED)]);
  }
  return [...byList].flatMap(([list, names]) => {
    if (list === '') return [];
    const of = byList.size === 1 ? '' : ` of ${names.map((name) => `“${name}”`).join(', ')}`;
    return [`Not counted in the cost${of}: ${list}.`];
  });
};

const notesOf = (forecasts: readonly Forecast[]): string[] => {
  const [first] = forecasts;
  return [
    first?.bytes.from === 'here'
      ? 'File sizes: between the sheets woven in this visit.'
      : 'File sizes: between sheets of the demo prints; noise and grain take more.',
    first?.weaveSeconds.from === 'here'
      ? 'Weave times: by the sheets woven in this visit.'
      : 'Weave times: measured on another computer. Weave one sheet, and they follow yours.',
    ...(forecasts.some(({ renderHours }) => renderHours === undefined)
      ? ['Renders: time one frame, on Shoot.']
      : []),
    ...missingNotes(forecasts),
  ];
};

export const shopTable = (
  forecasts: readonly Forecast[],
  { units, mark, fileType }: ShopWords,
): ShopTable => {
  const row = (label: string, say: (of: Forecast) => string) => [label, ...forecasts.map(say)];
  const length = (lengthMm: number) => formatLengthRough(mm(lengthMm), units);
  return {
    head: ['What', ...forecasts.map(({ job }) => job.name || UNNAMED)],
    rows: [
      row(
        'Print',
        ({ job: { print } }) => `${length(print.widthMm)} × ${length(print.heightMm)} ${units}`,
      ),
      row('Lens', ({ job }) => `${trimmed(mmToLpi(mm(job.lens.pitchMm)), 2)} LPI`),
      row('View slots', ({ job }) => String(job.viewSlots)),
      row('Dots of the sheet', ({ dots }) => `${trimmed(dots / 1e6, 1)} million`),
      row(`File, ${sheetFileTypes[fileType].label}`, ({ bytes, woven }) =>
        woven?.fileType === fileType
          ? `${sayBytes(woven.bytes)}, woven`
          : sayBetween(bytes, sayBytes),
      ),
      row('Weave', ({ weaveSeconds, woven }) =>
        woven === undefined
          ? sayBetween(weaveSeconds, sayTime)
          : `${sayTime(woven.seconds)}, woven`,
      ),
      row('Renders', ({ renderHours }) => sayRenderHours(renderHours)),
      row('Cost of a print', ({ cost }) => sayCost(cost, mark)),
    ],
    notes: notesOf(forecasts),
  };
};

/** A row for each job, millimetres, bytes, seconds and hours; empty where something is not known. */
export const shopCells = (
  forecasts: readonly Forecast[],
  { fileType }: Pick<ShopWords, 'fileType'>,
): readonly (readonly CsvCell[])[] => [
  [
    'job',
    'width_mm',
    'height_mm',
    'lens_lpi',
    'view_slots',
    'dots',
    'file_type',
    'file_least_bytes',
    'file_most_bytes',
    'weave_least_s',
    'weave_most_s',
    'render_h',
    'print_cost',
    'not_in_the_cost',
  ],
  ...forecasts.map(({ job, dots, woven, bytes, weaveSeconds, renderHours, cost }) => {
    const file = woven?.fileType === fileType ? woven.bytes : undefined;
    return [
      job.name || UNNAMED,
      job.print.widthMm,
      job.print.heightMm,
      Number(mmToLpi(mm(job.lens.pitchMm)).toFixed(4)),
      job.viewSlots,
      dots,
      fileType,
      file ?? Math.round(bytes.least),
      file ?? Math.round(bytes.most),
      Number((woven?.seconds ?? weaveSeconds.least).toFixed(1)),
      Number((woven?.seconds ?? weaveSeconds.most).toFixed(1)),
      renderHours === undefined ? undefined : Number(renderHours.toFixed(3)),
      cost.known === undefined ? undefined : Number(cost.known.toFixed(4)),
      cost.missing.join('; '),
    ];
  }),
];
