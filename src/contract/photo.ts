/** What the page asks of a photo worker: to read a scan of a bare lens, a photo of the strip or of a failed print. */
import type { MendPhotoReading, MendPhotoRequest } from '../core/mend/photo/terms.ts';
import type { ScanDensity } from '../core/pitch/bare/bare-lens.ts';
import type { ScanMeasure } from '../core/pitch/bare/scan.ts';
import type { PhotoReadRequest } from '../core/pitch/photo/photo-terms.ts';
import type { PhotoReading } from '../core/pitch/photo/photo.ts';
import type { Reply } from './errors.ts';
import type { ProofPicture } from './frames.ts';

export interface LensScanRequest {
  readonly id: string;
  readonly file: Blob;
  readonly name: string;
}

/** Of the picture as shown: after EXIF orientation. */
export interface PictureSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

export interface LensScanAnswer extends PictureSize {
  /** As the file states it. */
  readonly density?: ScanDensity;
  readonly measure: ScanMeasure;
}

export type StripPhotoRequest = LensScanRequest & Omit<PhotoReadRequest, 'pixels'>;

export interface StripPhotoAnswer extends PictureSize {
  readonly reading: PhotoReading;
}

export interface MendPhotoFileRequest
  extends LensScanRequest, Omit<MendPhotoRequest, 'pixels' | 'pictures'> {
  /** The woven pictures, each once, and which of them each view slot shows. */
  readonly pictures: readonly ProofPicture[];
  readonly slots: readonly number[];
}

export interface MendPhotoAnswer extends PictureSize {
  readonly reading: MendPhotoReading;
}

/** Tells the progress, 0 … 1. */
export type Report = (share: number) => void;

export interface PhotoWorker {
  readStrip(request: StripPhotoRequest, report: Report): Promise<Reply<StripPhotoAnswer>>;
  readScan(request: LensScanRequest, report: Report): Promise<Reply<LensScanAnswer>>;
  readMend(request: MendPhotoFileRequest, report: Report): Promise<Reply<MendPhotoAnswer>>;
  cancel(id: string): void;
}
