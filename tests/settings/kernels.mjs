// @ts-check
/**
 * Compiles the kernels: an import of an AssemblyScript file with `?wasm` behind its name is the address of the
 * WebAssembly module made from it. What was compiled is kept under node_modules until a source changes.
 */
import { createHash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  renameSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const MARK = '?wasm';
const kept = fileURLToPath(new URL('../../node_modules/.cache/kernels/', import.meta.url));

/** No memory of its own to manage, vector instructions, and as quick as the compiler can make it. */
const options = ['--runtime', 'stub', '--enable', 'simd', '--noAssert', '-O3', '--converge'];

/**
 * @typedef {object} Compiler
 * @property {(options: string[], house: House) => Promise<{ error: Error | null, stderr: { toString(): string } }>} main
 */
/**
 * @typedef {object} House where the compiler reads and writes
 * @property {(name: string, base: string) => string | null} readFile
 * @property {(name: string, content: string | Uint8Array) => void} writeFile
 * @property {() => string[]} listFiles
 */

/** @param {string} folder */
const sourcesIn = (folder) =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.ts'))
    .sort()
    .map((name) => join(folder, name));

/**
 * Not named in the import, so that its types stay out: they give every array methods of AssemblyScript's own.
 * @type {string}
 */
const compiler = 'assemblyscript/asc';

/** @param {string} entry @returns {Promise<Uint8Array>} */
const compile = async (entry) => {
  const { main } = /** @type {Compiler} */ (await import(compiler));
  /** @type {Uint8Array | undefined} */
  let made;
  const { error, stderr } = await main([basename(entry), '--outFile', 'kernels.wasm', ...options], {
    readFile: (name, base) => {
      const path = join(base === '.' ? dirname(entry) : base, name);
      return existsSync(path) ? readFileSync(path, 'utf8') : null;
    },
    writeFile: (_, content) => {
      if (typeof content !== 'string') made = content;
    },
    listFiles: () => [],
  });
  if (error !== null || made === undefined)
    throw new Error(`The kernels do not compile.\n${stderr.toString()}`, { cause: error });
  return made;
};

/** @param {string} entry @returns {Promise<string>} path of the module */
const compiled = async (entry) => {
  const digest = createHash('sha256').update(options.join(' '));
  digest.update(readFileSync(new URL('../../package-lock.json', import.meta.url)));
  for (const path of sourcesIn(dirname(entry))) digest.update(path).update(readFileSync(path));
  const path = join(kept, digest.digest('hex').slice(0, 16), 'kernels.wasm');
  if (existsSync(path)) return path;
  mkdirSync(dirname(path), { recursive: true });
  // Written whole: several processes may do so at once.
  const part = `${path}.${process.pid}`;
  writeFileSync(part, await compile(entry));
  renameSync(part, path);
  return path;
};

/** @returns {import('vite').Plugin} */
export const kernelsPlugin = () => ({
  name: 'kernels',
  enforce: 'pre',
  async load(id) {
    if (!id.endsWith(MARK)) return undefined;
    const entry = id.slice(0, -MARK.length);
    for (const path of sourcesIn(dirname(entry))) this.addWatchFile(path);
    const path = await compiled(entry);
    // Node fetches no files, and tests have no server.
    if (process.env['VITEST'] !== undefined || this.environment.name !== 'client')
      return `export default "data:application/wasm;base64,${readFileSync(path, 'base64')}"`;
    return `export { default } from ${JSON.stringify(`${path}?url`)}`;
  },
});
