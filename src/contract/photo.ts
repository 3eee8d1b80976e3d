/** What the page asks of a photo worker: the pitch out of a photo of the strip, or of a bare lens's scan. */
import type { LensSheet } from '../core/lens/lens.ts';
import type { ScanDensity } from '../core/pitch/bare/bare-lens.ts';
import type { ScanMeasure } from '../core/pitch/bare/scan.ts';
import type { PhotoCorners, PhotoReading } from '../core/pitch/photo/photo.ts';
import type { StripSpec } from '../core/pitch/strip.ts';
import type { Reply } from './errors.ts';

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
  cancel(id: string): void;
}
