/** OpenCV, compiled to WebAssembly. */
import { createRequire } from 'node:module';

const require = createRequire(import.meta.url);

interface Loading {
  readonly Mat: unknown;
  onRuntimeInitialized?: () => void;
}

/**
 * In an object of its own: the module has a `then` that never ends when it is awaited. Its own types do not load beside
 * ours, so the caller names the few parts that it uses.
 */
export const loadOpenCv = async (): Promise<{ cv: unknown }> => {
  const cv = require('@techstark/opencv-js') as Loading;
  if (cv.Mat === undefined)
    await new Promise<void>((resolve) => (cv.onRuntimeInitialized = resolve));
  return { cv };
};
