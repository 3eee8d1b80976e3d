// @ts-check
/**
 * The main job in Chromium, Firefox and WebKit: own frames in, the print's size typed, the proof turned,
 * a sheet woven and taken in each file type. The sheets of all three must be alike to the dot.
 */
import assert from 'node:assert/strict';
import { mkdirSync, readdirSync } from 'node:fs';
import { after, before, describe, it } from 'node:test';
import sharp from 'sharp';
import { serve } from '../bench/shared/studio.mjs';
import { at } from '../tools/house.mjs';
import { chromium, firefox, webkit } from './drivers.mjs';

/** @typedef {import('./drivers.mjs').Driver} Driver */

const scene = at('demo-scenes/lighthouse');
const frames = readdirSync(scene)
  .filter((name) => name.endsWith('.png'))
  .map((name) => `${scene}/${name}`);

/** Script: marks what has this label, so that the driver can press it by hand. */
const aim = (/** @type {string} */ css, /** @type {string} */ label) => `
  document.querySelectorAll('[data-aim]').forEach((one) => one.removeAttribute('data-aim'));
  const named = (one) => one.getAttribute('aria-label') ?? [...(one.labels ?? [])].map((l) => l.textContent).join(' ');
  const found = [...document.querySelectorAll(${JSON.stringify(css)})].find((one) =>
    [named(one), one.textContent].some((text) => text.trim() === ${JSON.stringify(label)}));
  found?.scrollIntoView({ block: 'center' });
  found?.setAttribute('data-aim', '');
  return found !== undefined;`;

const until = async (/** @type {Driver} */ driver, /** @type {string} */ what, seconds = 40) => {
  for (const end = Date.now() + seconds * 1000; Date.now() < end;) {
    if (await driver.evaluate(`return Boolean(${what});`)) return;
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
  throw new Error(
    `After ${seconds} s not yet: ${what}\n${await driver.evaluate('return document.body.innerText;')}`,
  );
};

const press = async (
  /** @type {Driver} */ driver,
  /** @type {string} */ css,
  /** @type {string} */ label,
) => {
  assert.ok(await driver.evaluate(aim(css, label)), `nothing named ${label}`);
  await driver.click('[data-aim]');
};
const type = async (
  /** @type {Driver} */ driver,
  /** @type {string} */ label,
  /** @type {string} */ text,
) => {
  assert.ok(await driver.evaluate(aim('input', label)), `no field ${label}`);
  await driver.type('[data-aim]', text);
};

const says = (/** @type {string} */ text) =>
  `document.body.innerText.includes(${JSON.stringify(text)})`;
const link = `[...document.querySelectorAll('a[download]')].find((a) => a.textContent.includes('Save sheet'))`;

/** Presses Weave sheet and takes what the link gives. */
const take = async (/** @type {Driver} */ driver, /** @type {string} */ fileType) => {
  await press(driver, 'label, input[type=radio]', fileType);
  await until(
    driver,
    `!(${link}) || document.querySelector('[role=radio][aria-checked=true], input:checked')`,
  );
  await press(driver, 'button', 'Weave sheet');
  await until(
    driver,
    `${link} && ${link}.download.toLowerCase().includes(${JSON.stringify(`.${fileType.toLowerCase().slice(0, 3)}`)})`,
  );
  const base64 = await driver.evaluate(`
    const bytes = new Uint8Array(await (await fetch(${link}.href)).arrayBuffer());
    let text = '';
    for (let i = 0; i < bytes.length; i += 32768) text += String.fromCharCode(...bytes.subarray(i, i + 32768));
    return btoa(text);`);
  return Buffer.from(base64, 'base64');
};

/** What a browser lacks is told where it matters, and there alone: where frames are kept, and sheets held. */
const tellWhatIsLacking = async (/** @type {Driver} */ driver, /** @type {string} */ address) => {
  const hasDisk = await driver.evaluate(`
    try { await navigator.storage.getDirectory(); } catch { return false; }
    return 'createWritable' in FileSystemFileHandle.prototype;`);
  for (const { bench, there, note } of [
    {
      bench: 'weave',
      there: 'Save sheet',
      note: 'This browser has no private disk to write to',
    },
    {
      bench: 'frames',
      there: 'lighthouse_12.png',
      note: 'This browser has no private disk, so the frames’ originals',
    },
  ]) {
    // Not by address: a browser asked for the one it is at reloads the page, and a sheet in memory is gone.
    await driver.evaluate(`location.hash = '#/${bench}';`);
    await until(driver, says(there));
    if (!hasDisk) await until(driver, says(note));
    assert.equal(await driver.evaluate(`return ${says(note)};`), !hasDisk, note);
  }
  // And they do come back.
  await driver.goto('about:blank');
  await driver.goto(`${address}#/frames`);
  await until(driver, `${says('lighthouse_12.png')} && ${says('12 for 12 slots')}`);
  assert.ok(!(await driver.evaluate(`return ${says('Missing original')};`)));
};

const mainJob = async (/** @type {Driver} */ driver, /** @type {string} */ address) => {
  await driver.goto(`${address}#/weave`);
  await until(driver, says('12 for 12 slots'));
  await driver.goto(`${address}#/frames`);
  await until(driver, says('Remove all'));
  await press(driver, 'button', 'Remove all');
  await driver.upload('input[type=file]', frames);
  await until(driver, `${says('lighthouse_12.png')} && ${says('12 for 12 slots')}`);
  await type(driver, 'Print width', '3 in');
  await type(driver, 'Print height', '4 in');
  await driver.goto(`${address}#/weave`);
  await until(driver, says('2160 × 2880'));
  // The proof turns: its middle is another picture from the left than from straight ahead.
  await until(driver, `document.querySelector('canvas')?.width > 0`);
  const sheets = {
    png: await take(driver, 'PNG'),
    tiff: await take(driver, 'TIFF'),
    pdf: await take(driver, 'PDF'),
  };
  await tellWhatIsLacking(driver, address);
  return sheets;
};

const dots = async (/** @type {Buffer} */ file) => {
  const { data, info } = await sharp(file)
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  assert.deepEqual([info.width, info.height], [3 * 720, 4 * 720]);
  return data;
};

/** The page's picture lies in one stream, deflated as the bands came; the rest says when it was made. */
const pictureStream = (/** @type {Buffer} */ pdf) => {
  const from = pdf.indexOf('stream', pdf.indexOf('/Subtype /Image'));
  return pdf.subarray(from, pdf.indexOf('endstream', from));
};

describe('the main job in other browsers', () => {
  /** @type {Awaited<ReturnType<typeof serve>>} */
  let studio;
  /** @type {Awaited<ReturnType<typeof mainJob>>} */
  let reference;

  /** @type {(name: string, open: () => Promise<Driver>) => ReturnType<typeof mainJob>} */
  const inBrowser = async (name, open) => {
    const driver = await open();
    try {
      return await mainJob(driver, studio.address);
    } catch (error) {
      mkdirSync(at('test-results'), { recursive: true });
      await driver.shot(at('test-results', `${name}.png`)).catch(() => undefined);
      throw error;
    } finally {
      await driver.close();
    }
  };

  before(async () => {
    studio = await serve();
    reference = await inBrowser('Chromium', chromium);
  });
  after(() => void studio.child.kill());

  for (const [name, open] of /** @type {const} */ ([
    ['Firefox', firefox],
    ['WebKit', webkit],
  ]))
    it(`${name} weaves Chromium’s sheets to the dot`, async () => {
      const sheets = await inBrowser(name, open);
      assert.ok((await dots(sheets.png)).equals(await dots(reference.png)), 'PNG differs');
      assert.ok((await dots(sheets.tiff)).equals(await dots(reference.png)), 'TIFF differs');
      assert.ok(pictureStream(sheets.pdf).length > 100_000);
      assert.ok(pictureStream(sheets.pdf).equals(pictureStream(reference.pdf)), 'PDF differs');
    });
});
