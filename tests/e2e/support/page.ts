/** What many browser tests do with the studio's page. */
import { readFile } from 'node:fs/promises';
import type { Locator, Page } from 'playwright/test';
import { expect } from 'playwright/test';

export const field = (page: Page, name: string): Locator =>
  page.getByRole('textbox', { name, exact: true });

export const type = async (page: Page, name: string, text: string): Promise<void> => {
  await field(page, name).fill(text);
  await field(page, name).press('Enter');
};

/** On a bench that shows its parts one at a time. */
export const showPart = async (page: Page, label: string): Promise<void> => {
  await page
    .getByRole('radiogroup', { name: 'Show' })
    .getByRole('radio', { name: label, exact: true })
    .check();
};

/** Whatever is folded under these words. */
export const unfold = async (page: Page, summary: string): Promise<void> => {
  const fold = page.locator('details', { has: page.getByText(summary, { exact: true }) });
  if ((await fold.getAttribute('open')) === null) await fold.locator('summary').first().click();
};

/** Where the next sheet goes: on Weave, before it is woven. */
export const saveTo = async (page: Page, place: 'Here, then download' | 'A file I choose') => {
  await unfold(page, 'Where it is saved, and its figures');
  await page.getByRole('radio', { name: place }).check();
};

/**
 * Resolves once a button with this text has been pressed, which the page does as soon as it is there: short work is
 * over before it could be pressed from outside.
 */
export const pressOnSight = (page: Page, text: string): Promise<void> =>
  page.evaluate(
    (wanted) =>
      new Promise<void>((resolve) => {
        const look = () => {
          const button = [...document.querySelectorAll('button')].find(
            ({ textContent }) => textContent === wanted,
          );
          if (button === undefined) return;
          seen.disconnect();
          button.click();
          resolve();
        };
        const seen = new MutationObserver(look);
        seen.observe(document.body, { childList: true, subtree: true });
        look();
      }),
    text,
  );

/** The file that a link saves, once it is there. */
export const saved = async (page: Page, linkName: string) => {
  const link = page.getByRole('link', { name: linkName, exact: true });
  await expect(link).toBeVisible();
  const [download] = await Promise.all([page.waitForEvent('download'), link.click()]);
  return { bytes: await readFile(await download.path()), fileName: download.suggestedFilename() };
};

export interface KeptState {
  readonly jobId: string;
  readonly seq: number;
  /** When it was kept, milliseconds since 1970. */
  readonly at: number;
  readonly job: {
    readonly name: string;
    readonly viewSlots: number;
    readonly print: { readonly widthMm: number; readonly heightMm: number };
    readonly frames: readonly { readonly name: string }[];
    readonly [field: string]: unknown;
  };
}

/** The states of jobs that are on the disk, oldest first. */
export const keptStates = (page: Page): Promise<KeptState[]> =>
  page.evaluate(
    () =>
      new Promise((resolve, reject) => {
        const asked = indexedDB.open('tiltloom-job');
        asked.onerror = () => reject(new Error(asked.error?.message));
        asked.onsuccess = () => {
          const all = asked.result.transaction('entries').objectStore('entries').getAll();
          all.onsuccess = () => {
            asked.result.close();
            resolve((all.result as KeptState[]).sort((a, b) => a.at - b.at || a.seq - b.seq));
          };
        };
      }),
  );

/** Waits until the newest state on the disk is as told: what a reload then finds. */
export const keptAs = (page: Page, told: (job: KeptState['job']) => boolean): Promise<void> =>
  expect
    .poll(async () => {
      const newest = (await keptStates(page)).at(-1);
      return newest !== undefined && told(newest.job);
    }, 'the job is on the disk')
    .toBe(true);

/** How many whole files a folder of the private disk holds: one that is being written is empty, beside its swap file. */
export const filesIn = (page: Page, folder: string): Promise<number> =>
  page.evaluate(async (name) => {
    const root = await navigator.storage.getDirectory();
    let count = 0;
    for await (const entry of (await root.getDirectoryHandle(name, { create: true })).values())
      if (!entry.name.endsWith('.crswap'))
        count += (await (entry as FileSystemFileHandle).getFile()).size > 0 ? 1 : 0;
    return count;
  }, folder);

/** What `look` gives once it gives it twice, half a second apart: a picture follows at some later frame. */
export const atRest = async <T>(
  page: Page,
  look: () => Promise<T>,
  same: (a: T, b: T) => boolean = Object.is,
): Promise<T> => {
  await expect(page.getByText(/Preparing frames/)).toBeHidden();
  let last = await look();
  for (let looks = 0; looks < 60; looks += 1) {
    await page.waitForTimeout(500);
    const now = await look();
    if (same(now, last)) return now;
    last = now;
  }
  throw new Error('It does not come to rest.');
};

/**
 * From now on what the page writes to a file waits, as on a slow disk, until the test lets go. The file has
 * been begun by then and is not whole.
 */
export const holdWriting = async (page: Page) => {
  await page.evaluate(() => {
    Object.assign(globalThis, { waits: false });
    const { prototype } = FileSystemWritableFileStream;
    const write = prototype.write;
    const gate = new Promise<void>((resolve) => Object.assign(globalThis, { letGo: resolve }));
    prototype.write = async function (data) {
      Object.assign(globalThis, { waits: true });
      await gate;
      return write.call(this, data);
    };
  });
  return {
    untilItWaits: () =>
      expect
        .poll(() => page.evaluate(() => (globalThis as unknown as { waits: boolean }).waits))
        .toBe(true),
    letGo: () => page.evaluate(() => (globalThis as unknown as { letGo(): void }).letGo()),
  };
};
