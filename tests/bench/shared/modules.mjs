// @ts-check
import { createServer } from 'vite';
import { root } from '../../tools/house.mjs';

/**
 * The project's own modules, TypeScript as it stands, for a bench in Node: `load('/src/core/…')`.
 * Close it at the end.
 */
export const openModules = async () => {
  const server = await createServer({
    root,
    configFile: false,
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
