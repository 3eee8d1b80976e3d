// @ts-check
import { createServer } from 'vite';
import { kernelsPlugin } from '../../settings/kernels.mjs';
import { at, root } from '../../tools/house.mjs';

/** In Node the colour engine reads its code from the disk, not from an address. */
const engineFromDisk = {
  name: 'engine-from-disk',
  enforce: /** @type {const} */ ('pre'),
  load: (/** @type {string} */ id) =>
    id.endsWith('lcms.wasm?url')
      ? `export default ${JSON.stringify(at('node_modules/lcms-wasm/dist/lcms.wasm'))}`
      : undefined,
};

/**
 * The project's own modules, TypeScript as it stands, for a bench in Node: `load('/src/core/…')`.
 * Close it at the end.
 */
export const openModules = async () => {
  const server = await createServer({
    root,
    configFile: false,
    plugins: [engineFromDisk, kernelsPlugin()],
    server: { middlewareMode: true, hmr: false, ws: false },
    appType: 'custom',
    logLevel: 'error',
    optimizeDeps: { noDiscovery: true },
  });
  return {
    load: (/** @type {string} */ path) => server.ssrLoadModule(path),
    close: () => server.close(),
  };
};
