// @ts-check
/**
 * Saved sheets, opened by readers of others that Debian carries: libtiff's tiffinfo, poppler's pdfinfo,
 * pdfimages and pdftoppm, exiftool, and libvips through sharp. The same dots in all three file types,
 * the size within a dot, the boxes and the output intent of the page.
 *
 * Sources: TIFF 6.0 (tags 282, 283, 296); ISO 32000 (boxes in 1/72 in); W3C PNG, pHYs (720 dpi
 * are 28346 a metre); ISO 216 (A5 is 148 × 210 mm).
 */
import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, describe, it } from 'node:test';
import sharp from 'sharp';
import { openStudio, saveSheet, setFields, weave } from '../bench/shared/studio.mjs';
import { installPackages, isDebian } from '../tools/debian.mjs';
import { run } from '../tools/house.mjs';

const DPI = 720;
const packages = { tiffinfo: 'libtiff-tools', pdfinfo: 'poppler-utils', exiftool: 'exiftool' };

/** What a reader printed; its failing is the test's. */
const read = async (/** @type {string} */ command, /** @type {string[]} */ ...args) => {
  const { code, output } = await run(command, args, { quiet: true });
  assert.equal(code, 0, `${command} ${args.join(' ')}\n${output}`);
  return output;
};

const there = async (/** @type {string} */ command) =>
  (await run('which', [command], { quiet: true })).code === 0;

const dotsOf = async (/** @type {string | Buffer} */ file) =>
  sharp(file, { limitInputPixels: false })
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });

const work = mkdtempSync(join(tmpdir(), 'tiltloom-readers-'));
/** @type {Awaited<ReturnType<typeof openStudio>>} */
let studio;

before(async () => {
  const missing = [];
  for (const [command, name] of Object.entries(packages))
    if (!(await there(command))) missing.push(name);
  if (missing.length > 0 && isDebian()) await installPackages(missing);
  studio = await openStudio();
});
after(async () => {
  await studio.close();
  rmSync(work, { recursive: true, force: true });
});

/** @returns {Promise<Record<'png' | 'tiff' | 'pdf', string>>} paths by file type */
const weaveAll = async (/** @type {string} */ name) => {
  const { page } = studio;
  const paths = { png: '', tiff: '', pdf: '' };
  for (const type of /** @type {const} */ (['png', 'tiff', 'pdf'])) {
    await page.goto(`${new URL(page.url()).origin}/#/weave`);
    await page.getByRole('radio', { name: type.toUpperCase(), exact: true }).check();
    await weave(page);
    paths[type] = join(work, `${name}.${type}`);
    await saveSheet(page, paths[type]);
  }
  return paths;
};

/** The one picture inside a PDF, as pdfimages takes it out: no page is drawn for it. */
const pictureOf = async (/** @type {string} */ pdf, /** @type {string} */ name) => {
  await read('pdfimages', '-png', pdf, join(work, `${name}-inside`));
  const [file, ...others] = readdirSync(work).filter((entry) => entry.startsWith(`${name}-inside`));
  assert.equal(others.length, 0, 'expected one picture');
  return join(work, file ?? '');
};

const numbers = (/** @type {string} */ text) => text.trim().split(/\s+/).map(Number);
const boxOf = (/** @type {string} */ info, /** @type {string} */ name) =>
  numbers(new RegExp(`^${name}:(.+)$`, 'm').exec(info)?.[1] ?? '');

/**
 * @param {string} name
 * @param {() => Promise<void>} prepare
 * @param {{ widthMm: number, heightMm: number, trim: number[] | undefined }} want
 *   `trim` in millimetres from the left and the bottom edge: left, bottom, right, top.
 */
const checks = (name, prepare, { widthMm, heightMm, trim }) => {
  describe(name, () => {
    /** @type {Awaited<ReturnType<typeof weaveAll>>} */
    let paths;
    /** @type {Buffer} */
    let dots;
    const [width, height] = [widthMm, heightMm].map((mm) => Math.round((mm / 25.4) * DPI));
    const near = (/** @type {number[]} */ got, /** @type {number[]} */ wantPt) =>
      wantPt.forEach((value, i) =>
        assert.ok(Math.abs((got[i] ?? NaN) - value) <= 72 / DPI, `${got} for ${wantPt}`),
      );
    const pt = (/** @type {number} */ mm) => (mm / 25.4) * 72;

    before(async () => {
      await prepare();
      paths = await weaveAll(name.replaceAll(' ', '-'));
      const { data, info } = await dotsOf(paths.png);
      assert.deepEqual([info.width, info.height], [width, height]);
      dots = data;
    });

    it('PNG: exiftool finds size, density, profile or sRGB, and the words', async () => {
      const facts = await read('exiftool', '-G1', '-a', '-s', paths.png);
      assert.match(facts, new RegExp(`ImageWidth +: ${width}`));
      assert.match(facts, /PixelsPerUnitX +: 28346/);
      assert.match(facts, /PixelUnits +: meters/);
      assert.match(facts, /SRGBRendering|ProfileDescription/);
      assert.match(facts, /Title +: /);
      assert.doesNotMatch(facts, /Warning/);
    });

    it('TIFF: tiffinfo finds 720 dpi and libvips the same dots', async () => {
      const facts = await read('tiffinfo', paths.tiff);
      assert.match(facts, new RegExp(`Image Width: ${width} Image Length: ${height}`));
      assert.match(facts, /Resolution: 720, 720 pixels\/inch/);
      assert.match(facts, /Compression Scheme: AdobeDeflate/);
      assert.doesNotMatch(facts, /Warning|Error/);
      const { data } = await dotsOf(paths.tiff);
      assert.ok(data.equals(dots), 'the dots differ');
      const words = await read('exiftool', '-s', paths.tiff);
      assert.match(words, /ProfileDescription|ICCProfileName/);
      assert.doesNotMatch(words, /Warning/);
    });

    it('PDF: pdfinfo finds the boxes, pdfimages the same dots at 720 an inch', async () => {
      const info = await read('pdfinfo', '-box', paths.pdf);
      near(boxOf(info, 'MediaBox'), [0, 0, pt(widthMm), pt(heightMm)]);
      if (trim !== undefined) near(boxOf(info, 'TrimBox'), trim.map(pt));
      const list = await read('pdfimages', '-list', paths.pdf);
      const [, , , w, h, color, comps, bpc, , interp, , , xPpi, yPpi] = (
        list.trim().split('\n')[2] ?? ''
      )
        .trim()
        .split(/\s+/);
      assert.deepEqual(
        [w, h, color, comps, bpc, interp, xPpi, yPpi],
        [`${width}`, `${height}`, 'icc', '3', '8', 'no', '720', '720'],
      );
      const { data } = await dotsOf(await pictureOf(paths.pdf, name.replaceAll(' ', '-')));
      assert.ok(data.equals(dots), 'the dots differ');
      const intent = readFileSync(paths.pdf).toString('latin1');
      assert.match(intent, /\/OutputIntents?/);
      assert.doesNotMatch(await read('exiftool', '-s', paths.pdf), /Warning/);
    });

    it('PDF: pdftoppm draws the page at its native dots without blending them', async () => {
      const out = join(work, `${name.replaceAll(' ', '-')}-drawn`);
      await read('pdftoppm', '-r', String(DPI), '-singlefile', '-png', paths.pdf, out);
      const drawn = await dotsOf(`${out}.png`);
      // The page's last part of a dot may be rounded either way.
      assert.ok(Math.abs(drawn.info.width - (width ?? 0)) <= 1);
      assert.ok(Math.abs(drawn.info.height - (height ?? 0)) <= 1);
      let alike = 0;
      let tried = 0;
      for (let y = 5; y < Math.min(drawn.info.height, height ?? 0); y += 97)
        for (let x = 5; x < Math.min(drawn.info.width, width ?? 0); x += 13) {
          const [a, b] = [(y * drawn.info.width + x) * 3, (y * (width ?? 0) + x) * 3];
          tried += 1;
          if ([0, 1, 2].every((c) => Math.abs((drawn.data[a + c] ?? 0) - (dots[b + c] ?? 0)) <= 2))
            alike += 1;
        }
      assert.ok(alike / tried > 0.99, `${alike} of ${tried} alike`);
    });
  });
};

checks(
  'the picture alone',
  () => setFields(studio.page, { 'Print width': '8 in', 'Print height': '10 in' }),
  { widthMm: 203.2, heightMm: 254, trim: [0, 0, 203.2, 254] },
);

checks(
  'a page of A5',
  async () => {
    const { page } = studio;
    await setFields(page, { 'Print width': '80 mm', 'Print height': '100 mm' });
    await page.goto(`${new URL(page.url()).origin}/#/mount`);
    await page.getByRole('radio', { name: 'Page', exact: true }).check();
    await page.getByRole('radio', { name: 'A whole page' }).check();
    await page.getByRole('combobox', { name: 'Sheet paper' }).selectOption('a5');
    await setFields(page, { 'Print from the left': '40 mm', 'Print from the top': '50 mm' });
  },
  { widthMm: 148, heightMm: 210, trim: [40, 210 - 150, 120, 210 - 50] },
);
