/** The kingfisher: an animation from one camera that does not move. The pond is in pond.mjs, the bird in bird.mjs. */
import { DEMO_JOB } from '../shared/camera.mjs';
import { Mesh } from '../shared/mesh.mjs';
import { drawBird } from './bird.mjs';
import { POSES } from './dive.mjs';
import { stageAt, MIRRORED, WATER_Y } from './light.mjs';
import { buildPond } from './pond.mjs';
import { splash } from './splash.mjs';

export const scene = {
  name: 'kingfisher',
  title: 'The dive',
  description:
    'A kingfisher leaves its branch, drops into the pond and comes back to the branch with a fish, in twelve frames.',
  kind: 'animation',
  job: DEMO_JOB,
  cameraXMm: Array(12).fill(0),
  frameCount: 12,
  width: 600,
  height: 750,
  moving: true,
  box: { x: [-150, 150], y: [-150, 90], z: [-110, 270] },
  stageAt,
  build(frame) {
    const mesh = new Mesh();
    buildPond(mesh);
    const pose = POSES[frame];
    if (pose) drawBird(mesh, pose);
    splash(mesh, frame);
    mirror(mesh);
    return mesh;
  },
  /** Reflections get the sky's light of what they reflect. */
  afterBake(mesh) {
    mesh.ambient.copyWithin(mesh.ambient.length / 2, 0, mesh.ambient.length / 2);
  },
};

/** The whole scene once more, upside down under the water, a little unsteady; what is under water already is left out. */
function mirror(mesh) {
  const n = mesh.vertexCount;
  for (let i = 0; i < n; i++) {
    const [x, y, z] = mesh.positions.slice(3 * i, 3 * i + 3);
    const under = 2 * WATER_Y - y;
    const sway = 0.9 * Math.sin(under * 0.55 + z * 0.13) * Math.min(1, (under - WATER_Y) / 6);
    mesh.vertex(
      [x + sway, under, z],
      [mesh.normals[3 * i], -mesh.normals[3 * i + 1], mesh.normals[3 * i + 2]],
      mesh.colours.slice(3 * i, 3 * i + 3),
    );
  }
  const count = mesh.materials.length;
  const keep = [];
  for (let t = 0; t < count; t++) {
    const [a, b, c] = mesh.triangles.slice(3 * t, 3 * t + 3);
    const above = [a, b, c].some((i) => mesh.positions[3 * i + 1] <= WATER_Y);
    if (above) keep.push([a, b, c, mesh.materials[t]]);
  }
  mesh.triangles = [];
  mesh.materials = [];
  for (const [a, b, c, material] of keep) mesh.triangle(a, b, c, material);
  for (const [a, b, c, material] of keep) mesh.triangle(a + n, b + n, c + n, material + MIRRORED);
}
