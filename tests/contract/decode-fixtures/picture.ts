/**
 * The picture in every fixture, by formula, so that the tests know what was written without our reading
 * it back. `make-tiff.mjs` and `make-exr.cpp` hold the same formulas.
 */
export const WIDTH = 37;
export const HEIGHT = 29;
const SAMPLES = WIDTH * HEIGHT * 3;

/** 8-bit RGB, row-major, interleaved. */
export const picture8 = (): Uint8Array =>
  Uint8Array.from({ length: SAMPLES }, (_, i) => (i * 37 + (i >> 5) * 11) & 255);

/** 16-bit RGB, row-major, interleaved. */
export const picture16 = (): Uint16Array =>
  Uint16Array.from({ length: SAMPLES }, (_, i) => (i * 7919 + (i >> 3) * 101) & 65535);

/** Scene-linear light of channel `c` (0 red, 1 green, 2 blue), exact in half float, 0 … 2.5. */
export const light = (x: number, y: number, c: number): number =>
  ((x * (c + 1)) % 32) / 16 + y / 64 + (c === 1 ? 0.125 : 0);

/** `light` as row-major interleaved RGB. */
export const pictureLight = (): Float32Array =>
  Float32Array.from({ length: SAMPLES }, (_, i) => {
    const pixel = Math.floor(i / 3);
    return light(pixel % WIDTH, Math.floor(pixel / WIDTH), i % 3);
  });
