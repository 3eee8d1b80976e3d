/** The glasshouse: what the driver needs to know of it. The building is in house.mjs, what grows in it in planting.mjs, what is outside in grounds.mjs. */
import { DEMO_JOB, rigOf } from '../shared/camera.mjs';
import { Mesh } from '../shared/mesh.mjs';
import { outside } from './grounds.mjs';
import { buildHouse } from './house.mjs';
import { stage } from './light.mjs';
import { plant } from './planting.mjs';

const depthGain = 0.034;

export const scene = {
  name: 'glasshouse',
  title: 'The old glasshouse',
  description:
    'Morning light through the palm house of a small coastal garden, from the hanging basket at the door to the sea beyond the end wall.',
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
  nearestMm: 127,
  farthestMm: 340,
  moving: false,
  paletteFrames: [5],
  /** Everything that throws or catches a shadow lies in here. */
  box: { x: [-135, 135], y: [-150, 110], z: [-140, 342] },
  stageAt: () => stage,
  landmarks: [
    { name: 'rim of the hanging basket', at: [42, -74, -84] },
    { name: 'crown of the first arch', at: [0, -114, -40] },
    { name: 'a point on the key plane', at: [-38, 88, 0] },
    { name: 'urn on its pedestal', at: [0, 40, 120] },
    { name: 'door in the end wall', at: [0, 60, 270] },
    { name: 'horizon', at: [-20, 6, 340] },
  ],
  build() {
    const mesh = new Mesh();
    buildHouse(mesh);
    outside(mesh);
    plant(mesh);
    return mesh;
  },
};
