// @ts-check
/**
 * `npm start`: from a bare checkout to a running studio. Installs what is missing, builds what is
 * stale, serves `dist` on localhost until Ctrl-C.
 *
 *   PORT=8080 npm start      that port or none; without it 4173, or the next that is free
 *   HOST=0.0.0.0 npm start   for the other devices of the network too, such as a phone
 *   npm start -- --build-only   stop before serving
 */
import { at, ensureBuilt, ensureInstalled, giveUp, root } from './house.mjs';

/** The port asked for, or undefined where the choice is ours. */
const portAskedFor = () => {
  const text = process.env['PORT'];
  if (text === undefined || text === '') return undefined;
  const port = Number(text);
  if (Number.isInteger(port) && port > 0 && port < 65536) return port;
  return giveUp(`PORT: expected a whole number from 1 to 65535, received "${text}".`);
};

const serve = async () => {
  const asked = portAskedFor();
  const host = process.env['HOST'] || 'localhost';
  // Only now: Vite may have been installed a moment ago.
  const { preview } = await import('vite');
  const server = await preview({
    root,
    configFile: at('vite.config.ts'),
    logLevel: 'error',
    preview: { host, port: asked ?? 4173, strictPort: asked !== undefined },
  }).catch((error) =>
    giveUp(
      `Cannot serve the studio: ${error.message}.` +
        (asked === undefined ? '' : ` Choose another PORT, or leave it out to get a free one.`),
    ),
  );
  const { local = [], network = [] } = server.resolvedUrls ?? {};
  console.log(`\nTiltloom is open at ${local[0] ?? network[0]}   (Ctrl-C ends it)\n`);
  for (const address of network) console.log(`  for a phone in this network: ${address}\n`);
  const end = () => process.exit(0);
  process.on('SIGINT', end).on('SIGTERM', end);
};

await ensureInstalled();
await ensureBuilt();
if (!process.argv.includes('--build-only')) await serve();
