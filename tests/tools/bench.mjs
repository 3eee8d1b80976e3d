// @ts-check
/**
 * `npm run bench`: runs every tests/bench/*.bench.mjs in order of name, one at a time, and shows what
 * they report. Reports go to the terminal alone; nothing in the tree is written.
 *
 *   npm run bench -- weave   only those with `weave` in their name
 */
import { readdirSync } from 'node:fs';
import { at, ensureBuilt, ensureInstalled, giveUp, runNode } from './house.mjs';

const filters = process.argv.slice(2);
const benches = readdirSync(at('tests/bench'))
  .filter((name) => name.endsWith('.bench.mjs'))
  .filter((name) => filters.length === 0 || filters.some((filter) => name.includes(filter)))
  .sort();
if (benches.length === 0) giveUp(`No tests/bench/*.bench.mjs fits "${filters.join(' ')}".`);

await ensureInstalled();
await ensureBuilt();
const failed = [];
for (const name of benches) {
  console.log(`\n── ${name}`);
  const { code } = await runNode([at('tests/bench', name)]);
  if (code !== 0) failed.push(name);
}
if (failed.length > 0) giveUp(`Failed: ${failed.join(', ')}`);
