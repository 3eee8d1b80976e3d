/**
 * The page of licences that the build makes: every package and font that is in it, with the words of its licence, as
 * those licences ask. The bundler knows what is in it: modules of the page and of the workers, and files that are laid
 * beside them.
 */
import { readFileSync, readdirSync, realpathSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Plugin } from 'vite';

const PAGE = 'licences.html';

/** In the build without being imported: the service worker's parts, and what the bundler lays between modules. */
const besides = [
  'workbox-core',
  'workbox-precaching',
  'workbox-routing',
  'workbox-strategies',
  'vite',
  'rolldown',
];

/** What some packages do not say in a file of their own, and which other package's file has the same licence. */
const said: Readonly<Record<string, { readonly words: string; readonly like?: string }>> = {
  'lcms-wasm': {
    words: 'With Little CMS, Copyright (c) Marti Maria Saguer, under the same licence:',
  },
  lerc: { words: 'Copyright (c) 2017-2021 Esri', like: 'comlink' },
};

interface Licence {
  readonly title: string;
  readonly text: string;
}

/** @param id a module's, or a file's path. Folders with a dot in front hold what our own tools made. */
const folderOf = (id: string): string | undefined =>
  /^\0?(.*\/node_modules\/(?:@[^/]+\/)?[^/.][^/]*)\//.exec(id)?.[1];

const licenceFiles = (folder: string): string[] =>
  readdirSync(folder)
    .filter((file) => /^(licen[cs]e|copying|notice)/i.test(file))
    .map((file) => readFileSync(join(folder, file), 'utf8').trim());

/** @throws Error for a package that brings no words of its licence: the build must not go out without. */
const licenceOf = (folder: string): Licence => {
  const { name, version, license } = JSON.parse(
    readFileSync(join(folder, 'package.json'), 'utf8'),
  ) as Record<'name' | 'version' | 'license', string>;
  const { words, like } = said[name] ?? {};
  const files = licenceFiles(like === undefined ? folder : join('node_modules', like));
  if (files.length === 0)
    throw new Error(`${name} brings no licence: add its words to tests/settings/licences.ts`);
  // Vite's own page goes on with what only its tool is made of.
  const [text = ''] = files.join('\n\n').split('\n# Licenses of bundled dependencies');
  return {
    title: `${name} ${version}, ${license}`,
    text: words === undefined ? text : `${words}\n\n${text}`,
  };
};

const plain = (text: string) =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

const pageOf = (own: string, licences: readonly Licence[]): string => `<!doctype html>
<html lang="en">
<meta charset="utf-8" />
<meta name="viewport" content="width=device-width, initial-scale=1" />
<meta name="color-scheme" content="light dark" />
<title>Licences · Tiltloom</title>
<h1>Licences</h1>
<p>Tiltloom itself, and below it the packages and fonts that are in it.</p>
<h2>Tiltloom, MIT</h2>
<pre>${plain(own)}</pre>
${licences.map(({ title, text }) => `<h2>${plain(title)}</h2>\n<pre>${plain(text)}</pre>`).join('\n')}
</html>
`;

/**
 * @returns `page` for the build itself, `worker` for that of its workers, which comes before the page's is written.
 */
export const licencePlugins = (): { page: Plugin; worker: Plugin } => {
  const folders = new Set<string>();
  const take = (ids: Iterable<string>) => {
    for (const id of ids) {
      const folder = folderOf(resolve(id).replaceAll('\\', '/'));
      if (folder !== undefined) folders.add(realpathSync(folder));
    }
  };
  const collect: Plugin['generateBundle'] = (_, bundle) => {
    for (const part of Object.values(bundle))
      take(part.type === 'chunk' ? part.moduleIds : part.originalFileNames);
  };
  return {
    worker: { name: 'licences-of-workers', generateBundle: collect },
    page: {
      name: 'licences',
      apply: 'build',
      generateBundle(options, bundle, isWrite) {
        void collect.call(this, options, bundle, isWrite);
        take(besides.map((name) => join('node_modules', name, 'package.json')));
        const licences = [...folders].map(licenceOf);
        licences.sort((a, b) => a.title.localeCompare(b.title, 'en'));
        const source = pageOf(readFileSync('LICENSE', 'utf8').trim(), licences);
        this.emitFile({ type: 'asset', fileName: PAGE, source });
      },
    },
  };
};
