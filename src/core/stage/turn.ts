/** Places and turns in a scene: right-handed, y up, cameras look along their own −z. */

export type Place = readonly [x: number, y: number, z: number];
/** A unit quaternion: x, y, z, w. */
export type Turn = readonly [x: number, y: number, z: number, w: number];

export const NO_TURN: Turn = [0, 0, 0, 1];

export const plus = (a: Place, b: Place, times = 1): Place => [
  a[0] + b[0] * times,
  a[1] + b[1] * times,
  a[2] + b[2] * times,
];

/** First `b`, then `a`. */
export const turnedBy = (a: Turn, b: Turn): Turn => {
  const [ax, ay, az, aw] = a;
  const [bx, by, bz, bw] = b;
  return unit([
    aw * bx + ax * bw + ay * bz - az * by,
    aw * by - ax * bz + ay * bw + az * bx,
    aw * bz + ax * by - ay * bx + az * bw,
    aw * bw - ax * bx - ay * by - az * bz,
  ]);
};

const unit = ([x, y, z, w]: Turn): Turn => {
  const size = Math.hypot(x, y, z, w);
  return size > 0 ? [x / size, y / size, z / size, w / size] : NO_TURN;
};

/** By an angle about a unit axis, anticlockwise as seen from its tip. */
export const turnAbout = ([x, y, z]: Place, angleRad: number): Turn => {
  const part = Math.sin(angleRad / 2);
  return [x * part, y * part, z * part, Math.cos(angleRad / 2)];
};

/** Where a turn takes a place: v + 2 q × (q × v + w v). */
export const turned = ([x, y, z, w]: Turn, [vx, vy, vz]: Place): Place => {
  const [tx, ty, tz] = [2 * (y * vz - z * vy), 2 * (z * vx - x * vz), 2 * (x * vy - y * vx)];
  return [
    vx + w * tx + y * tz - z * ty,
    vy + w * ty + z * tx - x * tz,
    vz + w * tz + x * ty - y * tx,
  ];
};
