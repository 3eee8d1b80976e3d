/**
 * Two questions about a scene's geometry.
 *
 * Does a point of known place move through the frames as relation 6 of docs/optics says? The points are projected as
 * the renderer does it, so a wrong sign or a toed-in camera would show here.
 *
 * Do the kept depth maps agree with the cameras? Every place of the first view is carried by its kept depth to the last
 * view and looked for there: it must be found at the same z, unless something nearer hides it.
 */
import { pad } from './moment.mjs';
import { readPng } from './png.mjs';
import { cameraAt, rigOf, stepShiftMm } from './camera.mjs';

export function checkGeometry(scene, folder) {
  const points = checkPoints(scene);
  return checkDepth(scene, folder) && points;
}

function checkPoints(scene) {
  const rig = rigOf(scene.job, scene.depthGain);
  const distance = scene.job.viewingDistanceMm;
  let good = true;
  for (const { name, at } of scene.landmarks) {
    const columns = rig.cameraXMm.map(
      (x) => cameraAt(scene.job, x, scene.width, scene.height).project(...at)[0],
    );
    const perMm = scene.width / scene.job.printWidthMm;
    const steps = columns.slice(1).map((c, i) => (c - columns[i]) / perMm);
    const expected = stepShiftMm(rig.stepMm, distance, at[2]);
    const worst = Math.max(...steps.map((s) => Math.abs(s - expected)));
    const ok = worst < 1e-9 && Math.sign(steps[0]) === Math.sign(at[2]);
    good &&= ok;
    console.log(
      `${ok ? 'ok  ' : 'FAIL'} ${name}: z ${at[2].toFixed(1)} mm, step ${steps[0].toFixed(4)} mm (relation 6: ${expected.toFixed(4)}), ` +
        `${(Math.abs(expected) / rig.pitchMm).toFixed(2)} p, columns ${columns[0].toFixed(2)} … ${columns.at(-1).toFixed(2)}`,
    );
  }
  return good;
}

function checkDepth(scene, folder) {
  const { zNearMm, zFarMm, frameCount } = scene;
  const width = scene.width / 2;
  const height = scene.height / 2;
  const read = (n) => readPng(`${folder}depth/${scene.name}_depth_${pad(n)}.png`).data;
  const first = read(1);
  const last = read(frameCount);
  const z = (codes, at) => zNearMm + (codes[at] / 65535) * (zFarMm - zNearMm);
  const from = cameraAt(scene.job, scene.cameraXMm[0], width, height);
  const to = cameraAt(scene.job, scene.cameraXMm[frameCount - 1], width, height);
  let found = 0;
  let hidden = 0;
  let lost = 0;
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const here = z(first, row * width + column);
      const [x] = to.project(...from.unproject(column + 0.5, row + 0.5, here));
      if (x < 1 || x >= width - 1) continue;
      // The place lands between pixels, so its neighbours count too; a slope may change z by some millimetres there.
      const near = [-1, 0, 1].map((d) => z(last, row * width + Math.floor(x) + d));
      if (near.some((there) => Math.abs(there - here) < 3)) found++;
      else if (Math.min(...near) < here) hidden++;
      else lost++;
    }
  }
  const total = found + hidden + lost;
  const percent = (n) => `${((100 * n) / total).toFixed(2)} %`;
  // Thin bars can fall between the pixels of a half-size map; a wrong sign of the cameras loses over a tenth.
  const ok = lost / total < 0.03;
  console.log(
    `${ok ? 'ok  ' : 'FAIL'} depth of view 1 carried to view ${frameCount}: ${percent(found)} found, ${percent(hidden)} hidden, ${percent(lost)} lost`,
  );
  return ok;
}
