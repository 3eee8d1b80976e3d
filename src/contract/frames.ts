/** What the page asks of a frame worker: look at a file, and prepare it for a sheet. */
import type { Gains } from '../core/colour/picture-light.ts';
import type { EaseMask } from '../core/weave/ease.ts';
import type { PictureArea } from '../core/weave/picture-area.ts';
import type { SheetSpec } from '../core/weave/sheet-spec.ts';
import type { Softening } from '../core/weave/soften.ts';
import type { Reply } from './errors.ts';

/** Scene-linear light (OpenEXR) becomes printable as linear × 2^exposureStops, clipped. */
export interface DecodeOptions {
  readonly exposureStops: number;
  /** Of any picture: factors on its linear light. Left out: 1, 1, 1. */
  readonly gains?: Gains;
}

export interface FileToRead {
  /** Equal for equal content: a worker keeps the last few files decoded. */
  readonly key: string;
  readonly file: Blob;
  readonly name: string;
  /** What of the picture is measured, where it is placed by itself; left out: all of it, as it came. */
  readonly laid?: PictureArea;
}

export interface WeighRequest {
  readonly id: string;
  readonly file: Blob;
  readonly name: string;
}

export interface LookRequest {
  readonly id: string;
  readonly file: Blob;
  readonly name: string;
  readonly options: DecodeOptions;
  /** Longest side of the thumbnail, in pixels. */
  readonly thumbnailPx: number;
  /** Whether `prepare` follows under the same id: the decoded picture is kept until then. */
  readonly keep: boolean;
}

/** What a frame turned out to be. */
export interface FrameFacts {
  /** As shown: after EXIF orientation. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** For the person: "PNG, 16 bit", "OpenEXR, half float". */
  readonly kind: string;
  /** True when the file holds scene-linear light, to which the exposure applies. */
  readonly sceneLinear: boolean;
  /** Name of the embedded profile that was converted to sRGB, where there was one. */
  readonly profile?: string;
  /** A small picture to show, PNG or JPEG. */
  readonly thumbnail: Blob;
  /** Average brightness, linear light 0 … 1. */
  readonly meanLight: number;
  /** Equal for frames with the same pixels. */
  readonly fingerprint: string;
}

export interface PrepareRequest {
  readonly id: string;
  readonly file: Blob;
  readonly name: string;
  readonly options: DecodeOptions;
  readonly sheet: SheetSpec;
  readonly area: PictureArea;
  /** Samples along the ribs, the same for all frames of the sheet. */
  readonly alongSamples: number;
  /** Left out: nothing is softened. Only for upright ribs. */
  readonly softening?: Softening;
  /** Contrast taken away in some places; left out: nowhere. */
  readonly ease?: EaseMask;
  /** The colour of transparent parts and of what lies beside the picture; left out: white. */
  readonly ground?: 'white' | 'black';
  /** Longest side of the picture for the tilt proof, in pixels. 0: none wanted. */
  readonly proofPx: number;
}

/**
 * A frame reduced for one sheet: one sample a lenticule across the ribs, its own rows along them.
 * `pixels` is row-major RGB, length columns × rows × 3, Uint16 little-endian, linear light 0 … 65535.
 */
export interface PreparedFrame {
  readonly pixels: Blob;
  readonly columns: number;
  readonly rows: number;
  /** Name of `pixels` on the private disk; left out while they are in memory. */
  readonly diskName?: string;
}

/** The same for the tilt proof: row-major RGBA, 8 bit, sRGB-encoded, opaque. */
export interface ProofPicture {
  readonly pixels: Uint8Array<ArrayBuffer>;
  readonly columns: number;
  readonly rows: number;
}

export interface PrepareResult {
  readonly frame: PreparedFrame;
  readonly proof?: ProofPicture;
}

export interface FrameWorker {
  /** About how many bytes of memory decoding the file takes, from its header. */
  weigh(request: WeighRequest): Promise<Reply<number>>;
  look(request: LookRequest): Promise<Reply<FrameFacts>>;
  /** Does not decode the file again if a `look` with this id kept the picture. */
  prepare(request: PrepareRequest): Promise<Reply<PrepareResult>>;
  cancel(id: string): void;
}
