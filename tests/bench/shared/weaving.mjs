// @ts-check
/** The Weave bench as the faults bench uses it: by what a person sees, and by the bytes behind the link. */

/** @typedef {import('playwright').Page} Page */
/** @typedef {{ width: number, height: number, rows: number, digest: string, bytes: number }} Sheet */

/** Once the kept job is laid in, with all frames of the demo. */
export const ready = async (/** @type {Page} */ page) => {
  await page.getByText('12 for 12 slots').waitFor({ timeout: 60_000 });
};
export const link = (/** @type {Page} */ page) => page.getByRole('link', { name: 'Save sheet' });
export const bar = (/** @type {Page} */ page) =>
  page.getByRole('progressbar', { name: 'Weaving sheet' });
export const notWoven = (/** @type {Page} */ page) => page.getByText('The sheet was not woven');
export const savedAs = (/** @type {Page} */ page) => page.getByText(/^Saved as/);

/** Presses, and comes back once it is being woven: what is seen afterwards is of this sheet. */
export const press = async (/** @type {Page} */ page) => {
  await page.getByRole('button', { name: 'Weave sheet' }).click();
  await bar(page).waitFor({ timeout: 20_000 });
};

/** Until the weave has ended one way or the other; also where no frame is drawn, as in a hidden tab. */
export const ended = async (/** @type {Page} */ page) => {
  const until = Date.now() + 120_000;
  while (Date.now() < until) {
    if ((await link(page).count()) > 0) return 'woven';
    if ((await savedAs(page).count()) > 0) return 'woven';
    if ((await notWoven(page).count()) > 0) return 'told';
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  return 'nothing';
};

/**
 * Reads a PNG in the page: its size, the rows that its stream really holds, and a digest of that stream.
 * @param {Page} page
 * @param {string} [diskName] a file at the top of the private disk; without it, what the link leads to
 * @returns {Promise<Sheet | string>} what is wrong with it, where it is not whole
 */
export const readSheet = (page, diskName) =>
  page.evaluate(async (name) => {
    const blob = await (async () => {
      if (name !== undefined) {
        const root = await navigator.storage.getDirectory();
        return (await root.getFileHandle(name)).getFile();
      }
      const links = [...document.querySelectorAll('a[download]')];
      const found = links.find((one) => one.textContent?.includes('Save sheet'));
      return (await fetch(/** @type {HTMLAnchorElement} */ (found).href)).blob();
    })();
    const bytes = new Uint8Array(await blob.arrayBuffer());
    const view = new DataView(bytes.buffer);
    const kindAt = (/** @type {number} */ at) =>
      String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    const dots = [];
    let at = 8;
    while (at + 12 <= bytes.length && kindAt(at) !== 'IEND') {
      const length = view.getUint32(at);
      if (kindAt(at) === 'IDAT') dots.push(bytes.subarray(at + 8, at + 8 + length));
      at += 12 + length;
    }
    if (at + 12 !== bytes.length) return `it breaks off after ${bytes.length} bytes`;
    const [width, height] = [view.getUint32(16), view.getUint32(20)];
    const stream = new Blob(dots);
    let raw = 0;
    try {
      // Throws where the stream is cut or its checksum does not fit.
      const inflated = stream.stream().pipeThrough(new DecompressionStream('deflate')).getReader();
      for (let part = await inflated.read(); !part.done; part = await inflated.read())
        raw += part.value.length;
    } catch (error) {
      return `its stream does not unpack: ${error}`;
    }
    const sum = new Uint8Array(await crypto.subtle.digest('SHA-256', await stream.arrayBuffer()));
    const digest = Array.from(sum, (byte) => byte.toString(16).padStart(2, '0')).join('');
    const rows = raw / (1 + 3 * width);
    if (rows !== height) return `it has ${rows} of ${height} rows`;
    return { width, height, rows, digest, bytes: bytes.length };
  }, diskName);
