// @ts-check
/**
 * `npm run check`: everything that can be said of the code without running it, two checks at a time,
 * and a table at the end.
 *
 *   npm run check -- lint types   only the checks whose name has one of these words in it
 */
import { at, ensureInstalled, giveUp, runNode } from './house.mjs';

/** `first` must succeed before `args` is run. @typedef {{ name: string, args: string[], first?: string[] }} Check */

const bin = (/** @type {string} */ path) => at('node_modules', path);
const settings = (/** @type {string} */ name) => at('tests/settings', name);
const types = (/** @type {string} */ project) => ({
  name: `types ${project}`,
  args: [bin('typescript/bin/tsc'), '--project', at(project)],
});

/** Longest first, so that the two lanes end together. @type {Check[]} */
const checks = [
  {
    name: 'lint',
    args: [bin('eslint/bin/eslint.js'), '--config', settings('eslint.config.js'), '.'],
  },
  types('src/tsconfig.page.json'),
  types('tests/tsconfig.json'),
  types('workers/tsconfig.json'),
  types('src/tsconfig.core.json'),
  {
    name: 'imports',
    args: [
      bin('dependency-cruiser/bin/dependency-cruise.mjs'),
      '--config',
      settings('dependency-cruiser.cjs'),
      ...['src', 'workers', 'tests', 'demo-scenes'],
    ],
  },
  { name: 'unused', args: [bin('knip/bin/knip.js'), '--config', settings('knip.json')] },
  {
    name: 'size',
    args: [bin('size-limit/bin.js'), '--config', settings('size-limit.config.js')],
    first: [at('tests/tools/start.mjs'), '--build-only'],
  },
  { name: 'format', args: [bin('prettier/bin/prettier.cjs'), '--check', '--log-level=warn', '.'] },
];

const wanted = process.argv.slice(2);
const chosen = checks.filter(
  ({ name }) => wanted.length === 0 || wanted.some((word) => name.includes(word)),
);
if (chosen.length === 0)
  giveUp(`No check fits. There are: ${checks.map(({ name }) => name).join(', ')}`);

await ensureInstalled();

/** @type {Map<string, { code: number, output: string, seconds: number }>} */
const results = new Map();
const queue = [...chosen];
const lane = async () => {
  for (let check = queue.shift(); check !== undefined; check = queue.shift()) {
    const began = performance.now();
    let result = { code: 0, output: '' };
    for (const args of [check.first, check.args])
      if (args !== undefined && result.code === 0) result = await runNode(args, { quiet: true });
    results.set(check.name, { ...result, seconds: (performance.now() - began) / 1000 });
  }
};
await Promise.all([lane(), lane()]);

const rows = chosen.flatMap(({ name }) => {
  const result = results.get(name);
  return result === undefined ? [] : [{ name, ...result }];
});
for (const { name, output } of rows.filter(({ code }) => code !== 0))
  console.log(`\n── ${name}\n${output.trim()}`);
console.log('');
for (const { name, code, seconds } of rows)
  console.log(
    `${code === 0 ? 'pass' : 'FAIL'}  ${name.padEnd(28)} ${seconds.toFixed(1).padStart(5)} s`,
  );
process.exitCode = rows.some(({ code }) => code !== 0) ? 1 : 0;
