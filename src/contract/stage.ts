/** What the page asks of the stage worker: a 3D scene, seen and rendered through the rig’s windows. */
import type { RigLine } from '../core/stage/outside.ts';
import type { StageCamera } from '../core/stage/pose.ts';
import type { Place, Turn } from '../core/stage/turn.ts';
import type { Reply } from './errors.ts';
import type { FileToRead } from './frames.ts';

/** A camera that the scene brings along. */
export interface SceneCamera {
  readonly name: string;
  readonly place: Place;
  readonly turn: Turn;
  /** Width and height of what it sees, as shares of the distance. */
  readonly wide: number;
  readonly high: number;
}

export interface SceneFacts {
  /** For the person: "glTF, binary". */
  readonly kind: string;
  /** Millimetres that one unit is by the format; undefined where it does not say. */
  readonly unitMm: number | undefined;
  readonly triangles: number;
  readonly pictures: number;
  readonly lights: number;
  readonly cameras: readonly SceneCamera[];
  readonly clips: readonly { readonly name: string; readonly seconds: number }[];
  /** Opposite corners of the box around everything, scene units. */
  readonly box: readonly [least: Place, most: Place];
  /** What of it is not shown as it should be, each as a sentence. */
  readonly notes: readonly string[];
}

/** How the scene is drawn, whichever camera sees it. */
export interface SceneLook {
  /** sRGB, "#rrggbb". */
  readonly ground: string;
  /** Light × 2^stops. */
  readonly stops: number;
  /** Which of its animations runs, and how far it is; undefined: none. */
  readonly moment: { readonly clip: number; readonly seconds: number } | undefined;
}

/** Colours what the lens does to each depth: sharp, soft, broken up. */
export interface DepthTint {
  /** Ribs per view that a thing at infinity moves. */
  readonly ribsFar: number;
  /** From the cameras to the key plane, scene units. */
  readonly keyDistance: number;
}

export interface SceneRequest {
  readonly id: string;
  /** One file, or a zip of several. */
  readonly scene: FileToRead;
}

interface DrawRequest extends SceneRequest {
  readonly look: SceneLook;
  readonly camera: StageCamera;
  readonly widthPx: number;
  readonly heightPx: number;
  /** How many times each pixel is drawn and averaged. */
  readonly samples: number;
}

export interface LookRequest extends DrawRequest {
  readonly tint: DepthTint | undefined;
  /** The rig, drawn into the picture. */
  readonly lines: readonly RigLine[];
  /** Columns of the depth map. */
  readonly depthColumns: number;
}

/** Distances from the camera’s plane, row-major from the upper left, scene units; Infinity where nothing is. */
export interface StageDepths {
  readonly columns: number;
  readonly rows: number;
  readonly values: Float32Array<ArrayBuffer>;
}

export interface StagePicture {
  readonly picture: ImageBitmap;
  readonly depths: StageDepths;
}

export interface RenderRequest extends DrawRequest {
  /** Pixels for an inch of the print, for the file. */
  readonly dpi: number;
}

/** The depth of each pixel of a view, at its middle. */
export type DepthRequest = Omit<DrawRequest, 'samples'>;

export interface DepthFile {
  /** OpenEXR, float: distance from the camera’s plane, scene units; infinity where nothing is. */
  readonly file: Blob;
}

export interface RenderedView {
  /** PNG, 8-bit sRGB. */
  readonly file: Blob;
}

/** Called with the share of the view that is done, 0 … 1. */
export type StageReport = (share: number) => void;

export interface StageWorker {
  open(request: SceneRequest): Promise<Reply<SceneFacts>>;
  look(request: LookRequest): Promise<Reply<StagePicture>>;
  render(request: RenderRequest, report: StageReport): Promise<Reply<RenderedView>>;
  depth(request: DepthRequest): Promise<Reply<DepthFile>>;
  cancel(id: string): void;
}
