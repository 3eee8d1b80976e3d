/** The lighthouse: depth and change in one set. The weather is in weather.mjs, the land in coast.mjs, the rest in sights.mjs. */
import { DEMO_JOB, rigOf } from '../shared/camera.mjs';
import { Mesh } from '../shared/mesh.mjs';
import { buildCoast } from './coast.mjs';
import { LAMP } from './place.mjs';
import { buildSights } from './sights.mjs';
import { stageAt } from './weather.mjs';

const depthGain = 0.034;

export const scene = {
  name: 'lighthouse',
  title: 'Fog coming in',
  description:
    'A lighthouse on its headland: clear air from the left, and as the eye moves right sea fog rolls in and the lamp is lit.',
  kind: 'depth',
  job: DEMO_JOB,
  depthGain,
  cameraXMm: rigOf(DEMO_JOB, depthGain).cameraXMm,
  frameCount: 12,
  width: 600,
  height: 750,
  zNearMm: -140,
  zFarMm: 360,
  /** What stands farthest before and behind the key plane, rounded up from the depth maps. */
  nearestMm: 112,
  farthestMm: 340,
  moving: false,
  box: { x: [-160, 190], y: [-150, 115], z: [-130, 345] },
  stageAt,
  extra: {
    change:
      'Frame i is seen from camera i with fog of step i: the fog bank comes from the horizon towards the eye, evenly over the twelve frames. Depth is of the solid scene, fog not counted.',
  },
  landmarks: [
    { name: 'nearest gull', at: [-46, -26, -96] },
    { name: 'a flower on the knoll', at: [-60, 66, -84] },
    { name: 'a point on the key plane', at: [40, 100, 0] },
    { name: 'lamp', at: LAMP },
    { name: 'mast of the boat', at: [-50, 60, 104] },
    { name: 'horizon', at: [-60, 100, 340] },
  ],
  build() {
    const mesh = new Mesh();
    buildCoast(mesh);
    buildSights(mesh);
    return mesh;
  },
};
