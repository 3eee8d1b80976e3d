// @ts-check
/**
 * What every tool here needs first: where the house stands, whether Node is new enough, whether what
 * package-lock.json asks for is installed, and whether `dist` is newer than its sources. Only Node's
 * own modules: this must run before anything is installed.
 */
import { spawn } from 'node:child_process';
import {
  existsSync,
  readdirSync,
  readFileSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('../..', import.meta.url));
export const at = (/** @type {string[]} */ ...parts) => join(root, ...parts);

/** A tool's JavaScript in node_modules, to be run with `node`: the same call on every system. */
export const vite = at('node_modules/vite/bin/vite.js');

/**
 * Sentence for the person, and out: these tools have nothing to clean up.
 * @type {(message: string) => never}
 */
export const giveUp = (message) => {
  console.error(`\n${message}\n`);
  process.exit(1);
};

/**
 * Runs a command to its end. Resolves with its exit code (1 when a signal ended it) and, where
 * `quiet` asks for it, what it printed instead of showing it.
 * @param {string} command
 * @param {readonly string[]} args
 * @param {{ quiet?: boolean, shell?: boolean, env?: Record<string, string> }} [options]
 * @returns {Promise<{ code: number, output: string }>}
 */
export const run = (command, args, { quiet = false, shell = false, env = {} } = {}) =>
  new Promise((resolve) => {
    const child = spawn(command, args, {
      cwd: root,
      env: { ...process.env, ...env },
      shell,
      stdio: quiet ? ['ignore', 'pipe', 'pipe'] : ['ignore', 'inherit', 'inherit'],
    });
    let output = '';
    for (const stream of [child.stdout, child.stderr])
      stream?.setEncoding('utf8').on('data', (/** @type {string} */ text) => (output += text));
    child.on('error', (error) => resolve({ code: 1, output: `${output}${error.message}\n` }));
    child.on('close', (code) => resolve({ code: code ?? 1, output }));
  });

/**
 * Runs a JavaScript file with this same Node.
 * @param {readonly string[]} args
 * @param {Parameters<typeof run>[2]} [options]
 */
export const runNode = (args, options) => run(process.execPath, args, options);

const checkNode = () => {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 19))
    giveUp(`Tiltloom needs Node 20.19 or newer; this is Node ${process.versions.node}.`);
};

/**
 * True when node_modules holds what package-lock.json asks for. npm keeps a copy of what it installed
 * in node_modules; comparing the two is surer than comparing dates, which a fresh checkout changes.
 */
const isInstalled = () => {
  const installedList = at('node_modules/.package-lock.json');
  if (!existsSync(installedList)) return false;
  const packagesIn = (/** @type {string} */ file) =>
    /** @type {Record<string, { version?: string, optional?: boolean }>} */ (
      JSON.parse(readFileSync(file, 'utf8')).packages
    );
  const installed = packagesIn(installedList);
  return Object.entries(packagesIn(at('package-lock.json'))).every(
    ([place, wanted]) =>
      place === '' || wanted.optional === true || installed[place]?.version === wanted.version,
  );
};

export const ensureInstalled = async () => {
  checkNode();
  if (isInstalled()) return;
  console.log('Installing what package-lock.json lists (once) …');
  const args = ['ci', '--include=dev', '--no-audit', '--no-fund'];
  const npm = process.env['npm_execpath'];
  const { code } = npm?.endsWith('.js')
    ? await runNode([npm, ...args])
    : await run('npm', args, { shell: process.platform === 'win32' });
  if (code !== 0)
    giveUp('`npm ci` failed, see above. Is the network up? Nothing else was changed; try again.');
};

const sources = [
  'index.html',
  'vite.config.ts',
  'tests/settings/content-policy.ts',
  'tests/settings/kernels.mjs',
  'package-lock.json',
  'src',
  'workers',
  'demo-scenes',
];
const stamp = at('dist/.vite/built');

/** When the newest file or folder under `path` changed, ms. Folders count, so a deletion shows. */
const newest = (/** @type {string} */ path) => {
  if (!existsSync(path)) return 0;
  const facts = statSync(path);
  if (!facts.isDirectory()) return facts.mtimeMs;
  /** @type {number} */
  let latest = facts.mtimeMs;
  for (const name of readdirSync(path)) latest = Math.max(latest, newest(join(path, name)));
  return latest;
};

/** Builds `dist` unless it is newer than all it is made from. */
export const ensureBuilt = async () => {
  const latest = Math.max(...sources.map((name) => newest(at(name))));
  if (existsSync(stamp) && statSync(stamp).mtimeMs >= latest) return;
  console.log('Building the studio …');
  const began = new Date();
  // Warnings are for whoever works on the studio: `npm run build` shows them.
  const { code } = await runNode([vite, 'build', '--logLevel', 'error']);
  if (code !== 0) giveUp('The build failed, see above. Nothing is served.');
  writeFileSync(stamp, '');
  // Dated to the start, so that a source saved during the build counts as newer.
  utimesSync(stamp, began, began);
};
