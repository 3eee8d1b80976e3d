/**
 * What the built studio may weigh, gzipped. The first view is what index.html needs before anything
 * can be seen: the entry and all it imports outright, with their style sheets. Benches and decoders
 * are loaded when called for and are not in it.
 */
import { readdirSync, readFileSync } from 'node:fs';

const dist = new URL('../../dist/', import.meta.url);
const manifest = JSON.parse(readFileSync(new URL('.vite/manifest.json', dist), 'utf8'));

/** Files of one chunk and of everything it imports outright. */
const filesOf = (key, seen = new Set()) => {
  if (seen.has(key)) return [];
  seen.add(key);
  const { file, css = [], imports = [] } = manifest[key];
  return [file, ...css, ...imports.flatMap((other) => filesOf(other, seen))];
};

const fromHere = (file) => `../../dist/${file}`;
const firstView = [...new Set(filesOf('index.html'))];
const workers = readdirSync(new URL('assets/', dist)).filter((name) =>
  /\.worker-.*\.js$/.test(name),
);

/** The one for pictures is four in one, with the readings of photos in it; that of the stage brings a 3D engine, for Shoot alone. */
const limits = { picture: '60 kB', stage: '180 kB' };
const limitOf = (worker) => limits[worker.split('.')[0]] ?? '40 kB';

export default [
  { name: 'first view', path: firstView.map(fromHere), gzip: true, limit: '200 kB' },
  ...workers.map((name) => ({
    name: name.replace(/\.worker-.*/, ' worker'),
    path: fromHere(`assets/${name}`),
    gzip: true,
    limit: limitOf(name),
  })),
];
