/** Holds the scene on the stage, and draws it. */
import { UnsignedByteType, FloatType, NearestFilter, WebGLRenderTarget } from 'three';
import type {
  DepthFile,
  DepthRequest,
  LookRequest,
  RenderRequest,
  RenderedView,
  SceneFacts,
  SceneRequest,
  StageDepths,
  StagePicture,
  StageReport,
  StageWorker,
} from '../src/contract/stage.ts';
import { depthExr } from '../src/core/encode/exr-depth.ts';
import type { FramePx, PixelRect } from '../src/core/stage/window.ts';
import type { Checkpoint } from './answer.ts';
import { Calls } from './answer.ts';
import { pngOf } from './png-of.ts';
import { drawLines } from './stage/lines.ts';
import { loadScene } from './stage/load.ts';
import { StagePainter } from './stage/painter.ts';
import type { StageSet } from './stage/set.ts';
import { setStage } from './stage/set.ts';
import type { Targets } from './stage/targets.ts';

/** Side of what is drawn at once. The largest frames would not fit a small card’s memory. */
const TILE_PX = 1024;

/** A card gives the lower row first. */
const flipped = (
  rows: Uint8Array,
  into: Uint8Array,
  { left, top, widthPx, heightPx }: PixelRect,
  frameWidthPx: number,
): void => {
  for (let y = 0; y < heightPx; y += 1)
    for (let x = 0; x < widthPx; x += 1) {
      const from = 4 * ((heightPx - 1 - y) * widthPx + x);
      const to = 3 * ((top + y) * frameWidthPx + left + x);
      into[to] = rows[from]!;
      into[to + 1] = rows[from + 1]!;
      into[to + 2] = rows[from + 2]!;
    }
};

/** One scene and one renderer: the last that were asked for. */
class Stage {
  #painter: StagePainter | undefined;
  #set: { readonly key: string; readonly set: StageSet } | undefined;

  /** @throws StudioError without WebGL 2 */
  get painter(): StagePainter {
    // A context that the browser took away does not come back with what was on it.
    if (this.#painter?.lost === true) this.#forget();
    return (this.#painter ??= new StagePainter());
  }

  /** @throws StudioError without WebGL 2 */
  needCard(): void {
    this.#painter ??= new StagePainter();
  }

  #forget(): void {
    this.#painter = undefined;
    this.#set = undefined;
  }

  async set({ scene }: SceneRequest): Promise<StageSet> {
    if (this.#set?.key === scene.key) return this.#set.set;
    this.#set?.set.dispose();
    this.#set = undefined;
    const set = setStage(await loadScene(scene), scene.name);
    this.#set = { key: scene.key, set };
    return set;
  }
}

const depthsOf = (painter: StagePainter, targets: Targets, columns: number): StageDepths => {
  const rows = Math.max(1, Math.round((columns * targets.heightPx) / targets.widthPx));
  const plain = { minFilter: NearestFilter, magFilter: NearestFilter, depthBuffer: false } as const;
  const target = new WebGLRenderTarget(columns, rows, { ...plain, type: FloatType });
  painter.depths(targets, target);
  const found = new Float32Array(4 * columns * rows);
  painter.renderer.readRenderTargetPixels(target, 0, 0, columns, rows, found);
  target.dispose();
  const values = new Float32Array(columns * rows);
  for (let y = 0; y < rows; y += 1)
    for (let x = 0; x < columns; x += 1) {
      const away = found[4 * ((rows - 1 - y) * columns + x)]!;
      values[y * columns + x] = away < 0 ? Infinity : away;
    }
  return { columns, rows, values };
};

const look = async (
  stage: Stage,
  request: LookRequest,
  checkpoint: Checkpoint,
): Promise<StagePicture> => {
  const { painter } = stage;
  const set = await stage.set(request);
  await checkpoint();
  const { widthPx, heightPx, camera, samples, tint, lines, depthColumns } = request;
  const rect = { left: 0, top: 0, widthPx, heightPx };
  const shot = { look: request.look, camera, samples, frame: rect, rect };
  const targets = await painter.draw(set, shot, checkpoint);
  const depths = depthsOf(painter, targets, depthColumns);
  painter.renderer.setSize(widthPx, heightPx, false);
  painter.show(targets, request.look, tint, null);
  drawLines(painter, lines);
  return { picture: painter.canvas.transferToImageBitmap(), depths };
};

interface Tile {
  readonly rect: PixelRect;
  readonly index: number;
  readonly count: number;
}

const tilesOf = ({ widthPx, heightPx }: FramePx): Tile[] => {
  const rects: PixelRect[] = [];
  for (let top = 0; top < heightPx; top += TILE_PX)
    for (let left = 0; left < widthPx; left += TILE_PX)
      rects.push({
        left,
        top,
        widthPx: Math.min(TILE_PX, widthPx - left),
        heightPx: Math.min(TILE_PX, heightPx - top),
      });
  return rects.map((rect, index) => ({ rect, index, count: rects.length }));
};

const render = async (
  stage: Stage,
  request: RenderRequest,
  checkpoint: Checkpoint,
  report: StageReport,
): Promise<RenderedView> => {
  const { painter } = stage;
  const set = await stage.set(request);
  const { widthPx, heightPx, camera, samples, dpi } = request;
  const rgb = new Uint8Array(3 * widthPx * heightPx);
  for (const { rect, index, count } of tilesOf(request)) {
    const shot = { look: request.look, camera, samples, frame: request, rect };
    const targets = await painter.draw(set, shot, checkpoint, (sample) =>
      report((index + sample / samples) / count),
    );
    const plain = { type: UnsignedByteType, depthBuffer: false } as const;
    const target = new WebGLRenderTarget(rect.widthPx, rect.heightPx, plain);
    painter.show(targets, request.look, undefined, target);
    const rows = new Uint8Array(4 * rect.widthPx * rect.heightPx);
    painter.renderer.readRenderTargetPixels(target, 0, 0, rect.widthPx, rect.heightPx, rows);
    target.dispose();
    flipped(rows, rgb, rect, widthPx);
    await checkpoint();
  }
  return { file: await pngOf(rgb, widthPx, heightPx, checkpoint, dpi) };
};

/** Columns of the first look, which finds where the near plane may stand. */
const FIRST_COLUMNS = 400;
/** What lies between its pixels may be a little nearer. */
const NEARER = 0.8;

const depth = async (
  stage: Stage,
  request: DepthRequest,
  checkpoint: Checkpoint,
): Promise<DepthFile> => {
  const { painter } = stage;
  const set = await stage.set(request);
  const { widthPx, heightPx, camera, look: how } = request;
  const smaller = Math.min(1, FIRST_COLUMNS / widthPx);
  const first = {
    left: 0,
    top: 0,
    widthPx: Math.max(1, Math.round(widthPx * smaller)),
    heightPx: Math.max(1, Math.round(heightPx * smaller)),
  };
  const one = { look: how, camera, samples: 1 };
  const coarse = await painter.draw(set, { ...one, frame: first, rect: first }, checkpoint);
  const nearest = depthsOf(painter, coarse, first.widthPx).values.reduce(
    (least, away) => Math.min(least, away),
    Infinity,
  );
  const near = Number.isFinite(nearest) ? { near: NEARER * nearest } : {};
  const depths = new Float32Array(widthPx * heightPx).fill(Infinity);
  for (const { rect } of tilesOf(request)) {
    const targets = await painter.draw(set, { ...one, frame: request, rect, ...near }, checkpoint);
    const tile = depthsOf(painter, targets, rect.widthPx);
    for (let y = 0; y < rect.heightPx; y += 1)
      depths.set(
        tile.values.subarray(y * rect.widthPx, (y + 1) * rect.widthPx),
        (rect.top + y) * widthPx + rect.left,
      );
  }
  return { file: new Blob([depthExr(widthPx, heightPx, depths)], { type: 'image/x-exr' }) };
};

export const createStageService = (): StageWorker => {
  const calls = new Calls();
  const stage = new Stage();
  return {
    open: calls.method(async (request: SceneRequest): Promise<SceneFacts> => {
      // Said before a large file is read: without it nothing can be shown.
      stage.needCard();
      return (await stage.set(request)).facts;
    }),
    look: calls.method(
      (request: LookRequest, checkpoint) => look(stage, request, checkpoint),
      ({ picture, depths }) => [picture, depths.values.buffer],
    ),
    render: calls.method((request: RenderRequest, checkpoint, report: StageReport) =>
      render(stage, request, checkpoint, report),
    ),
    depth: calls.method((request: DepthRequest, checkpoint) => depth(stage, request, checkpoint)),
    cancel: calls.cancel,
  };
};
