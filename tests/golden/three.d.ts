/** The parts of three 0.187 that tests check the rig against; it brings no types of its own. */
declare module 'three' {
  export class Vector3 {
    constructor(x?: number, y?: number, z?: number);
    x: number;
    y: number;
    z: number;
    clone(): Vector3;
    copy(other: Vector3): this;
    set(x: number, y: number, z: number): this;
    project(camera: PerspectiveCamera): this;
  }
  export class PerspectiveCamera {
    constructor(fovDeg?: number, aspect?: number, near?: number, far?: number);
    position: Vector3;
    lookAt(x: number, y: number, z: number): void;
    updateMatrixWorld(): void;
    setViewOffset(
      fullWidth: number,
      fullHeight: number,
      x: number,
      y: number,
      width: number,
      height: number,
    ): void;
  }
}
declare module 'three/addons/loaders/usd/USDAParser.js' {
  export class USDAParser {
    /** Nested records: "def Camera "A"" → "float focalLength" → its text or number. */
    parseText(text: string): Record<string, unknown>;
  }
}
