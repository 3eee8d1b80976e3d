// @ts-check
/**
 * Two builds of the studio that differ in every bench and worker, and a server that goes over from one to the
 * other between two requests, as a host does when somebody puts a new version there.
 */
import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize } from 'node:path';
import { build } from 'vite';
import { at } from '../tools/house.mjs';

/**
 * Marks what runs: a page can be asked which versions its parts were of. Every chunk's name changes with it.
 * @returns {import('vite').Plugin}
 */
const marked = (/** @type {string} */ version) => ({
  name: 'marked',
  transform: (code, id) =>
    /\/src\/(main\.tsx|benches\/\w+\/index\.tsx?)$|\/workers\/.*\.worker\.ts$/.test(id)
      ? `${code}\n(globalThis.studioVersions ??= []).push('${version}');`
      : null,
});

export const buildVersion = async (/** @type {string} */ version, /** @type {string} */ outDir) => {
  await build({
    root: at('.'),
    configFile: at('vite.config.ts'),
    logLevel: 'error',
    plugins: [marked(version)],
    worker: { plugins: () => [marked(version)] },
    build: { outDir, emptyOutDir: true },
  });
};

/** @type {Record<string, string>} */
const types = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.wasm': 'application/wasm',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
  '.webmanifest': 'application/manifest+json',
};

/** @typedef {{ path: string, found: boolean }} Request */

/**
 * Serves the folder that `choose` gives for each path. What the browser may keep by itself it must ask for again,
 * so that every request is seen.
 */
const serveFolders = async (/** @type {(path: string) => string | Promise<string>} */ choose) => {
  /** @type {Request[]} */
  const requests = [];
  const server = createServer(async (request, response) => {
    const { pathname } = new URL(request.url ?? '/', 'http://localhost');
    const path = normalize(pathname === '/' ? '/index.html' : pathname);
    /** @type {Buffer | undefined} */
    let body;
    try {
      body = readFileSync(join(await choose(path), path));
    } catch {
      // Not there in this version.
    }
    requests.push({ path, found: body !== undefined });
    response.writeHead(body === undefined ? 404 : 200, {
      'Content-Type': types[extname(path)] ?? 'application/octet-stream',
      'Cache-Control': 'no-cache',
    });
    response.end(body);
  });
  await new Promise((resolve) => server.listen(0, 'localhost', () => resolve(undefined)));
  const address = server.address();
  return {
    address: `http://localhost:${typeof address === 'object' ? address?.port : ''}/`,
    requests,
    close: () => {
      server.closeAllConnections();
      server.close();
    },
  };
};

/** A test that fails leaves its visit open, and an open server would keep the run from ending. */
const visits = new Set();
export const endVisits = async () => {
  for (const end of visits) await end();
};

/** A first visit in a profile of its own, on a server of its own that holds version 1. */
export const beginVisit = async (
  /** @type {import('playwright').Browser} */ browser,
  /** @type {(version: string) => string} */ folderOf,
  /** @type {import('playwright').BrowserContextOptions} */ options,
) => {
  let version = 'v1';
  /** @type {(path: string) => string | Promise<string>} */
  let choose = () => version;
  const server = await serveFolders(async (path) => folderOf(await choose(path)));
  const context = await browser.newContext({
    viewport: { width: 1440, height: 900 },
    ...options,
  });
  /** @type {string[]} */
  const faults = [];
  context.on('weberror', (error) => faults.push(error.error().message));
  const open = async (hash = '#/weave') => {
    const page = await context.newPage();
    await page.goto(server.address + hash);
    return page;
  };
  const close = async () => {
    visits.delete(close);
    await context.close();
    server.close();
  };
  visits.add(close);
  return {
    server,
    context,
    faults,
    open,
    deploy: (/** @type {string} */ next) => {
      version = next;
      choose = () => version;
    },
    /** What the server gives path by path, until the next deployment. */
    giveBy: (/** @type {typeof choose} */ next) => (choose = next),
    close,
  };
};
