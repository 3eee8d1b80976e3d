/** What the page asks of a photo worker: the pitch out of a photo of the strip, or of a bare lens's scan. */
import type { LensSheet } from '../core/lens/lens.ts';
import type { ScanDensity } from '../core/pitch/bare/bare-lens.ts';
import type { Blur } from '../core/lens/mix.ts';
import type { MendSetup } from '../core/mend/fault.ts';
import type { MendPhotoReading } from '../core/mend/photo/terms.ts';
import type { ScanMeasure } from '../core/pitch/bare/scan.ts';
import type { PhotoCorners, PhotoReading } from '../core/pitch/photo/photo.ts';
import type { StripSpec } from '../core/pitch/strip.ts';
import type { Reply } from './errors.ts';
import type { ProofPicture } from './frames.ts';

export interface StripPhotoRequest {
  readonly id: string;
  readonly file: Blob;
  readonly name: string;
  readonly strip: StripSpec;
  readonly lens: LensSheet;
  readonly readAtMm?: number | undefined;
  readonly corners?: PhotoCorners | undefined;
}

export interface StripPhotoAnswer {
  /** As shown: after EXIF orientation. */
  readonly widthPx: number;
  readonly heightPx: number;
  readonly reading: PhotoReading;
}

export interface LensScanRequest {
  readonly id: string;
  readonly file: Blob;
  readonly name: string;
}

export interface LensScanAnswer {
  readonly widthPx: number;
  readonly heightPx: number;
  /** As the file states it. */
  readonly density?: ScanDensity;
  readonly measure: ScanMeasure;
}

export interface MendPhotoFileRequest {
  readonly id: string;
  readonly file: Blob;
  readonly name: string;
  /** Distinct pictures of what was woven, and which of them each view slot shows. */
  readonly pictures: readonly ProofPicture[];
  readonly slots: readonly number[];
  readonly setup: MendSetup;
  readonly blur: Blur;
  readonly corners?: PhotoCorners | undefined;
  readonly cameraMm?: number | undefined;
}

export interface MendPhotoAnswer {
  /** As shown: after EXIF orientation. */
  readonly widthPx: number;
  readonly heightPx: number;
  readonly reading: MendPhotoReading;
}

export interface PhotoWorker {
  /** `report` is called with 0 … 1. */
  readStrip(
    request: StripPhotoRequest,
    report: (share: number) => void,
  ): Promise<Reply<StripPhotoAnswer>>;
  readScan(
    request: LensScanRequest,
    report: (share: number) => void,
  ): Promise<Reply<LensScanAnswer>>;
  readMend(
    request: MendPhotoFileRequest,
    report: (share: number) => void,
  ): Promise<Reply<MendPhotoAnswer>>;
  cancel(id: string): void;
}
