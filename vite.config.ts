/// <reference types="vitest/config" />
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import react from '@vitejs/plugin-react';
import type { Plugin } from 'vite';
import { defineConfig } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { licencePlugins } from './tests/settings/licences.ts';
import { acceptedTypes } from './src/files/accepted.ts';
import { kernelsPlugin } from './tests/settings/kernels.mjs';
import { contentPolicy, contentPolicyHeader } from './tests/settings/content-policy.ts';

/** Into the built page alone: the development server reloads by means that the policy refuses. */
const policyInPage: Plugin = {
  name: 'policy-in-page',
  apply: 'build',
  transformIndexHtml: () => [
    {
      tag: 'meta',
      attrs: { 'http-equiv': 'Content-Security-Policy', content: contentPolicy },
      injectTo: 'head-prepend',
    },
  ],
};

const icons = { 'icon.svg': 'src/favicon.svg', 'icon-maskable.svg': 'src/icon-maskable.svg' };

/** Names under assets hold a digest of what is in them: the browser need not ask for one twice. */
const keptByBrowser: Plugin = {
  name: 'kept-by-browser',
  configurePreviewServer: ({ middlewares }) => {
    middlewares.use(({ url = '' }, response, next) => {
      if (url.startsWith('/assets/')) {
        const writeHead = response.writeHead.bind(response);
        // The server names its own rule as it begins to answer.
        response.writeHead = ((code: number, headers: object) =>
          writeHead(code, {
            ...headers,
            ...(code < 400 ? { 'Cache-Control': 'public, max-age=31536000, immutable' } : {}),
          })) as typeof response.writeHead;
      }
      next();
    });
  },
};

/** Under names of their own, since the manifest speaks of them. */
const installIcons: Plugin = {
  name: 'install-icons',
  apply: 'build',
  generateBundle() {
    for (const [fileName, path] of Object.entries(icons))
      this.emitFile({ type: 'asset', fileName, source: readFileSync(path) });
  },
};

/** Google's Draco decoder is a script of its own, which neither exports anything nor may be evaluated as text. */
const dracoAsModule: Plugin = {
  name: 'draco-as-module',
  transform: (code, id) =>
    id.split('?')[0]?.endsWith('/libs/draco/gltf/draco_wasm_wrapper.js') === true
      ? {
          code: `${code
            .slice(0, code.indexOf('"object"===typeof exports'))
            // Node's, which it would read its bytes with: they are handed to it.
            .replaceAll(/require\("(?:fs|path)"\)/g, 'null')}\nexport default DracoDecoderModule;`,
          map: null,
        }
      : undefined,
};

/** In the service worker, as a script of its own: what the system shares with the installed studio. */
const shareIn: Plugin = {
  name: 'share-in',
  apply: 'build',
  buildStart() {
    this.emitFile({ type: 'chunk', id: resolve('workers/share-in.ts'), fileName: 'share-in.js' });
  },
};

const icon = (src: keyof typeof icons, purpose: 'any' | 'maskable') => ({
  src,
  sizes: 'any',
  type: 'image/svg+xml',
  purpose,
});

const digest = (bytes: Uint8Array) =>
  `sha384-${createHash('sha384').update(bytes).digest('base64')}`;

/** In lists that the manifest's type may change. */
const openedBySystem = Object.fromEntries(
  Object.entries(acceptedTypes).map(([type, endings]) => [type, [...endings]]),
);

let builtTo = 'dist';
const notesFolder: Plugin = {
  name: 'notes-folder',
  configResolved: ({ root, build }) => void (builtTo = resolve(root, build.outDir)),
};

/** Tests of code that keeps no state. */
const pureRooms = ['core', 'golden', 'job', 'materials', 'preview'].map(
  (room) => `tests/${room}/**/*.test.{ts,tsx}`,
);

/** They replace a module, which the files before them in a shared worker may have loaded already. */
const replacingModules = ['tests/ui/calibrate-photo.test.tsx'];

/** Keeps a whole version in the browser; a newer one waits until the person changes over. */
const offline = VitePWA({
  // The page registers it by a module of its own: the policy allows no inline script.
  injectRegister: false,
  registerType: 'prompt',
  filename: 'sw.js',
  manifest: {
    name: 'Tiltloom',
    short_name: 'Tiltloom',
    description: 'Plan and interleave multi-frame lenticular prints, on your own machine.',
    start_url: './',
    scope: './',
    display: 'standalone',
    background_color: '#f3f0ea',
    theme_color: '#f3f0ea',
    // The system offers the installed studio for these; one that is open takes them.
    file_handlers: [{ action: './', accept: openedBySystem }],
    share_target: {
      action: './shared',
      method: 'POST',
      enctype: 'multipart/form-data',
      params: {
        files: [{ name: 'files', accept: Object.entries(openedBySystem).flat(2) }],
      },
    },
    launch_handler: { client_mode: ['focus-existing', 'auto'] },
    icons: [icon('icon.svg', 'any'), icon('icon-maskable.svg', 'maskable')],
  },
  includeManifestIcons: false,
  workbox: {
    importScripts: ['share-in.js'],
    globPatterns: ['**/*.{html,js,css,wasm,woff2,png,svg,webmanifest,glb}'],
    maximumFileSizeToCacheInBytes: 64 * 2 ** 20,
    // Names under assets hold a digest of what is in them: a newer version fetches only what differs.
    dontCacheBustURLsMatching: /^assets\//,
    // Files of two versions, as a host serves them while a newer one is being put there, are refused whole.
    manifestTransforms: [
      (entries) => ({
        manifest: entries.map((entry) => ({
          ...entry,
          integrity: digest(readFileSync(join(builtTo, entry.url))),
        })),
      }),
    ],
    // On a first visit too, so that no open tab depends on what the server has later.
    clientsClaim: true,
    navigateFallback: 'index.html',
    cleanupOutdatedCaches: true,
  },
});

const licences = licencePlugins();

export default defineConfig({
  // Relative addresses: the built studio may be put into any folder of any web server.
  base: './',
  plugins: [
    react(),
    kernelsPlugin(),
    dracoAsModule,
    policyInPage,
    installIcons,
    keptByBrowser,
    shareIn,
    licences.page,
    notesFolder,
    offline,
  ],
  // Nothing is copied unseen: what reaches `dist` is imported by name, so a scene's depth maps,
  // which no source file names, stay out of it.
  publicDir: false,
  build: {
    target: 'es2022',
    // No data: addresses, which a strict content security policy refuses.
    assetsInlineLimit: 0,
    manifest: '.vite/manifest.json',
    reportCompressedSize: false,
    rolldownOptions: {
      output: {
        // What the first view needs comes in one piece, not in some fifty that benches share with it.
        codeSplitting: { groups: [{ name: 'studio', test: /src\/main\.tsx$/ }] },
      },
    },
  },
  worker: { format: 'es', plugins: () => [kernelsPlugin(), dracoAsModule, licences.worker] },
  server: { port: 5173 },
  preview: {
    headers: {
      'Content-Security-Policy': contentPolicyHeader,
      'X-Content-Type-Options': 'nosniff',
      'Referrer-Policy': 'no-referrer',
      'Cross-Origin-Opener-Policy': 'same-origin',
    },
  },
  test: {
    // A busy machine is slow, not wrong.
    testTimeout: 300_000,
    hookTimeout: 300_000,
    setupFiles: ['tests/settings/kernels-setup.ts'],
    // Every core: the usual choice leaves one of two idle.
    maxWorkers: '100%',
    projects: [
      {
        extends: true,
        test: {
          name: 'pure',
          environment: 'node',
          include: pureRooms,
          // Nothing in them keeps a state: the files of a worker share what they load, which is most of their time.
          isolate: false,
        },
      },
      {
        extends: true,
        test: {
          name: 'unit',
          environment: 'node',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: [...pureRooms, 'tests/ui/**', 'tests/e2e/**'],
        },
      },
      {
        extends: true,
        test: {
          name: 'ui',
          environment: 'jsdom',
          include: ['tests/ui/**/*.test.{ts,tsx}'],
          exclude: replacingModules,
          setupFiles: ['tests/settings/ui-setup.ts'],
          isolate: false,
        },
      },
      {
        extends: true,
        test: {
          name: 'ui apart',
          environment: 'jsdom',
          include: replacingModules,
          setupFiles: ['tests/settings/ui-setup.ts'],
        },
      },
    ],
  },
});
