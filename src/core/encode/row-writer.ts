/**
 * What all file types share. A sheet is written from top to bottom: head, bands in order, tail. Workers wrap the
 * bands, each by itself; one worker makes the head and the tail and puts the bands between them.
 */
import type { PageBox } from '../sheet/page-spec.ts';
import type { DeviceSpace } from '../colour/icc/device-space.ts';
import { deviceChannels } from '../colour/icc/device-space.ts';
import type { Ribs } from '../weave/sheet-spec.ts';

/** Numbers of a dot: grey, RGB, CMYK. */
export type Channels = 1 | 3 | 4;

/** The printer's own numbers instead of sRGB, and the profile that says what they mean. */
export interface SheetColour {
  readonly space: DeviceSpace;
  readonly use: 'printer' | 'working';
  /** Of the profile. */
  readonly name: string;
  readonly profile: Uint8Array;
}

/** What a file says about its sheet. */
export interface SheetInfo {
  /** Dots in a row, and rows. */
  readonly width: number;
  readonly height: number;
  /** Dpi along a row, and down the sheet. Above 0. */
  readonly horizontalDpi: number;
  readonly verticalDpi: number;
  /** The edges of the cut and of the bleed, in dots; left out: the sheet’s outline. */
  readonly trim?: PageBox;
  readonly bleed?: PageBox;
  /**
   * The paper that a PDF centres the sheet on, millimetres: its page is that large, or as large as the sheet if that
   * is larger. The other types hold the sheet alone.
   */
  readonly paperMm?: { readonly width: number; readonly height: number };
  /** The dots are written from right to left, trim and bleed with them, which are given as seen from the front. */
  readonly mirrored?: true;
  /** Left out: the dots are sRGB. */
  readonly colour?: SheetColour;
  /** One line. */
  readonly title?: string;
  /** May have several lines. */
  readonly description?: string;
  readonly software?: string;
  /** When the file is written; left out: the file does not say. */
  readonly writtenAt?: Date;
}

export const channelsOf = ({ colour }: Pick<SheetInfo, 'colour'>): Channels =>
  colour === undefined ? 3 : deviceChannels[colour.space];

/** The content of one file and how it is divided. */
export interface SheetFile {
  readonly info: SheetInfo;
  /** Rows in each band; the last may have fewer. */
  readonly rowsInBand: number;
}

/** A band of woven rows. */
export interface WovenBand {
  /** Row-major, 8 bit: sRGB, or the numbers of a printer; whole rows of `rowBytes`. */
  readonly rows: Uint8Array;
  readonly rowBytes: number;
  /** Left out: 3. */
  readonly channels?: Channels;
  /** The row before the first; null where there is none or the writer needs none. */
  readonly above: Uint8Array | null;
  readonly ribs: Ribs;
}

/** A band as it stands in the file. */
export interface BandBytes {
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Adler-32 of the bytes before deflate, and their number. */
  readonly adler32: number;
  readonly rawLength: number;
  /** Where the file must find parts of the band: the length of each, in their order. */
  readonly pieces?: readonly number[];
}

/** What the rest of a file needs to know of a band that is in it. */
export interface BandFacts extends Omit<BandBytes, 'bytes'> {
  readonly byteLength: number;
}

export const factsOf = ({ bytes, ...facts }: BandBytes): BandFacts => ({
  ...facts,
  byteLength: bytes.length,
});

/** Bytes that replace earlier ones. */
export interface Patch {
  readonly at: number;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** A file being written. Call `head`, then `took` after each band in order, then `tail`. */
export interface OpenFile {
  head(): Uint8Array<ArrayBuffer>;
  /** Notes that a band has been written after the last one. */
  took(band: BandFacts): void;
  /** The end of the file, and a patch of the head where its content is known only now. */
  tail(): { readonly bytes: Uint8Array<ArrayBuffer>; readonly patch?: Patch };
}

export interface RowWriter {
  /** 1 where a band needs the row above it. */
  readonly rowsAbove: 0 | 1;
  /** A band's rows are a multiple of this, the sheet's last aside. @param width dots in a row. */
  readonly bandStep: (width: number, channels?: Channels) => number;
  wrapBand(band: WovenBand): BandBytes;
  /** @throws RangeError that names the field of `info` which the file type cannot hold. */
  open(file: SheetFile): OpenFile;
}

/**
 * Checks the size in dots and the dpi.
 * @param largest largest size in dots that the file type can hold.
 * @throws RangeError that names the field and what was received.
 */
export const checkSheet = (info: SheetInfo, largest: number): void => {
  for (const field of ['width', 'height'] as const)
    if (!(Number.isInteger(info[field]) && info[field] >= 1 && info[field] <= largest))
      throw new RangeError(
        `${field}: expected a whole number from 1 to ${largest}, received ${info[field]}`,
      );
  for (const field of ['horizontalDpi', 'verticalDpi'] as const)
    if (!(info[field] > 0 && info[field] < 2 ** 32))
      throw new RangeError(`${field}: expected dpi above 0, received ${info[field]}`);
};
