/** The scene on the stage: one worker holds it, and draws one picture at a time. All throw StudioError. */
import { proxy } from 'comlink';
import type { Outcome } from '../contract/errors.ts';
import type { FileToRead } from '../contract/frames.ts';
import type {
  DepthFile,
  DepthRequest,
  LookRequest,
  RenderRequest,
  RenderedView,
  SceneFacts,
  StagePicture,
  StageReport,
  StageWorker,
} from '../contract/stage.ts';
import { WorkerPool, readsPictures } from './pool.ts';
import { spawnStageWorker } from './workers.ts';

const pool = new WorkerPool<StageWorker>(spawnStageWorker, {
  size: 1,
  // A scene takes long to load: its worker is kept while the person may come back to it.
  idleMs: 300_000,
  // A stop is heard between two samples; on an emulated card one takes seconds.
  stopGraceMs: 30_000,
  ...readsPictures,
});

export const openScene = (scene: FileToRead, signal?: AbortSignal): Promise<Outcome<SceneFacts>> =>
  pool.run((worker, id) => worker.open({ scene, id }), signal);

export const lookAtStage = (
  request: Omit<LookRequest, 'id'>,
  signal?: AbortSignal,
): Promise<Outcome<StagePicture>> =>
  pool.run((worker, id) => worker.look({ ...request, id }), signal);

export const renderView = (
  request: Omit<RenderRequest, 'id'>,
  report: StageReport,
  signal: AbortSignal,
): Promise<Outcome<RenderedView>> =>
  pool.run((worker, id) => worker.render({ ...request, id }, proxy(report)), signal);

export const depthOfView = (
  request: Omit<DepthRequest, 'id'>,
  signal: AbortSignal,
): Promise<Outcome<DepthFile>> =>
  pool.run((worker, id) => worker.depth({ ...request, id }), signal);
