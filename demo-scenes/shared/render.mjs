/** One frame: scan-convert at 3 × 3 samples a pixel, shade what is seen, average in linear light, encode to sRGB. */
import { toCode } from './colour.mjs';
import { sunReaches } from './light.mjs';
import { rasterise } from './raster.mjs';

const SS = 3;

/**
 * @param view  { mesh, sunMap, camera, width, height, stage }
 *   stage: { materials, sun: { toward, colour, softMm }, air?(x, y, z, rgb, camera, material), shafts?, tone? }
 * @returns Uint8Array, row-major RGB, sRGB-encoded
 */
export function renderFrame({ mesh, sunMap, camera, width, height, stage }) {
  const seen = scan(mesh, camera, width, height, stage.materials);
  const rgb = new Uint8Array(width * height * 3);
  const wide = width * SS;
  const out = new Float64Array(3);
  const sum = new Float64Array(3);
  const shade = shader(mesh, sunMap, camera, stage, seen);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      sum.fill(0);
      for (let k = 0; k < SS * SS; k++) {
        const x = column * SS + (k % SS);
        const y = row * SS + ((k / SS) | 0);
        shade(y * wide + x, (x + 0.5) / SS, (y + 0.5) / SS, k, out);
        // A single glint must not outweigh the other eight samples: that is what makes edges crawl.
        sum[0] += Math.min(out[0], 3);
        sum[1] += Math.min(out[1], 3);
        sum[2] += Math.min(out[2], 3);
      }
      out[0] = sum[0] / 9;
      out[1] = sum[1] / 9;
      out[2] = sum[2] / 9;
      const at = row * width + column;
      const centre = seen.nearest[(row * SS + 1) * wide + column * SS + 1];
      if (stage.shafts)
        addShafts(
          stage,
          sunMap,
          camera,
          column + 0.5,
          row + 0.5,
          1 / centre - camera.distance,
          out,
        );
      stage.tone(out);
      for (let c = 0; c < 3; c++) rgb[3 * at + c] = Math.round(toCode(out[c]));
    }
  }
  return rgb;
}

/** z in millimetres at the centre of each pixel of a width × height map, row-major; panes are looked through. */
export function renderDepth({ mesh, camera, width, height, stage }) {
  const solid = stage.materials.map((m) => ({ cover: m.cover === undefined ? -1 : 0 }));
  const { nearest } = scan(mesh, camera, width, height, solid, 1);
  return nearest.map((key) => 1 / key - camera.distance);
}

/** Which triangle is seen at each sample, and 1/(D + z) there. */
function scan(mesh, camera, width, height, materials, ss = SS) {
  const p = mesh.positions;
  const n = p.length / 3;
  const sx = new Float32Array(n);
  const sy = new Float32Array(n);
  const key = new Float32Array(n);
  for (let i = 0, j = 0; i < n; i++, j += 3) {
    const at = camera.project(p[j], p[j + 1], p[j + 2]);
    sx[i] = at[0] * ss;
    sy[i] = at[1] * ss;
    key[i] = 1 / (camera.distance + p[j + 2]);
  }
  const samples = width * height * ss * ss;
  const nearest = new Float32Array(samples);
  const owner = new Int32Array(samples).fill(-1);
  const coverOf = (t) => materials[mesh.materials[t]].cover ?? -1;
  const { triangles } = mesh;
  rasterise({
    triangles,
    sx,
    sy,
    key,
    width: width * ss,
    height: height * ss,
    nearest,
    owner,
    coverOf,
  });
  return { sx, sy, key, nearest, owner };
}

/** Returns shade(sample, column, row, k, out): linear light seen at one sample; k (0…8) is its place in the pixel. */
function shader(mesh, sunMap, camera, stage, { sx, sy, key, nearest, owner }) {
  const { triangles, normals, colours, ambient } = mesh;
  const [lx, ly, lz] = sunMap.l;
  const sun = stage.sun;
  const n = new Float64Array(3);
  const c = new Float64Array(3);
  const a = new Float64Array(3);
  const p = new Float64Array(3);
  return (sample, column, row, k, out) => {
    const t = owner[sample];
    if (t < 0) return void out.fill(0);
    const i = triangles[3 * t],
      j = triangles[3 * t + 1],
      m = triangles[3 * t + 2];
    // Places on the triangle, first as seen, then undone for perspective by each corner's own key.
    const x = column * SS,
      y = row * SS;
    const area = (sx[j] - sx[i]) * (sy[m] - sy[i]) - (sx[m] - sx[i]) * (sy[j] - sy[i]);
    let wj = ((x - sx[i]) * (sy[m] - sy[i]) - (sx[m] - sx[i]) * (y - sy[i])) / area;
    let wm = ((sx[j] - sx[i]) * (y - sy[i]) - (x - sx[i]) * (sy[j] - sy[i])) / area;
    let wi = (1 - wj - wm) * key[i];
    wj *= key[j];
    wm *= key[m];
    const whole = 1 / (wi + wj + wm);
    wi *= whole;
    wj *= whole;
    wm *= whole;
    for (let q = 0; q < 3; q++) {
      n[q] = wi * normals[3 * i + q] + wj * normals[3 * j + q] + wm * normals[3 * m + q];
      c[q] = wi * colours[3 * i + q] + wj * colours[3 * j + q] + wm * colours[3 * m + q];
      a[q] = wi * ambient[3 * i + q] + wj * ambient[3 * j + q] + wm * ambient[3 * m + q];
    }
    const z = 1 / nearest[sample] - camera.distance;
    const at = camera.unproject(column, row, z);
    p[0] = at[0];
    p[1] = at[1];
    p[2] = z;
    const material = stage.materials[mesh.materials[t]];
    // A reflection is modelled as the thing itself turned over at the water: it is lit as the thing is.
    const eyeY = material.mirrorY === undefined ? 0 : 2 * material.mirrorY;
    if (eyeY) {
      p[1] = eyeY - p[1];
      n[1] = -n[1];
    }
    if (material.paint) material.paint(p, n, c, a);
    if (material.glow) {
      for (let q = 0; q < 3; q++) out[q] = c[q] * material.glow;
    } else {
      const inv = 1 / Math.sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2] || 1);
      let nx = n[0] * inv,
        ny = n[1] * inv,
        nz = n[2] * inv;
      const vx = camera.xMm - p[0],
        vy = eyeY - p[1],
        vz = -camera.distance - z;
      const far = Math.sqrt(vx * vx + vy * vy + vz * vz);
      if (material.leafy && nx * vx + ny * vy + nz * vz < 0) {
        nx = -nx;
        ny = -ny;
        nz = -nz;
      }
      const facing = nx * lx + ny * ly + nz * lz;
      const reach = sunReaches(
        sunMap,
        p[0] + nx * 0.3,
        p[1] + ny * 0.3,
        z + nz * 0.3,
        sun.biasMm,
        sun.softMm,
        k,
      );
      const direct = reach * Math.max(0, facing);
      // Light let through a leaf comes out yellower than light it throws back.
      const through = material.through
        ? reach * material.through * Math.max(0, -facing * 0.8 + 0.2)
        : 0;
      out[0] = c[0] * (a[0] + sun.colour[0] * (direct + through * 1.25));
      out[1] = c[1] * (a[1] + sun.colour[1] * (direct + through * 1.3));
      out[2] = c[2] * (a[2] + sun.colour[2] * (direct + through * 0.45));
      if (material.shine) {
        const hx = vx / far + lx,
          hy = vy / far + ly,
          hz = vz / far + lz;
        const nh = Math.max(
          0,
          (nx * hx + ny * hy + nz * hz) / Math.sqrt(hx * hx + hy * hy + hz * hz),
        );
        const rim = (1 - Math.max(0, (nx * vx + ny * vy + nz * vz) / far)) ** 4;
        const glint = material.shine * reach * nh ** (material.gloss ?? 30);
        for (let q = 0; q < 3; q++)
          out[q] += sun.colour[q] * glint + material.shine * 0.5 * rim * a[q];
      }
    }
    if (stage.air) stage.air(p[0], at[1], z, out, camera, material);
  };
}

/** Sunlit dust between the eye and what it sees: fourteen looks at the shadow map along the line of sight. */
function addShafts({ shafts, sun }, sunMap, camera, column, row, z, out) {
  const steps = 14;
  const from = shafts.fromZ;
  const length = z - from;
  if (length <= 0) return;
  let lit = 0;
  for (let s = 0; s < steps; s++) {
    const zs = from + ((s + 0.5) / steps) * length;
    const p = camera.unproject(column, row, zs);
    lit += sunReaches(sunMap, p[0], p[1], zs, 0, shafts.softMm, s % 9);
  }
  const k = (lit / steps) * length * shafts.density;
  for (let q = 0; q < 3; q++) out[q] += sun.colour[q] * k * shafts.tint[q];
}
