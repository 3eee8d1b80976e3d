/** Three-component vectors as plain arrays. Used while building scenes; the render loops unroll by hand. */
export const add = (a, b) => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const sub = (a, b) => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scale = (a, k) => [a[0] * k, a[1] * k, a[2] * k];
export const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a, b) => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const length = (a) => Math.sqrt(dot(a, a));
export const normalise = (a) => {
  const l = length(a);
  return l > 0 ? [a[0] / l, a[1] / l, a[2] / l] : [0, -1, 0];
};
/** a turned about the unit axis by an angle. */
export function turn(a, axis, angle) {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const x = cross(axis, a);
  const k = dot(axis, a) * (1 - c);
  return [
    a[0] * c + x[0] * s + axis[0] * k,
    a[1] * c + x[1] * s + axis[1] * k,
    a[2] * c + x[2] * s + axis[2] * k,
  ];
}
