/**
 * A picture from the phone beside the desk, in the built studio: two browsers that know nothing of each other but
 * two codes, and no server between them.
 */
import { writeFile } from 'node:fs/promises';
import type { Locator, Page } from 'playwright/test';
import { chromium } from 'playwright/test';
import sharp from 'sharp';
import { launchOptions, requireBrowser } from '../tools/browser.mjs';
import { expect, test } from './support/kept-demo.ts';

const desk = (page: Page) => page.getByRole('dialog', { name: 'A photo from your phone' });

/** Opens the window on Mend, and says where a phone would reach this studio. */
const showCode = async (page: Page, baseURL: string): Promise<string> => {
  await page.goto(`${baseURL}#/mend`);
  await page.getByRole('button', { name: 'From my phone' }).click();
  const window = desk(page);
  await expect(window.getByText('This address is on this computer alone')).toBeVisible();
  await window.getByLabel('Address of the studio for the phone').fill(baseURL);
  await page.keyboard.press('Enter');
  await expect(window.getByRole('img', { name: 'Code for the phone’s camera' })).toBeVisible();
  await window.getByText('The same as an address').click();
  return (await window.locator('code').textContent()) ?? '';
};

const openBrowser = async (more: readonly string[] = []) => {
  const { args, ...options } = launchOptions(await requireBrowser());
  return chromium.launch({ ...options, args: [...args, ...more] });
};

/** The phone: another browser, at the address that its camera read. */
const openPhone = async (address: string) => {
  const browser = await openBrowser();
  const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
  await page.goto(address);
  await expect(page.getByRole('heading', { name: 'A photo for the desk' })).toBeVisible();
  return { page, end: () => browser.close() };
};

/** Not a print that could be read, but a picture of some megabytes. */
const picture = async () => ({
  name: 'harbour.png',
  mimeType: 'image/png',
  buffer: await sharp({
    create: {
      width: 1600,
      height: 1200,
      channels: 3,
      background: 'grey',
      noise: { type: 'gaussian', mean: 128, sigma: 60 },
    },
  })
    .png()
    .toBuffer(),
});

const sendFrom = async (phone: Page): Promise<void> => {
  await expect(phone.getByText('The desk is linked.')).toBeVisible();
  await phone.locator('input[aria-label="Choose a picture"]').setInputFiles([await picture()]);
  await expect(phone.getByText('The desk has the picture. You can close this page.')).toBeVisible();
};

/** The desk has read it as it reads any photo. */
const arrivedAt = async (page: Page): Promise<void> => {
  await expect(desk(page)).toHaveCount(0);
  await expect(page.getByRole('img', { name: 'Your photo of the print' })).toBeVisible();
};

test('codes carried by hand: the picture comes, whole, and is read', async ({ page, baseURL }) => {
  const address = await showCode(page, baseURL ?? '');
  const phone = await openPhone(address);
  try {
    const paste = desk(page).getByLabel('Or paste the phone’s code');
    await paste.fill('half a co');
    await page.keyboard.press('Enter');
    await expect(desk(page).getByText('This is not the whole code')).toBeVisible();
    await phone.page.getByText('The same to copy and paste').click();
    await paste.fill((await phone.page.locator('code').textContent()) ?? '');
    await page.keyboard.press('Enter');
    await sendFrom(phone.page);
    await arrivedAt(page);
  } finally {
    await phone.end();
  }
});

/** A film of one picture, as the browser's stand-in for a camera reads it: YUV4MPEG2, 4:2:0. */
const filmOf = async (shown: Locator): Promise<Buffer> => {
  const [width, height] = [640, 480];
  const grey = await sharp(await shown.screenshot())
    .resize(width, height, { fit: 'contain', background: 'white' })
    .greyscale()
    .raw()
    .toBuffer();
  const colour = Buffer.alloc((width * height) / 2, 128);
  const frame = Buffer.concat([Buffer.from('FRAME\n'), grey, colour]);
  const head = Buffer.from(`YUV4MPEG2 W${width} H${height} F10:1 Ip A1:1 C420jpeg\n`);
  return Buffer.concat([head, frame, frame]);
};

test('the phone’s code held before the desk’s camera links the two @wider', async ({
  baseURL,
}, info) => {
  const film = info.outputPath('camera.y4m');
  const browser = await openBrowser([
    '--use-fake-ui-for-media-stream',
    '--use-fake-device-for-media-stream',
    `--use-file-for-fake-video-capture=${film}`,
  ]);
  const page = await browser.newPage();
  const phone = await openPhone(await showCode(page, baseURL ?? ''));
  const code = phone.page.getByRole('img', { name: 'Code for the desk’s camera' });
  await expect(code).toBeVisible();
  await writeFile(film, await filmOf(code));
  await desk(page)
    .getByRole('button', { name: /^Read it with/ })
    .click();
  await sendFrom(phone.page);
  await arrivedAt(page);
  await phone.end();
  await browser.close();
});
