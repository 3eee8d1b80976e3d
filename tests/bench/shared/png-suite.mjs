// @ts-check
/**
 * PngSuite, Willem van Schaik's set of PNGs for testing readers, as Debian's package of the Go sources
 * carries it. Fetched once; where it cannot be had the bench goes on without.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, readdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const place = join(tmpdir(), 'tiltloom-png-suite');

const run = (/** @type {string} */ command, /** @type {string[]} */ ...args) =>
  execFileSync(command, args, {
    cwd: place,
    stdio: ['ignore', 'pipe', 'ignore'],
    encoding: 'utf8',
  });

/** @returns {string[]} */
const picturesIn = (/** @type {string} */ folder) =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => /pngsuite\/.*\.png$/.test(path))
    .map((path) => join(folder, path));

/** @returns {{ name: string, bytes: Uint8Array }[]} */
export const pngSuite = () => {
  try {
    if (!existsSync(place) || picturesIn(place).length === 0) {
      mkdirSync(place, { recursive: true });
      const [source] = run('apt-cache', 'search', '--names-only', '^golang-1\\.[0-9]+-src$').split(
        ' ',
      );
      run('apt-get', 'download', source ?? '');
      const [file] = readdirSync(place).filter((name) => name.endsWith('.deb'));
      run('dpkg-deb', '-x', file ?? '', 'sources');
    }
    return picturesIn(place).map((path) => ({
      name: path.slice(path.lastIndexOf('/') + 1),
      bytes: readFileSync(path),
    }));
  } catch (error) {
    console.log(`PngSuite was not to be had: ${String(error).split('\n')[0]}`);
    return [];
  }
};
