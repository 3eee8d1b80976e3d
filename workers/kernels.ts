/** Loads the kernels, once for each thread. */
import { StudioError } from '../src/contract/errors.ts';
import type { Kernels } from '../src/core/numeric/kernels.ts';
import { useKernels } from '../src/core/numeric/kernels.ts';
import kernelsUrl from './kernels/index.ts?wasm';

const load = async (): Promise<void> => {
  // Not streamed: a server may serve the module under any type.
  const bytes = await (await fetch(kernelsUrl)).arrayBuffer();
  const { instance } = await WebAssembly.instantiate(bytes);
  useKernels(instance.exports as unknown as Kernels);
};

let loading: Promise<void> | undefined;

/** What could not be loaded is tried again with the next call. */
export const loadKernels = (): Promise<void> =>
  (loading ??= load().catch((error: unknown) => {
    loading = undefined;
    throw new StudioError(
      'internal',
      `The part of the studio that computes could not be loaded (${String(error)}). Reload the page, then try again.`,
    );
  }));
