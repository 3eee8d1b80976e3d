// @ts-check
/**
 * How often the tilt proof can be drawn while it turns: 12 frames on a canvas of a megapixel, by the processor and by
 * the graphics card (or what the browser has in its place). The reference, in the same browser: how often the screen
 * itself asks for a picture. Aims: 60 a second on any card, 20 without one, and no task of the page over 50 ms.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { makeFrames } from './shared/frames.mjs';
import { openStudio, pause, setFields, setFrames } from './shared/studio.mjs';

const RUNS = 5;
const SECONDS = 3;

/** @param {number[]} values */
const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;

/** Counts the pictures that the page asks its worker for, and its long tasks, while the tilt changes without pause. */
const turn = (/** @type {number} */ seconds) => {
  const place = /** @type {any} */ (globalThis);
  place.painted ??= 0;
  if (place.counting === undefined) {
    place.counting = true;
    const post = Worker.prototype.postMessage;
    Worker.prototype.postMessage = function (
      /** @type {any} */ message,
      /** @type {any} */ ...rest
    ) {
      if (message?.path?.[0] === 'paint') place.painted += 1;
      return post.call(this, message, ...rest);
    };
  }
  const tasks = /** @type {number[]} */ ([]);
  const watch = new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) tasks.push(Math.round(entry.duration));
  });
  watch.observe({ type: 'longtask' });
  const slider = /** @type {HTMLInputElement} */ (
    document.querySelector('input[type=range][aria-label="Tilt"], input[type=range]')
  );
  const setValue = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')?.set;
  const before = place.painted;
  const began = performance.now();
  let frames = 0;
  return new Promise((resolve) => {
    const step = () => {
      const past = performance.now() - began;
      if (past > seconds * 1000) {
        watch.disconnect();
        const perSecond = (/** @type {number} */ count) => (1000 * count) / past;
        return resolve({
          views: perSecond(place.painted - before),
          screen: perSecond(frames),
          longest: Math.max(0, ...tasks),
        });
      }
      frames += 1;
      setValue?.call(slider, String(Math.sin(past / 700)));
      slider.dispatchEvent(new Event('input', { bubbles: true }));
      requestAnimationFrame(step);
    };
    requestAnimationFrame(step);
  });
};

const work = mkdtempSync(join(tmpdir(), 'tiltloom-bench-'));
const studio = await openStudio({
  viewport: { width: 1440, height: 1400 },
  deviceScaleFactor: 1.55,
});
try {
  const { page } = studio;
  const frames = await makeFrames({ folder: work, count: 12, width: 1024, height: 1024 });
  await setFields(page, { 'Print width': '8 in', 'Print height': '8 in' });
  await setFrames(page, frames);
  const origin = new URL(page.url()).origin;
  console.log(`load of the machine  ${loadavg()[0]?.toFixed(1)}`);
  for (const { name, proof } of [
    { name: 'processor', proof: '2d' },
    { name: 'card, or its emulation', proof: '3d' },
  ]) {
    await page.goto(`${origin}/?proof=${proof}#/weave`);
    await page.getByText('12 for 12 slots').waitFor();
    await page.getByText(/Preparing frames/).waitFor({ state: 'hidden' });
    await pause(5000);
    const size = await page
      .getByTestId('tilt-proof')
      .evaluate((box) => box.clientWidth * box.clientHeight * devicePixelRatio ** 2);
    /** @type {any[]} */
    const runs = [];
    for (let run = 0; run < RUNS; run += 1)
      runs.push(/** @type {any} */ (await page.evaluate(turn, SECONDS)));
    const of = (/** @type {string} */ what) => median(runs.map((run) => run[what])).toFixed(0);
    console.log(
      `${name.padEnd(24)}${of('views').padStart(4)} views a second of ${of('screen')} that the screen asks for, canvas ${(size / 1e6).toFixed(2)} Mpx, longest task ${Math.max(...runs.map((run) => run.longest)) || 'under 50'} ms`,
    );
  }
} finally {
  await studio.close();
  rmSync(work, { recursive: true, force: true });
}
