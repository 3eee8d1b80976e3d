/**
 * How large a sheet's file will be and how long it weaves, told from sheets that were woven: with the spread between
 * them, and from the person's own as soon as there are any.
 */
import { measuredSheets } from '../encode/measured-sheets.ts';
import type { SheetFileType } from '../encode/file-types.ts';

export interface Spread {
  readonly least: number;
  readonly most: number;
}

export interface WovenSheet {
  readonly fileType: SheetFileType;
  readonly dots: number;
  readonly bytes: number;
  readonly seconds: number;
}

const spreadOf = (figures: readonly number[]): Spread => ({
  least: Math.min(...figures),
  most: Math.max(...figures),
});

const times = ({ least, most }: Spread, by: number): Spread => ({
  least: least * by,
  most: most * by,
});

export interface Told extends Spread {
  /** `here`: from sheets woven in this visit. `elsewhere`: from those that were measured with the studio. */
  readonly from: 'here' | 'elsewhere';
}

/** Bytes of a sheet of so many dots: between those a dot of the most alike and the most varied sheet woven so far. */
export const bytesOf = (
  fileType: SheetFileType,
  dots: number,
  here: readonly WovenSheet[],
): Told => {
  const own = here.filter((sheet) => sheet.fileType === fileType);
  const measured = measuredSheets.filter((sheet) => sheet.fileType === fileType);
  const a = (sheets: readonly Pick<WovenSheet, 'bytes' | 'dots'>[]) =>
    spreadOf(sheets.map((sheet) => sheet.bytes / sheet.dots));
  // One sheet of one's own says little of another: until there are several, it only widens what was measured.
  const isOwn = own.length >= 3;
  return {
    ...times(isOwn ? a(own) : a([...measured, ...own]), dots),
    from: isOwn ? 'here' : 'elsewhere',
  };
};

/** Seconds to weave so many dots. One sheet tells the computer, so its own replace what was measured elsewhere. */
export const weaveSecondsOf = (dots: number, here: readonly WovenSheet[]): Told => {
  const sheets = here.length > 0 ? here : measuredSheets;
  return {
    ...times(spreadOf(sheets.map((sheet) => sheet.seconds / sheet.dots)), dots),
    from: here.length > 0 ? 'here' : 'elsewhere',
  };
};
