/** What the page asks of a weave worker: bands of finished bytes, and dots for the loupe. */
import type { SheetFileType } from '../core/encode/file-types.ts';
import type { BandBytes } from '../core/encode/row-writer.ts';
import type { GangSpec } from '../core/sheet/gang/gang-spec.ts';
import type { PageSpec } from '../core/sheet/page-spec.ts';
import type { LampCurve } from '../core/colour/lamp.ts';
import type { GhostTrim } from '../core/weave/ghost.ts';
import type { PictureMix } from '../core/weave/mix-slices.ts';
import type { SheetSpec } from '../core/weave/sheet-spec.ts';
import type { TableBlob } from './colour.ts';
import type { Reply } from './errors.ts';
import type { PreparedFrame } from './frames.ts';
import type { ProofLook } from './proof.ts';

/** The frames of a sheet, each once, and which of them each view slot shows. */
export interface FrameStack {
  readonly frames: readonly PreparedFrame[];
  /** Length `viewSlots`; indices into `frames` followed by `mixes`. */
  readonly slots: readonly number[];
  /** Pictures made of `frames` while weaving; left out when every slot shows one frame. */
  readonly mixes?: readonly PictureMix[];
  /** Ghost removal before weaving; left out: none. */
  readonly trim?: GhostTrim;
  /** Left out: the print is for light that falls on it. */
  readonly lamp?: LampCurve;
}

/** What a file asks of all its bands. */
export interface BandFile {
  readonly fileType: SheetFileType;
  /** Each row from its last dot to its first; left out: as the sheet is seen from the front. */
  readonly mirrored?: true;
  /** From sRGB to the printer's own numbers; left out: the file is sRGB. */
  readonly convert?: TableBlob;
}

/** Rows [firstRow, firstRow + rowCount) of the sheet, or of the page it lies on. */
export interface RowRange {
  readonly firstRow: number;
  readonly rowCount: number;
}

export interface BandRequest extends RowRange, BandFile {
  readonly id: string;
  readonly sheet: SheetSpec;
  readonly stack: FrameStack;
  /** The page around the sheet; left out: none, and rows are the sheet's own. */
  readonly page?: PageSpec;
}

/** A band of several prints on one lens sheet; `firstRow` counts the rows of the gang's page. */
export interface GangBandRequest extends RowRange, BandFile {
  readonly id: string;
  readonly gang: GangSpec;
  /** The frames of the prints; a print's `stack` is the index here. */
  readonly stacks: readonly FrameStack[];
}

/** A window of the sheet at 1:1, in dots from its top left corner. */
export interface WindowRequest {
  readonly id: string;
  readonly sheet: SheetSpec;
  readonly stack: FrameStack;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** Left out: in the colours of the screen. */
  readonly look?: ProofLook | undefined;
}

/** Row-major RGBA, 8 bit, sRGB-encoded, opaque; length width × height × 4. */
export interface WindowResult {
  readonly pixels: Uint8ClampedArray<ArrayBuffer>;
  readonly width: number;
  readonly height: number;
}

export interface WeaveWorker {
  /**
   * One band, deflated, wrapped as the file type wants it and ready to be written. PNG: one whole IDAT
   * chunk whose data continues the zlib stream at a byte boundary. PDF: that data alone. TIFF: one whole
   * strip, a zlib stream of its own.
   */
  weaveBand(request: BandRequest): Promise<Reply<BandBytes>>;
  weaveGangBand(request: GangBandRequest): Promise<Reply<BandBytes>>;
  weaveWindow(request: WindowRequest): Promise<Reply<WindowResult>>;
  cancel(id: string): void;
}
