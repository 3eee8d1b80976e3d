/**
 * Drives a scene: builds it, renders its frames on two workers, writes frames, depth and scene.json, or with --check
 * renders again and compares. Used by every generate.mjs:  await run(import.meta.url, scene)
 *
 * A scene module exports one object, see the three scene.mjs.
 *   --check        compare with the stored files instead of writing; exit 1 where anything differs
 *   --only 3,7     only these frames (1-based), and no scene.json
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { checkGeometry } from './geometry-check.mjs';
import { sceneDocument } from './document.mjs';
import { pad, prepare } from './moment.mjs';

export async function run(moduleUrl, scene) {
  const folder = fileURLToPath(new URL('.', moduleUrl));
  const check = process.argv.includes('--check');
  const only = process.argv.includes('--only')
    ? process.argv[process.argv.indexOf('--only') + 1].split(',')
    : null;
  const frames = only
    ? only.map((n) => Number(n) - 1)
    : Array.from({ length: scene.frameCount }, (_, i) => i);
  if (scene.kind === 'depth' && !existsSync(`${folder}depth`)) mkdirSync(`${folder}depth`);
  const still = scene.moving ? null : prepare(scene, 0);
  const setting = { sceneUrl: new URL('./scene.mjs', moduleUrl).href, still, folder, check };
  const workers = [0, 1].map(() => startWorker(setting));
  const palette = scene.paletteFrames
    ? (await workers[0].ask({ paletteOf: scene.paletteFrames })).palette
    : null;
  const queue = [...frames];
  const results = [];
  await Promise.all(
    workers.map(async (worker) => {
      while (queue.length) results.push(await worker.ask({ frame: queue.shift(), palette }));
      await worker.end();
    }),
  );
  results.sort((a, b) => a.frame - b.frame);
  for (const { text } of results) console.log(text);
  let good = results.every((r) => r.same);
  const facts = sceneDocument(scene);
  if (check) {
    // Compared as facts, not as text: a formatter may have laid the file out differently.
    const stored = JSON.parse(readFileSync(`${folder}scene.json`, 'utf8'));
    const same = JSON.stringify(stored) === JSON.stringify(facts);
    console.log(`scene.json ${same ? 'as stored' : 'DIFFERS'}`);
    good &&= same;
    if (scene.kind === 'depth') good = checkGeometry(scene, folder) && good;
    console.log(good ? 'check passed' : 'check FAILED');
    process.exitCode = good ? 0 : 1;
  } else if (!only) writeFileSync(`${folder}scene.json`, `${JSON.stringify(facts, null, 2)}\n`);
}

/** A worker that answers one question at a time. */
function startWorker(workerData) {
  const worker = new Worker(new URL('./frame-worker.mjs', import.meta.url), { workerData });
  return {
    ask: (task) =>
      new Promise((resolve, reject) => {
        worker.once('message', resolve);
        worker.once('error', reject);
        worker.postMessage(task);
      }),
    end: () => worker.terminate(),
  };
}
