/** Renders the frames it is sent, and writes them or compares them with the stored ones. */
import { parentPort, workerData } from 'node:worker_threads';
import { cameraAt } from './camera.mjs';
import { lightMap } from './light.mjs';
import { choosePalette, toPalette } from './palette.mjs';
import { readPng, writePng } from './png.mjs';
import { renderDepth, renderFrame } from './render.mjs';
import { pad, prepare } from './moment.mjs';
import { thrift } from './thrift.mjs';

const { sceneUrl, still, folder, check } = workerData;
const { scene } = await import(sceneUrl);
const { width, height } = scene;
let stillSun;

parentPort.on('message', (task) => {
  if (task.paletteOf) {
    const pictures = task.paletteOf.map((frame) => renderFrame(setUp(frame)));
    parentPort.postMessage({ palette: choosePalette(pictures) });
  } else parentPort.postMessage(makeFrame(task.frame, task.palette));
});

/** Everything the renderer needs to know of one frame. */
function setUp(frame) {
  const stage = scene.stageAt(frame);
  const { mesh, casts } = still ?? prepare(scene, frame);
  const makeSun = () => lightMap(mesh, casts, stage.sun.toward, 2048, scene.box);
  const sunMap = still ? (stillSun ??= makeSun()) : makeSun();
  return {
    mesh,
    sunMap,
    stage,
    width,
    height,
    camera: cameraAt(scene.job, scene.cameraXMm[frame], width, height),
  };
}

function makeFrame(frame, palette) {
  const view = setUp(frame);
  const rgb = renderFrame(view);
  const coded = palette
    ? { palette, data: toPalette(rgb, palette) }
    : { data: thrift(rgb, width, height) };
  const files = [{ name: `${scene.name}_${pad(frame + 1)}.png`, width, height, ...coded }];
  if (scene.kind === 'depth') {
    // Half the frame's size: the same window with half the pixels, so still exact at each pixel's centre.
    const half = { width: width / 2, height: height / 2 };
    const camera = cameraAt(scene.job, scene.cameraXMm[frame], half.width, half.height);
    const data = depthCodes(renderDepth({ ...view, ...half, camera }));
    files.push({ name: `depth/${scene.name}_depth_${pad(frame + 1)}.png`, ...half, data });
  }
  const notes = files.map((file) => {
    if (!check) {
      writePng(folder + file.name, file);
      return { text: `${file.name} written`, same: true };
    }
    const differ = differences(readPng(folder + file.name), file);
    return {
      text: `${file.name} ${differ ? `DIFFERS in ${differ} values` : 'as stored'}`,
      same: differ === 0,
    };
  });
  return { frame, same: notes.every((n) => n.same), text: notes.map((n) => n.text).join(', ') };
}

/** How many values of a stored file differ from what was just made. */
function differences(stored, { data, palette }) {
  if (stored.data.length !== data.length) return data.length;
  let count = 0;
  for (let i = 0; i < data.length; i++) {
    const same = palette
      ? palette[data[i]].every((code, q) => stored.palette[stored.data[i]][q] === code)
      : stored.data[i] === data[i];
    if (!same) count++;
  }
  return count;
}

/** Millimetres to 16-bit codes, linear between the scene's limits, in steps of eight codes (about 0.06 mm). */
function depthCodes(depth) {
  const { zNearMm, zFarMm } = scene;
  return Uint16Array.from(depth, (z) => {
    const t = Math.min(1, Math.max(0, (z - zNearMm) / (zFarMm - zNearMm)));
    return Math.min(65535, Math.round((t * 65535) / 8) * 8);
  });
}
