/** Light that does not depend on the camera: the sun's shadow map, and soft light from the sky kept at every corner. */
import { cross, dot, normalise } from './vector.mjs';
import { rasterise } from './raster.mjs';

/** Two directions that, with `toward`, make a right-angled set. */
function basis(toward) {
  const l = normalise(toward);
  const u = normalise(cross(l, Math.abs(l[1]) > 0.9 ? [1, 0, 0] : [0, 1, 0]));
  return { l, u, v: cross(l, u) };
}

/** The scene as seen by parallel light coming from `toward`: what is nearest to the light, on a square map. */
export function lightMap(mesh, casts, toward, size, box) {
  const { l, u, v } = basis(toward);
  const corners = [];
  for (const x of box.x) for (const y of box.y) for (const z of box.z) corners.push([x, y, z]);
  const range = (axis) => {
    const along = corners.map((c) => dot(c, axis));
    return [Math.min(...along), Math.max(...along)];
  };
  const [u0, u1] = range(u);
  const [v0, v1] = range(v);
  const perU = size / (u1 - u0);
  const perV = size / (v1 - v0);
  const n = mesh.positions.length / 3;
  const sx = new Float32Array(n);
  const sy = new Float32Array(n);
  const key = new Float32Array(n);
  const p = mesh.positions;
  for (let i = 0, j = 0; i < n; i++, j += 3) {
    sx[i] = (p[j] * u[0] + p[j + 1] * u[1] + p[j + 2] * u[2] - u0) * perU;
    sy[i] = (p[j] * v[0] + p[j + 1] * v[1] + p[j + 2] * v[2] - v0) * perV;
    key[i] = p[j] * l[0] + p[j + 1] * l[1] + p[j + 2] * l[2];
  }
  const nearest = new Float32Array(new SharedArrayBuffer(size * size * 4)).fill(-1e9);
  const coverOf = (t) => (casts[mesh.materials[t]] ? -1 : 0);
  rasterise({
    triangles: mesh.triangles,
    sx,
    sy,
    key,
    width: size,
    height: size,
    nearest,
    coverOf,
  });
  return { nearest, size, l, u, v, u0, v0, perU, perV, sx, sy, key };
}

/** `count` directions spread evenly over the sphere, always the same ones. */
function sphere(count) {
  const turn = Math.PI * (3 - Math.sqrt(5));
  return Array.from({ length: count }, (_, i) => {
    const y = 1 - (2 * (i + 0.5)) / count;
    const r = Math.sqrt(1 - y * y);
    return [r * Math.cos(turn * i), y, r * Math.sin(turn * i)];
  });
}

/**
 * Fills mesh.ambient (linear RGB per corner): from each direction either the sky's light, or where something stands in
 * the way, the given bounced light. `leafy` materials take light on both faces.
 */
export function bakeSky(
  mesh,
  { casts, leafy, sky, bounce, box, directions = 40, size = 420, bias = 1.5 },
) {
  const { ambient, normals } = mesh;
  ambient.fill(0);
  const n = ambient.length / 3;
  const isLeaf = new Uint8Array(n);
  for (let t = 0; t < mesh.materials.length; t++) {
    if (leafy[mesh.materials[t]]) for (let k = 0; k < 3; k++) isLeaf[mesh.triangles[3 * t + k]] = 1;
  }
  const dirs = sphere(directions);
  for (const d of dirs) {
    const map = lightMap(mesh, casts, d, size, box);
    const light = sky(d);
    const share = 4 / directions;
    for (let i = 0, j = 0; i < n; i++, j += 3) {
      const facing = normals[j] * d[0] + normals[j + 1] * d[1] + normals[j + 2] * d[2];
      const take = isLeaf[i] ? 0.25 + 0.5 * Math.abs(facing) : facing;
      if (take <= 0) continue;
      const column = Math.min(size - 1, Math.max(0, map.sx[i] | 0));
      const row = Math.min(size - 1, Math.max(0, map.sy[i] | 0));
      const open = map.key[i] + bias >= map.nearest[row * size + column];
      const from = open ? light : bounce;
      const k = take * share * (isLeaf[i] ? 0.75 : 1);
      ambient[j] += from[0] * k;
      ambient[j + 1] += from[1] * k;
      ambient[j + 2] += from[2] * k;
    }
  }
}

/** How much of the sun reaches a place, 0…1: four looks at the map around it, turned by `which` (0…8). */
export function sunReaches(map, x, y, z, bias, softMm, which) {
  const { l, u, v, size, nearest } = map;
  const depth = x * l[0] + y * l[1] + z * l[2] + bias;
  const cu = (x * u[0] + y * u[1] + z * u[2] - map.u0) * map.perU;
  const cv = (x * v[0] + y * v[1] + z * v[2] - map.v0) * map.perV;
  let lit = 0;
  for (let k = 0; k < 4; k++) {
    const at = (which * 4 + k) * 2;
    const column = (cu + DISC[at] * softMm * map.perU) | 0;
    const row = (cv + DISC[at + 1] * softMm * map.perV) | 0;
    if (column < 0 || row < 0 || column >= size || row >= size) lit += 1;
    else if (depth >= nearest[row * size + column]) lit += 1;
  }
  return lit * 0.25;
}

/** 36 places in a disc, dealt out so that any four in a row surround the middle. */
const DISC = new Float32Array(72);
for (let i = 0; i < 36; i++) {
  const ring = Math.sqrt((Math.floor(i / 4) + 0.5) / 9);
  const angle = (i % 4) * (Math.PI / 2) + Math.floor(i / 4) * 0.71;
  DISC[2 * i] = ring * Math.cos(angle);
  DISC[2 * i + 1] = ring * Math.sin(angle);
}
