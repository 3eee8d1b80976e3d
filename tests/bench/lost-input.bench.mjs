// @ts-check
/**
 * Broken pictures and jobs, thousands of them, seeded: what was tried, how often, and how often the studio
 * gave no picture, no named error, or asked for more memory than the file could ever fill. A reader that
 * does not come back is ended here as the page ends its worker (src/calls/within-time.ts): given up, by name.
 * What the browser decodes is refused here, in Node; `lost-arrivals` tries it in the browser.
 * Prints rows of Markdown for docs/robustness.md.
 *
 *   CASES=200 npm run bench -- lost-input     fewer a seed file (40 are the default)
 *   SEED=7 npm run bench -- lost-input        another run of luck
 */
import { fork } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { at } from '../tools/house.mjs';
import { openModules } from './shared/modules.mjs';
import { pngSuite } from './shared/png-suite.mjs';

const CASES = Number(process.env['CASES'] ?? 40);
const SEED = Number(process.env['SEED'] ?? 1);
/** Far beyond what any of these small pictures takes. */
const MOST_MS = 5000;
/** 64 MB: four hundred times the largest picture among the seeds. */
const MOST_BYTES = 64 * 2 ** 20;
const keep = process.env['KEEP'];

/** @typedef {{ outcome: string, said: string, ms: number, largest: number }} Answer */

/** One process that decodes; started again when it hangs or dies. */
const openChild = () => {
  /** @type {import('node:child_process').ChildProcess | undefined} */
  let child;
  const start = () =>
    new Promise((resolve) => {
      child = fork(at('tests/bench/shared/decode-child.mjs'), {
        execArgv: ['--max-old-space-size=1024'],
        stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
      });
      child.once('message', resolve);
      child.once('exit', resolve);
    });
  return {
    /** @returns {Promise<Answer>} */
    ask: async (
      /** @type {Uint8Array} */ bytes,
      /** @type {string} */ name,
      /** @type {string} */ reader,
    ) => {
      if (child?.connected !== true || child.killed) await start();
      return new Promise((resolve) => {
        const end = (/** @type {Partial<Answer>} */ answer) => {
          clearTimeout(timer);
          child?.removeAllListeners();
          resolve({ outcome: 'died', said: '', ms: 0, largest: 0, ...answer });
        };
        const timer = setTimeout(() => {
          child?.kill('SIGKILL');
          end({ outcome: 'hung', ms: MOST_MS });
        }, MOST_MS);
        child?.once('message', (answer) => end(/** @type {Answer} */ (answer)));
        child?.once('exit', () => end({ outcome: 'died' }));
        child?.send({ bytes: Buffer.from(bytes).toString('base64'), name, reader });
      });
    },
    close: () => child?.kill(),
  };
};

/** @type {Map<string, { tried: number, images: number, named: number, givenUp: number, lost: Record<string, number>, ms: number, largest: number }>} */
const rows = new Map();
let lostInAll = 0;
const count = (/** @type {string} */ row, /** @type {Answer} */ answer) => {
  const sums = rows.get(row) ?? {
    tried: 0,
    images: 0,
    named: 0,
    givenUp: 0,
    lost: {},
    ms: 0,
    largest: 0,
  };
  rows.set(row, sums);
  sums.tried += 1;
  sums.ms = Math.max(sums.ms, answer.ms);
  sums.largest = Math.max(sums.largest, answer.largest);
  const greedy = answer.largest > MOST_BYTES;
  if (answer.outcome === 'hung') {
    sums.givenUp += 1;
    return answer.outcome;
  }
  const lost = ['died', 'unnamed', 'not whole'].includes(answer.outcome);
  if (lost || greedy) {
    const why = lost ? answer.outcome : 'greedy';
    sums.lost[why] = (sums.lost[why] ?? 0) + 1;
    lostInAll += 1;
    return why;
  }
  if (answer.outcome === 'image') sums.images += 1;
  else sums.named += 1;
  return undefined;
};

const { load, close } = await openModules();
const child = openChild();
try {
  const { seeds } = await load('/tests/contract/fuzz/seeds.ts');
  const { mutate } = await load('/tests/contract/fuzz/mutate.ts');
  const { randomOf } = await load('/tests/contract/fuzz/random.ts');
  const { fuzzDocuments } = await load('/tests/contract/fuzz/documents.ts');
  const files = await seeds();
  const random = randomOf(SEED);
  const only = process.env['ONLY'];
  const shown = new Map();

  const tell = (
    /** @type {string} */ why,
    /** @type {string} */ name,
    /** @type {Answer} */ answer,
    /** @type {Uint8Array} */ bytes,
  ) => {
    const key = `${why} ${name}`;
    shown.set(key, (shown.get(key) ?? 0) + 1);
    if (shown.get(key) > 2) return;
    console.log(
      `  ${why}: ${name}, ${bytes.length} bytes, asked for ${answer.largest} bytes, ${Math.round(answer.ms)} ms ${answer.said.slice(0, 400)}`,
    );
    if (keep === undefined) return;
    mkdirSync(keep, { recursive: true });
    writeFileSync(join(keep, `${why}-${shown.get(key)}-${name}`), bytes);
  };

  for (const { reader, name, bytes } of files) {
    if (only !== undefined && !reader.includes(only)) continue;
    for (let n = 0; n < CASES; n += 1) {
      const broken = mutate(bytes, random, random.pick(files).bytes);
      const answer = await child.ask(broken, name, 'frame');
      const why = count(reader, answer);
      if (why !== undefined) tell(why, name, answer, broken);
      if (n % 4 > 0 || !/PNG|TIFF|OpenEXR/.test(reader)) continue;
      const depth = await child.ask(broken, name, 'depth');
      const whyDepth = count(`${reader}, as depths`, depth);
      if (whyDepth !== undefined) tell(`${whyDepth} as depths`, name, depth, broken);
    }
  }
  for (const { name, bytes } of only === undefined ? pngSuite() : []) {
    const answer = await child.ask(bytes, name, 'frame');
    const why = count('PngSuite', answer);
    if (why !== undefined) tell(why, name, answer, bytes);
  }
  if (only === undefined) {
    const documents = await fuzzDocuments(SEED, CASES * 50);
    for (const { row, answer } of documents) count(row, answer);
  }

  console.log(
    '\n| what | tried | a picture, or a job | refused by name | given up | lost | slowest, ms | most asked for at once, MB |',
  );
  console.log('| --- | ---: | ---: | ---: | ---: | --- | ---: | ---: |');
  for (const [row, { tried, images, named, givenUp, lost, ms, largest }] of rows) {
    const list = Object.entries(lost).map(([why, times]) => `${times} ${why}`);
    console.log(
      `| ${row} | ${tried} | ${images} | ${named} | ${givenUp} | ${list.length === 0 ? 0 : list.join(', ')} | ${Math.ceil(ms)} | ${(largest / 2 ** 20).toFixed(1)} |`,
    );
  }
  console.log(`\n${lostInAll === 0 ? 'Nothing was lost.' : `${lostInAll} were lost.`}`);
  if (lostInAll > 0) process.exitCode = 1;
} finally {
  child.close();
  await close();
}
