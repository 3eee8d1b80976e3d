/** Faults, each caused: the person sees what happened and can go on, and no part passes for a whole sheet. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright/test';
import { test as firstVisit } from './support/any-visit.ts';
import sharp from 'sharp';
import { openOwnBrowser } from '../tools/own-browser.mjs';
import { keepProofContext, loseProofCard } from '../tools/proof-card.mjs';
import { expect, test } from './support/kept-demo.ts';
import { atRest, saveTo, type } from './support/page.ts';

const openWith = async (page: Page, width: string, height: string, address = './') => {
  await page.goto(`${address}#/weave`);
  await expect(page.getByText('12 for 12 slots')).toBeVisible();
  await type(page, 'Print width', width);
  await type(page, 'Print height', height);
};

const press = (page: Page) => page.getByRole('button', { name: 'Weave sheet' }).click();
const link = (page: Page) => page.getByRole('link', { name: 'Save sheet' });
const woven = (page: Page) => expect(link(page)).toBeVisible();

/** Digest of the woven sheet's dots, read where the link leads. */
const digest = (page: Page) =>
  link(page).evaluate(async (anchor: HTMLAnchorElement) => {
    const bytes = new Uint8Array(await (await fetch(anchor.href)).arrayBuffer());
    const view = new DataView(bytes.buffer);
    // The text before the dots tells when the file was written.
    const dots: Uint8Array<ArrayBuffer>[] = [];
    for (let at = 8; at < bytes.length; at += 12 + view.getUint32(at))
      if (String.fromCharCode(...bytes.subarray(at + 4, at + 8)) === 'IDAT')
        dots.push(bytes.subarray(at + 8, at + 8 + view.getUint32(at)));
    if (dots.length === 0) throw new Error('There are no dots in it.');
    const whole = await new Blob(dots).arrayBuffer();
    const sum = new Uint8Array(await crypto.subtle.digest('SHA-256', whole));
    return Array.from(sum, (byte) => byte.toString(16)).join(' ');
  });

/** How a weave worker ends, brought about in the worker itself. */
const endings = [
  // Its thread is gone, and no event tells the page.
  { name: 'end without a word', end: () => globalThis.close() },
  {
    name: 'break down with an error',
    end: () => {
      setTimeout(() => {
        throw new Error('It broke down.');
      });
    },
  },
];
for (const { name, end } of endings)
  test(`workers that ${name} under a band are replaced, and the sheet is the same to the dot @wider`, async ({
    page,
  }) => {
    await openWith(page, '8 in', '10 in');
    await press(page);
    await woven(page);
    const whole = await digest(page);
    await press(page);
    await expect(page.getByRole('progressbar', { name: 'Weaving' })).toHaveAttribute(
      'value',
      /[1-9]/,
    );
    const weavers = page.workers().filter((worker) => worker.url().includes('weave'));
    expect(weavers).not.toHaveLength(0);
    await Promise.all(weavers.map((worker) => worker.evaluate(end).catch(() => undefined)));
    await expect(link(page)).toHaveCount(0);
    await woven(page);
    expect(await digest(page)).toBe(whole);
  });

test('a full disk breaks the sheet off with a word, and weaving again works once there is room @wider', async ({
  page,
  context,
}) => {
  await openWith(page, '8 in', '10 in');
  const devtools = await context.newCDPSession(page);
  const { origin } = new URL(page.url());
  const used = await page.evaluate(async () => (await navigator.storage.estimate()).usage ?? 0);
  await devtools.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: used + 2_000_000 });
  await press(page);
  await expect(page.getByText('The sheet was not woven')).toBeVisible();
  await expect(link(page)).toHaveCount(0);
  await devtools.send('Storage.overrideQuotaForOrigin', { origin });
  await press(page);
  await woven(page);
});

test('a chosen file that can no longer be written to is told, and the next one is whole @wider', async ({
  page,
}) => {
  await page.addInitScript(() => {
    let refuses = true;
    Object.assign(globalThis, {
      showSaveFilePicker: async (options: { suggestedName: string }) => {
        const root = await navigator.storage.getDirectory();
        const handle = await root.getFileHandle(options.suggestedName, { create: true });
        if (!refuses) return handle;
        refuses = false;
        const own = await handle.createWritable();
        let written = 0;
        const sink = {
          write: (part: never) => {
            written += 1;
            if (written < 3) return own.write(part);
            return Promise.reject(
              new DOMException('The permission was withdrawn', 'NotAllowedError'),
            );
          },
          seek: (at: number) => own.seek(at),
          close: () => own.close(),
          abort: () => own.abort(),
        };
        return { name: handle.name, createWritable: async () => sink };
      },
    });
  });
  await openWith(page, '8 in', '10 in');
  await saveTo(page, 'A file I choose');
  await press(page);
  await expect(page.getByText('The sheet was not woven')).toBeVisible();
  await expect(page.getByText(/^Saved as/)).toHaveCount(0);
  await press(page);
  await expect(page.getByText(/^Saved as/)).toBeVisible();
});

/** How much the proof's picture varies: next to nothing where none is drawn. */
const spread = async (page: Page) => {
  const { channels } = await sharp(await page.getByTestId('tilt-proof').screenshot()).stats();
  return Math.max(...channels.map(({ stdev }) => stdev));
};

/** At the address that has the card draw, emulated as it is here. */
const openWithCard = async (page: Page) => {
  await keepProofContext(page);
  await openWith(page, '4 in', '5 in', './?proof=3d');
  await expect.poll(() => spread(page)).toBeGreaterThan(30);
};

test('the proof comes back when the graphics card forgets it @wider', async ({ page }) => {
  await openWithCard(page);
  await loseProofCard(page, 200);
  await expect.poll(() => spread(page)).toBeGreaterThan(30);
  await expect(page.getByText('The graphics card no longer draws the proof')).toBeHidden();
});

test('the proof is drawn without the graphics card when that does not come back', async ({
  page,
}) => {
  await openWithCard(page);
  const proof = page.getByTestId('tilt-proof');
  const before = await atRest(
    page,
    () => proof.screenshot(),
    (one, other) => one.equals(other),
  );
  await loseProofCard(page);
  await expect(page.getByText('The graphics card no longer draws the proof')).toBeVisible();
  await expect(proof.locator('canvas')).toHaveCount(1);
  // Two painters draw it nearly alike: see tilt-painters.
  const away = async () => {
    const [one, other] = await Promise.all(
      [before, await proof.screenshot()].map((shot) => sharp(shot).removeAlpha().raw().toBuffer()),
    );
    if (one?.length !== other?.length) return Infinity;
    const sum = one?.reduce((all, value, at) => all + Math.abs(value - (other?.[at] ?? 0)), 0) ?? 0;
    return sum / (one?.length ?? 1);
  };
  await expect.poll(away).toBeLessThan(3);
});

firstVisit(
  'without private disk, file dialog and off-screen canvas a sheet is woven all the same @wider',
  async ({ page }) => {
    await page.addInitScript(() => {
      const gone = globalThis as unknown as Record<string, unknown>;
      gone['OffscreenCanvas'] = undefined;
      gone['showSaveFilePicker'] = undefined;
      Object.defineProperty(navigator.storage, 'getDirectory', {
        value: () => Promise.reject(new DOMException('Not here', 'SecurityError')),
      });
    });
    await openWith(page, '2 in', '2.5 in');
    await press(page);
    await woven(page);
  },
);

test('a tab that is hidden, then frozen, under a weave: the sheet is the same to the dot @wider', async ({
  baseURL,
}) => {
  const profile = await mkdtemp(join(tmpdir(), 'tiltloom-hidden-'));
  const browser = await openOwnBrowser(profile);
  try {
    const page = await browser.context.newPage();
    await openWith(page, '8 in', '8 in', baseURL);
    await press(page);
    await woven(page);
    const inView = await digest(page);

    await page.evaluate(() => {
      const heard: string[] = [];
      for (const kind of ['freeze', 'resume'])
        document.addEventListener(kind, () => heard.push(kind));
      Object.assign(globalThis, { heard });
    });
    const heard = () => page.evaluate(() => (globalThis as unknown as { heard: string[] }).heard);
    const visibility = () => page.evaluate(() => document.visibilityState);
    const progress = page.getByRole('progressbar', { name: 'Weaving' });
    const devtools = await browser.context.newCDPSession(page);
    const other = await browser.context.newPage();
    await page.bringToFront();
    await press(page);
    await expect(progress).toBeVisible();
    await other.bringToFront();
    expect(await visibility()).toBe('hidden');
    await devtools.send('Page.setWebLifecycleState', { state: 'frozen' });
    await expect.poll(heard).toEqual(['freeze']);
    const rows = await progress.getAttribute('value');
    await page.waitForTimeout(700);
    expect(await progress.getAttribute('value')).toBe(rows);
    await devtools.send('Page.setWebLifecycleState', { state: 'active' });
    await expect.poll(heard).toEqual(['freeze', 'resume']);
    await expect(link(page)).toHaveCount(1);
    expect(await visibility()).toBe('hidden');
    expect(await digest(page)).toBe(inView);
  } finally {
    await browser.kill();
    await rm(profile, { recursive: true, force: true });
  }
});
