/**
 * The camera rig of the depth scenes.
 *
 * Frame of reference (docs/optics): x right, y down, z from the eye into the scene, the print at z = 0; millimetres at
 * print scale, so the scene is a stage set the size of the print seen through the print as through a window.
 *
 * Relation 5 of docs/optics: equal steps of u, so equal steps along a straight line; every camera looks straight ahead
 * through the same key-plane rectangle (an off-axis, sheared frustum), never toed in. View 0 is the leftmost camera.
 *   Δ   = γ D p / (N g),  g = t / n
 *   x_i = (i − (N − 1)/2) Δ
 *   window shift, as a fraction of the frame's width = −x_i / print width
 * Relation 6: from one view to the next a point at z moves
 *   s(z) = Δ · z / (D + z)
 * on the print: with the camera for z > 0, against it for z < 0, and not at all on the key plane.
 */

/** The default job of the demo. Everything a depth scene's cameras need, in millimetres unless the name says otherwise. */
export const DEMO_JOB = Object.freeze({
  pitchLpi: 60,
  thicknessMm: 0.84,
  index: 1.5685,
  printWidthMm: 203.2,
  printHeightMm: 254,
  viewingDistanceMm: 400,
  viewSlots: 12,
});

/** The quantities of relations 1, 2 and 5 that follow from a job and a depth gain. */
export function rigOf(job, depthGain) {
  const pitchMm = 25.4 / job.pitchLpi;
  const gapMm = job.thicknessMm / job.index;
  const stepMm = (depthGain * job.viewingDistanceMm * pitchMm) / (job.viewSlots * gapMm);
  return {
    pitchMm,
    gapMm,
    /** R = t (n − 1) / n: the rib radius that puts the print in focus. */
    radiusMm: (job.thicknessMm * (job.index - 1)) / job.index,
    stepMm,
    cameraXMm: Array.from(
      { length: job.viewSlots },
      (_, i) => (i - (job.viewSlots - 1) / 2) * stepMm,
    ),
  };
}

/** Relation 6: movement on the print from one view to the next, millimetres, positive with the camera. */
export const stepShiftMm = (stepMm, distanceMm, z) => (stepMm * z) / (distanceMm + z);

/** One camera: its place, and the key-plane rectangle spread over a frame of width × height pixels. */
export function cameraAt(job, xMm, width, height) {
  const { printWidthMm, printHeightMm, viewingDistanceMm: distance } = job;
  const acrossPerMm = width / printWidthMm;
  const downPerMm = height / printHeightMm;
  return {
    xMm,
    distance,
    windowShift: -xMm / printWidthMm,
    acrossPerMm,
    downPerMm,
    /** Where a point lands in the frame, in pixels from the frame's top left corner. */
    project(x, y, z) {
      const k = distance / (distance + z);
      return [
        (xMm + (x - xMm) * k + printWidthMm / 2) * acrossPerMm,
        (y * k + printHeightMm / 2) * downPerMm,
      ];
    },
    /** The point at depth z behind a place in the frame: the inverse of project. */
    unproject(column, row, z) {
      const k = (distance + z) / distance;
      const across = column / acrossPerMm - printWidthMm / 2;
      const down = row / downPerMm - printHeightMm / 2;
      return [xMm + (across - xMm) * k, down * k, z];
    },
  };
}
