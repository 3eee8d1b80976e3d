/**
 * Triangles with a normal and a colour at each corner. Everything in the scenes is made of these, so perspective,
 * shadows and the kept depth all come from the same geometry.
 */
import { add, cross, dot, normalise, scale, sub } from './vector.mjs';

/** About where the cameras stand; only used to tell a sheet's front from its back. */
const EYE = [0, 0, -400];

export class Mesh {
  positions = [];
  normals = [];
  colours = [];
  triangles = [];
  materials = [];

  get vertexCount() {
    return this.positions.length / 3;
  }

  vertex(p, n, c) {
    this.positions.push(p[0], p[1], p[2]);
    this.normals.push(n[0], n[1], n[2]);
    this.colours.push(c[0], c[1], c[2]);
    return this.positions.length / 3 - 1;
  }

  triangle(a, b, c, material) {
    this.triangles.push(a, b, c);
    this.materials.push(material);
  }

  /**
   * A (rows + 1) × (columns + 1) grid of corners. `at(u, v)` gives { p, c, n? }. Without n the normals are taken from the
   * neighbours, on the side that faces the cameras: such sheets are only ever seen from there.
   */
  surface(columns, rows, material, at) {
    const first = this.vertexCount;
    const small = 1e-3;
    let facing = 0;
    for (let j = 0; j <= rows; j++) {
      for (let i = 0; i <= columns; i++) {
        const u = i / columns;
        const v = j / rows;
        const here = at(u, v);
        let normal = here.n;
        if (!normal) {
          const along = sub(at(Math.min(1, u + small), v).p, at(Math.max(0, u - small), v).p);
          const down = sub(at(u, Math.min(1, v + small)).p, at(u, Math.max(0, v - small)).p);
          normal = normalise(cross(along, down));
          facing += dot(normal, sub(EYE, here.p));
        }
        this.vertex(here.p, normal, here.c);
      }
    }
    if (facing < 0)
      for (let i = first * 3; i < this.normals.length; i++) this.normals[i] = -this.normals[i];
    for (let j = 0; j < rows; j++) {
      for (let i = 0; i < columns; i++) {
        const a = first + j * (columns + 1) + i;
        const b = a + columns + 1;
        this.triangle(a, b, a + 1, material);
        this.triangle(a + 1, b, b + 1, material);
      }
    }
  }

  /** A flat four-cornered patch, divided so that baked light has somewhere to vary. */
  quad(p00, p10, p11, p01, colour, material, columns = 1, rows = 1) {
    let n = normalise(cross(sub(p10, p00), sub(p01, p00)));
    if (dot(n, sub(EYE, p00)) < 0) n = scale(n, -1);
    this.surface(columns, rows, material, (u, v) => {
      const top = add(scale(p00, 1 - u), scale(p10, u));
      const bottom = add(scale(p01, 1 - u), scale(p11, u));
      return { p: add(scale(top, 1 - v), scale(bottom, v)), c: colour, n };
    });
  }

  /** An upright box, given two opposite corners. `grain` is the largest patch in millimetres. */
  box(a, b, colour, material, grain = 20) {
    const [x0, y0, z0] = a;
    const [x1, y1, z1] = b;
    const parts = (d) => Math.max(1, Math.ceil(Math.abs(d) / grain));
    const nx = parts(x1 - x0);
    const ny = parts(y1 - y0);
    const nz = parts(z1 - z0);
    const face = (p, q, r, s, i, j) => this.quad(p, q, r, s, colour, material, i, j);
    face([x0, y0, z0], [x1, y0, z0], [x1, y1, z0], [x0, y1, z0], nx, ny);
    face([x0, y0, z1], [x1, y0, z1], [x1, y1, z1], [x0, y1, z1], nx, ny);
    face([x0, y0, z0], [x0, y0, z1], [x0, y1, z1], [x0, y1, z0], nz, ny);
    face([x1, y0, z0], [x1, y0, z1], [x1, y1, z1], [x1, y1, z0], nz, ny);
    face([x0, y0, z0], [x1, y0, z0], [x1, y0, z1], [x0, y0, z1], nx, nz);
    face([x0, y1, z0], [x1, y1, z0], [x1, y1, z1], [x0, y1, z1], nx, nz);
  }

  /** A turned shape about an upright axis: profile is a list of [radius, y], outside from top to bottom. */
  lathe(cx, cz, profile, sides, material, colourAt) {
    const last = profile.length - 1;
    this.surface(sides, last, material, (u, v) => {
      const i = Math.round(v * last);
      const before = profile[Math.max(0, i - 1)];
      const after = profile[Math.min(last, i + 1)];
      const out = after[1] - before[1];
      const angle = u * 2 * Math.PI;
      const p = [
        cx + profile[i][0] * Math.sin(angle),
        profile[i][1],
        cz - profile[i][0] * Math.cos(angle),
      ];
      const n = normalise([out * Math.sin(angle), before[0] - after[0], -out * Math.cos(angle)]);
      return { p, c: colourAt(u, v, p), n };
    });
  }

  /** A round bar along a list of points; radiusAt and colourAt take the place along it, 0…1. */
  tube(points, radiusAt, sides, material, colourAt) {
    const last = points.length - 1;
    this.surface(sides, last, material, (u, v) => {
      const i = Math.min(last, Math.round(v * last));
      const along = normalise(sub(points[Math.min(last, i + 1)], points[Math.max(0, i - 1)]));
      const aside = normalise(cross(along, Math.abs(along[1]) > 0.9 ? [1, 0, 0] : [0, 1, 0]));
      const other = cross(along, aside);
      const angle = u * 2 * Math.PI;
      const n = add(scale(aside, Math.cos(angle)), scale(other, Math.sin(angle)));
      return { p: add(points[i], scale(n, radiusAt(v))), c: colourAt(v), n };
    });
  }

  ball(centre, radii, columns, rows, material, colourAt) {
    this.surface(columns, rows, material, (u, v) => {
      const around = u * 2 * Math.PI;
      const down = v * Math.PI;
      const d = [
        Math.sin(down) * Math.sin(around),
        -Math.cos(down),
        -Math.sin(down) * Math.cos(around),
      ];
      const n = normalise([d[0] / radii[0], d[1] / radii[1], d[2] / radii[2]]);
      const p = [
        centre[0] + d[0] * radii[0],
        centre[1] + d[1] * radii[1],
        centre[2] + d[2] * radii[2],
      ];
      return { p, c: colourAt(d, p), n };
    });
  }

  /** Typed arrays in shared memory, so that the render workers need no copies. */
  freeze() {
    const shared = (Type, list) => {
      const out = new Type(new SharedArrayBuffer(list.length * Type.BYTES_PER_ELEMENT));
      out.set(list);
      return out;
    };
    return {
      positions: shared(Float32Array, this.positions),
      normals: shared(Float32Array, this.normals),
      colours: shared(Float32Array, this.colours),
      ambient: shared(Float32Array, new Float32Array(this.positions.length)),
      triangles: shared(Uint32Array, this.triangles),
      materials: shared(Uint8Array, this.materials),
    };
  }
}
