/** What scene.json says. Every field that carries a unit names it. */
import { rigOf } from './camera.mjs';
import { pad } from './moment.mjs';

export function sceneDocument(scene) {
  const frames = Array.from(
    { length: scene.frameCount },
    (_, i) => `${scene.name}_${pad(i + 1)}.png`,
  );
  const shared = {
    name: scene.name,
    title: scene.title,
    description: scene.description,
    kind: scene.kind,
    ...scene.job,
    frameWidthPx: scene.width,
    frameHeightPx: scene.height,
    frames,
  };
  if (scene.kind !== 'depth') {
    return {
      ...shared,
      depth: null,
      depthNote:
        'One camera that does not move: every frame lies on the key plane, z = 0 everywhere.',
    };
  }
  const rig = rigOf(scene.job, scene.depthGain);
  const round = (x) => Number(x.toFixed(6));
  return {
    ...shared,
    depthGain: scene.depthGain,
    cameras: {
      convention:
        'View 0 is the leftmost camera. Equal steps along x at the viewing distance from the key plane z = 0, all looking straight ahead, off-axis frusta through the same key-plane rectangle. Millimetres at print scale, x to the right.',
      stepMm: round(rig.stepMm),
      xMm: rig.cameraXMm.map(round),
      windowShift: rig.cameraXMm.map((x) => round(-x / scene.job.printWidthMm)),
    },
    depth: {
      folder: 'depth',
      files: frames.map((_, i) => `${scene.name}_depth_${pad(i + 1)}.png`),
      convention:
        '16-bit grey, half the frame size, z in millimetres at print scale at the centre of each pixel of the map: z = zNearMm + code / 65535 × (zFarMm − zNearMm), kept in steps of 8 codes. z runs from the eye into the scene, the print at 0. Measured along the viewing axis, not along the ray. Panes of glass are not counted.',
      zNearMm: scene.zNearMm,
      zFarMm: scene.zFarMm,
    },
    rig: {
      unit: 'mm',
      keyWidth: scene.job.printWidthMm,
      near: scene.nearestMm,
      far: scene.farthestMm,
    },
    ...(scene.extra ?? {}),
  };
}
