/** OpenCV, compiled to WebAssembly, for the tests of measured parallax. */
import type { Plane } from '../../../src/core/frames/parallax/plane.ts';
import { loadOpenCv } from './open-cv.ts';

/** The few parts of OpenCV that are used. */
interface Mat {
  readonly data32F: Float32Array;
  readonly data: Uint8Array;
  delete(): void;
}
interface OpenCv {
  readonly Mat: new (rows?: number, columns?: number, type?: number) => Mat;
  readonly Size: new (width: number, height: number) => object;
  readonly CV_8UC1: number;
  readonly CV_32FC2: number;
  calcOpticalFlowPyrLK(
    from: Mat,
    to: Mat,
    points: Mat,
    moved: Mat,
    status: Mat,
    error: Mat,
    window: object,
    maxLevel: number,
  ): void;
  onRuntimeInitialized?: () => void;
}

/** Where each point of `from` lies in `to`, by pyramidal Lucas–Kanade over windows of 15 pixels. */
export const opticalFlow = async (
  from: Plane,
  to: Plane,
  points: readonly (readonly [number, number])[],
): Promise<{ dx: number; dy: number }[]> => {
  const { cv } = (await loadOpenCv()) as { cv: OpenCv };
  const picture = ({ width, height, data }: Plane): Mat => {
    const mat = new cv.Mat(height, width, cv.CV_8UC1);
    mat.data.set(data.map((value) => Math.round(255 * value)));
    return mat;
  };
  const [a, b] = [picture(from), picture(to)];
  const asked = new cv.Mat(points.length, 1, cv.CV_32FC2);
  asked.data32F.set(points.flat());
  const [moved, status, error] = [new cv.Mat(), new cv.Mat(), new cv.Mat()];
  cv.calcOpticalFlowPyrLK(a, b, asked, moved, status, error, new cv.Size(15, 15), 3);
  const found = points.map(([x, y], i) => ({
    dx: (moved.data32F[2 * i] as number) - x,
    dy: (moved.data32F[2 * i + 1] as number) - y,
  }));
  for (const mat of [a, b, asked, moved, status, error]) mat.delete();
  return found;
};
