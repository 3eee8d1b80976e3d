/**
 * A scene of exactly known depth: textured planes at several z, rendered straight from their
 * equations from any eye, through the key-plane rectangle at z = 0 (optics relation 5: an off-axis
 * frustum, never toed in). Apart from `src`: it imports nothing from there.
 *
 * Millimetres. `x` right, `y` down, both from the middle of the print; `z` away from the eye.
 */

type Rgb = readonly [number, number, number];

export interface Plane {
  readonly zMm: number;
  readonly covers: (x: number, y: number) => boolean;
  /** Linear light 0 … 1. */
  readonly colour: (x: number, y: number) => Rgb;
}

export interface SceneEye {
  readonly xMm: number;
  readonly yMm: number;
  readonly distanceMm: number;
}

/** A rectangle of the key plane. */
export interface KeyRectangle {
  readonly leftMm: number;
  readonly topMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

/** Row-major RGB, linear light 0 … 1, length columns × rows × 3. */
export interface Picture {
  readonly columns: number;
  readonly rows: number;
  readonly light: Float64Array;
}

const TAU = 2 * Math.PI;
const wave = (x: number, y: number, periodMm: number, turn: number, phase: number): number =>
  Math.sin((TAU * (x * Math.cos(turn) + y * Math.sin(turn))) / periodMm + phase);

/** Discs in a loose row along x, on no regular grid and alike neither left–right nor up–down. */
interface Scatter {
  readonly fromMm: number;
  readonly stepMm: number;
  readonly radiusMm: number;
  readonly seed: number;
}

interface Disc {
  readonly x: number;
  readonly y: number;
  readonly square: number;
}

/** Every ray asks for discs, and there are few: each is worked out once. */
const discsOf = ({ fromMm, stepMm, radiusMm, seed }: Scatter) => {
  const made = new Map<number, Disc>();
  return (i: number): Disc => {
    const before = made.get(i);
    if (before !== undefined) return before;
    const disc = {
      x: fromMm + i * stepMm + 1.7 * Math.sin(seed + 2.3 * i),
      y: 3.6 * Math.sin(seed * 3 + 1.9 * i),
      square: (radiusMm * (1 + 0.3 * Math.sin(seed + 5.1 * i))) ** 2,
    };
    made.set(i, disc);
    return disc;
  };
};

/** Jitter and radius stay below one and a half steps, so only a disc's neighbours need asking. */
const withinAny = (scatter: Scatter) => {
  const discOf = discsOf(scatter);
  return (x: number, y: number): boolean => {
    const near = Math.round((x - scatter.fromMm) / scatter.stepMm);
    for (let i = near - 1; i <= near + 1; i += 1) {
      const disc = discOf(i);
      const [dx, dy] = [x - disc.x, y - disc.y];
      if (dx * dx + dy * dy < disc.square) return true;
    }
    return false;
  };
};

const inLeaves = withinAny({ fromMm: 0.4, stepMm: 7.3, radiusMm: 1.9, seed: 1 });
const inPanes = withinAny({ fromMm: -1.2, stepMm: 6.1, radiusMm: 2.2, seed: 4 });

/** Far wall, panes on the key plane, leaves in front. Depths reach `depthMm` behind and before it. */
export const gardenScene = (depthMm: number): Plane[] => [
  {
    zMm: -depthMm,
    covers: inLeaves,
    colour: (x, y) => {
      const a = 0.5 + 0.5 * wave(x, y, 2.9, 0.4, 0.3);
      return [0.06 + 0.2 * a, 0.25 + 0.45 * a, 0.08 + 0.1 * a];
    },
  },
  {
    zMm: 0,
    covers: inPanes,
    colour: (x, y) => {
      const a = 0.5 + 0.5 * wave(x, y, 3.7, -0.7, 1.1);
      return [0.75 * a + 0.05, 0.3 + 0.2 * a, 0.12 + 0.1 * a];
    },
  },
  {
    zMm: depthMm,
    covers: () => true,
    colour: (x, y) => {
      const a = 0.5 + 0.3 * wave(x, y, 4.3, 0.2, 0) + 0.2 * wave(x, y, 3.1, -0.5, 2 + 0.1 * x);
      const b = 0.5 + 0.5 * wave(x, y, 9.7, 0.9, 0.5);
      return [0.1 + 0.3 * b, 0.2 + 0.5 * a, 0.15 + 0.7 * a * (1 - 0.3 * b)];
    },
  },
];

/** The scene turned on its side, for lying ribs: its row of leaves and panes runs down the print. */
export const turnedScene = (scene: readonly Plane[]): Plane[] =>
  scene.map(({ zMm, covers, colour }) => ({
    zMm,
    covers: (x, y) => covers(y, x),
    colour: (x, y) => colour(y, x),
  }));

/** What the eye meets first along the ray through (X, Y) of the key plane. */
const meet = (scene: readonly Plane[], eye: SceneEye, keyX: number, keyY: number): Rgb => {
  for (const plane of scene) {
    const scale = (eye.distanceMm + plane.zMm) / eye.distanceMm;
    const x = eye.xMm + (keyX - eye.xMm) * scale;
    const y = eye.yMm + (keyY - eye.yMm) * scale;
    if (plane.covers(x, y)) return plane.colour(x, y);
  }
  return [0, 0, 0];
};

/** Renders what the eye sees through the rectangle, each pixel averaged over `samples` squared rays. */
export const renderFrom = (
  scene: readonly Plane[],
  eye: SceneEye,
  key: KeyRectangle,
  columns: number,
  rows: number,
  samples = 3,
): Picture => {
  const light = new Float64Array(columns * rows * 3);
  const stepX = key.widthMm / columns / samples;
  const stepY = key.heightMm / rows / samples;
  for (let row = 0; row < rows * samples; row += 1)
    for (let column = 0; column < columns * samples; column += 1) {
      const keyX = key.leftMm + (column + 0.5) * stepX;
      const keyY = key.topMm + (row + 0.5) * stepY;
      const colour = meet(scene, eye, keyX, keyY);
      const at = (Math.floor(row / samples) * columns + Math.floor(column / samples)) * 3;
      for (let c = 0; c < 3; c += 1) light[at + c]! += colour[c]! / samples ** 2;
    }
  return { columns, rows, light };
};
