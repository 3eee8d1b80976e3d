/** A pinhole camera before a strip; plane coordinates as in strip-photo.ts. */
import type { PhotoScene } from './strip-photo-scene.ts';

type Vector = readonly [number, number, number];
const dot = (a: Vector, b: Vector) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const scaled = (a: Vector, by: number): Vector => [a[0] * by, a[1] * by, a[2] * by];
const plus = (a: Vector, b: Vector): Vector => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];

/** A pinhole camera that looks at the middle of the strip, the strip filling the frame as asked. */
export const cameraOf = (scene: PhotoScene, halfWidthMm: number, halfHeightMm: number) => {
  const { distanceMm, offAxisRad, towardsRad, rollRad, widthPx, heightPx } = scene;
  const forward: Vector = [
    -Math.sin(offAxisRad) * Math.cos(towardsRad),
    -Math.sin(offAxisRad) * Math.sin(towardsRad),
    Math.cos(offAxisRad),
  ];
  const at = scaled(forward, -distanceMm);
  const level = cross([0, 1, 0], forward);
  const right0 = scaled(level, 1 / Math.hypot(...level));
  const down0 = cross(forward, right0);
  const turn = rollRad + (scene.spec.ribs === 'lying' ? -Math.PI / 2 : 0);
  const right = plus(scaled(right0, Math.cos(turn)), scaled(down0, Math.sin(turn)));
  const down = plus(scaled(right0, -Math.sin(turn)), scaled(down0, Math.cos(turn)));
  /** Where a place of the plane z = 0 is seen, for a focal length of 1, from the frame's middle. */
  const seen = (x: number, y: number) => {
    const from = plus([x, y, 0], scaled(at, -1));
    const depth = dot(from, forward);
    return [dot(from, right) / depth, dot(from, down) / depth] as const;
  };
  const reach = [-1, 1].flatMap((i) => [-1, 1].map((j) => seen(i * halfWidthMm, j * halfHeightMm)));
  const focalPx = Math.min(
    (scene.fills * widthPx) / 2 / Math.max(...reach.map(([u]) => Math.abs(u))),
    (scene.fills * heightPx) / 2 / Math.max(...reach.map(([, v]) => Math.abs(v))),
  );
  return { at, forward, right, down, seen, focalPx };
};
