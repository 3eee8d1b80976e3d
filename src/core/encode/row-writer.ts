/**
 * What every file type has in common. A sheet is written from top to bottom: its head, its bands in
 * order, its tail. Bands are wrapped by the workers, each on its own; the head and the tail are made
 * in the one place that binds them.
 */
import type { PageBox } from '../sheet/page-spec.ts';
import type { Ribs } from '../weave/sheet-spec.ts';

/** What a sheet says about itself. */
export interface SheetInfo {
  /** Dots in a row, and rows. */
  readonly width: number;
  readonly height: number;
  /** Dpi along a row, and down the sheet. Above 0. */
  readonly horizontalDpi: number;
  readonly verticalDpi: number;
  /** Where the print is cut and how far the picture goes on, in dots; left out: the sheet's outline. */
  readonly trim?: PageBox;
  readonly bleed?: PageBox;
  /**
   * The paper in whose middle it is to lie, millimetres. A PDF's page is then that large, unless the
   * sheet is larger; the other types hold the sheet alone.
   */
  readonly paperMm?: { readonly width: number; readonly height: number };
  /** One line. */
  readonly title?: string;
  /** May have several lines. */
  readonly description?: string;
  readonly software?: string;
  /** When it is written. Left out: the file says nothing about it. */
  readonly writtenAt?: Date;
}

/** One file: its words, and how it is divided. */
export interface SheetFile {
  readonly info: SheetInfo;
  /** Rows in each band but the last, which may have fewer. */
  readonly rowsInBand: number;
}

/** Some rows of the sheet. */
export interface WovenBand {
  /** Row-major RGB, 8 bit, sRGB-encoded: whole rows of `rowBytes`. */
  readonly rows: Uint8Array;
  readonly rowBytes: number;
  /** The row before the first, where there is one and the writer asks for it. */
  readonly above: Uint8Array | null;
  readonly ribs: Ribs;
}

/** A band as the file wants it. */
export interface BandBytes {
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Adler-32 of what was deflated, and how many bytes that was. */
  readonly adler32: number;
  readonly rawLength: number;
}

/** Bytes to be written over earlier ones. */
export interface Patch {
  readonly at: number;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** A file being written: `head`, then `took` after each band in order, then `tail`. */
export interface OpenFile {
  head(): Uint8Array<ArrayBuffer>;
  /** A band was written behind the last. */
  took(band: { byteLength: number; adler32: number; rawLength: number }): void;
  /** What ends the file, and what of its head can only be known now. */
  tail(): { readonly bytes: Uint8Array<ArrayBuffer>; readonly patch?: Patch };
}

export interface RowWriter {
  /** 1 where a band is wrapped with an eye to the row above it. */
  readonly rowsAbove: 0 | 1;
  wrapBand(band: WovenBand): BandBytes;
  /** @throws RangeError that names the field of `info` which the type cannot hold. */
  open(file: SheetFile): OpenFile;
}
