// @ts-check
/**
 * Decodes what it is sent, one file after the other, and says how it went. Run by a bench as a process
 * of its own: whatever a broken file does to it, the bench lives. The largest number of bytes that a
 * decoder asked for at once is noted, also where the memory was never touched.
 */
import { openModules } from './modules.mjs';

let largest = 0;
const note = (/** @type {number} */ bytes) => {
  if (bytes > largest) largest = bytes;
};

/** Typed arrays and buffers that tell how large they were asked to be. */
const watchAllocations = () => {
  const names = /** @type {const} */ ([
    ...['Uint8Array', 'Uint8ClampedArray', 'Int8Array', 'Uint16Array', 'Int16Array', 'Uint32Array'],
    ...['Int32Array', 'Float32Array', 'Float64Array', 'ArrayBuffer'],
  ]);
  for (const name of names) {
    const plain = /** @type {any} */ (globalThis)[name];
    /** @type {any} */
    const watched = new Proxy(plain, {
      construct(target, args, newTarget) {
        const made = Reflect.construct(target, args, newTarget === watched ? target : newTarget);
        // What could not be had was refused by the engine, and did no harm.
        if (typeof args[0] === 'number') note(args[0] * (target.BYTES_PER_ELEMENT ?? 1));
        return made;
      },
    });
    /** @type {any} */ (globalThis)[name] = watched;
  }
};

const { load } = await openModules();
const { decodeImage } = await load('/workers/decode/index.ts');
const { readDepthFile } = await load('/workers/depth/index.ts');
const { errorCodes } = await load('/src/contract/errors.ts');
watchAllocations();

const readers = {
  frame: (/** @type {Blob} */ file, /** @type {string} */ name) => decodeImage(file, name),
  depth: (/** @type {Blob} */ file, /** @type {string} */ name) =>
    readDepthFile({ key: '1', file, name }),
};

/** @param {any} picture */
const isWhole = ({ widthPx, heightPx, channels, data, values }) =>
  widthPx > 0 &&
  heightPx > 0 &&
  (values === undefined
    ? data.length === widthPx * heightPx * channels
    : values.length === widthPx * heightPx);

process.on('message', async (message) => {
  const { bytes, name, reader } =
    /** @type {{ bytes: string, name: string, reader: keyof typeof readers }} */ (message);
  largest = 0;
  const began = performance.now();
  let outcome = 'image';
  let said = '';
  try {
    const picture = await readers[reader](new Blob([Buffer.from(bytes, 'base64')]), name);
    if (!isWhole(picture)) outcome = 'not whole';
  } catch (error) {
    const { code, file, message: text } = /** @type {any} */ (error);
    said = String(text);
    outcome =
      errorCodes.includes(code) && code !== 'internal' && file === name && said.includes(name)
        ? code
        : 'unnamed';
    if (outcome === 'unnamed') said = String(/** @type {any} */ (error)?.stack ?? error);
  }
  process.send?.({ outcome, said, ms: performance.now() - began, largest });
});
process.send?.('ready');
