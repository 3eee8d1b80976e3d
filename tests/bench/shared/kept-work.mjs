// @ts-check
/** What a person keeps, as the bench of kept work makes it and finds it again: a number, the journal, frames. */
import sharp from 'sharp';
import { betweenOf } from './random.mjs';
import { pause } from './studio.mjs';

/** @typedef {import('playwright').Page} Page */

/** The pause before a change is written, and as long again for the browser to write it. */
export const SETTLED_MS = 800;

export const field = (/** @type {Page} */ page, /** @type {string} */ name) =>
  page.getByRole('textbox', { name, exact: true });
export const setSlots = async (/** @type {Page} */ page, /** @type {number} */ value) => {
  await field(page, 'View slots').fill(String(value));
  await field(page, 'View slots').press('Enter');
};
export const slotsOf = async (/** @type {Page} */ page) =>
  Number(await field(page, 'View slots').inputValue());
/** Once the kept job is laid in. */
export const ready = async (/** @type {Page} */ page, /** @type {string} */ address) => {
  await page.goto(`${address}#/frames`);
  await field(page, 'View slots').waitFor();
  await page
    .getByText(/for \d+ slots?|Drop frames here/)
    .first()
    .waitFor({ timeout: 60_000 });
};
/** The values of `View slots` in the journal of the job of this name, in order. */
export const journalOf = (/** @type {Page} */ page) =>
  page.evaluate(
    () =>
      new Promise((resolve, reject) => {
        const asked = indexedDB.open('tiltloom-job');
        asked.onerror = () => reject(new Error('The database of jobs does not open.'));
        asked.onsuccess = () => {
          const all = asked.result.transaction('entries').objectStore('entries').getAll();
          all.onsuccess = () => {
            asked.result.close();
            resolve(
              all.result.map((/** @type {any} */ { job }) => ({
                name: job.name,
                slots: job.viewSlots,
                frames: job.frames.length,
              })),
            );
          };
        };
      }),
  );

/**
 * Types numbers at random moments until it is time for the blow. The same number never twice in a
 * row; what was typed and when is handed back.
 */
export const typeUntil = async (/** @type {Page} */ page, /** @type {() => number} */ random) => {
  const between = betweenOf(random);
  const typed = [{ value: await slotsOf(page), at: 0 }];
  const end = performance.now() + between(300, 4000);
  while (performance.now() < end) {
    const value = 2 + Math.floor(random() * 38);
    if (value === typed.at(-1)?.value) continue;
    await setSlots(page, value);
    typed.push({ value, at: performance.now() });
    await pause(between(0, 900));
  }
  return typed;
};

/**
 * Tells which values of `View slots` the database has said to be written, as soon as it says so, in every page
 * of the context from now on.
 * @returns {Promise<() => number | undefined>} the last of them.
 */
export const watchWrites = async (/** @type {import('playwright').BrowserContext} */ context) => {
  /** @type {number | undefined} */
  let last;
  await context.exposeFunction('tellWritten', (/** @type {number} */ slots) => void (last = slots));
  await context.addInitScript(() => {
    const { put } = IDBObjectStore.prototype;
    IDBObjectStore.prototype.put = function (
      /** @type {any} */ value,
      /** @type {any[]} */ ...key
    ) {
      const slots = value?.job?.viewSlots;
      if (slots !== undefined)
        this.transaction.addEventListener('complete', () =>
          /** @type {any} */ (globalThis).tellWritten(slots),
        );
      return put.call(this, value, ...key);
    };
  });
  return () => last;
};

/**
 * How many of the changes are not there after the blow, and how long before it the oldest of these was made. What
 * was found must be one of what was typed, or all of it counts as lost.
 */
export const judge = (
  /** @type {{ value: number, at: number }[]} */ typed,
  /** @type {number} */ blowAt,
  /** @type {number} */ found,
) => {
  const had = typed.map(({ value }) => value).lastIndexOf(found);
  const oldest = typed[had + 1];
  return {
    lost: typed.length - 1 - had,
    oldestMs: oldest === undefined ? 0 : blowAt - oldest.at,
  };
};

/** A PNG of that many pixels a side that no packing makes smaller. */
export const noise = (/** @type {() => number} */ random, /** @type {number} */ side) =>
  sharp(Buffer.from(Array.from({ length: side * side * 3 }, () => Math.floor(random() * 256))), {
    raw: { width: side, height: side, channels: 3 },
  })
    .png({ compressionLevel: 0 })
    .toBuffer();

export const addFiles = (
  /** @type {Page} */ page,
  /** @type {{ name: string, buffer: Buffer }[]} */ files,
) =>
  page
    .getByRole('main')
    .locator('input[type=file]')
    .first()
    .setInputFiles(files.map((one) => ({ ...one, mimeType: 'image/png' })));

/** Names of frames that the list shows, and of those it says are without their original. */
export const framesShown = async (/** @type {Page} */ page) => {
  const list = page.getByRole('grid', { name: 'Frames in order' }).getByRole('row');
  await list.or(page.getByText('Drop frames here')).first().waitFor();
  const all = await list.allInnerTexts();
  return {
    all: all.length,
    missing: all.filter((text) => text.includes('original missing')).length,
  };
};

/** How many whole files the frames' folder of the private disk holds. */
export const frameFiles = (/** @type {Page} */ page) =>
  page.evaluate(async () => {
    const root = await navigator.storage.getDirectory();
    const folder = await root.getDirectoryHandle('frames', { create: true });
    let whole = 0;
    for await (const entry of /** @type {any} */ (folder).values()) {
      if (entry.name.endsWith('.crswap')) continue;
      // One may be swept between its name and its size.
      const file = await entry.getFile().catch(() => undefined);
      if (file?.size > 0) whole += 1;
    }
    return whole;
  });
