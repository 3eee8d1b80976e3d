// @ts-check
/**
 * Two hundred seeded photos of pitch strips (tests/golden/photo-cases.ts) read by the studio: how far
 * from the truth, how honest the stated doubt, and how long a photo of 12 megapixels takes. Then two
 * hundred that went wrong (tests/golden/strip-photo-hard.ts): how many of each kind are read, within
 * their ±, or refused and why.
 */
import { openModules } from './shared/modules.mjs';

const { load, close } = await openModules();

try {
  const { CASES, photoCase, readingOf } = await load('/tests/golden/photo-cases.ts');
  const { takePhoto } = await load('/tests/golden/strip-photo.ts');
  const { readStripPhoto } = await load('/src/core/pitch/photo/photo.ts');

  /** @param {number[]} values @param {number} share */
  const at = (values, share) => {
    const sorted = [...values].sort((a, b) => a - b);
    return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN;
  };
  /** @param {boolean} typed */
  const run = async (typed) => {
    /** @type {number[]} */ const errors = [];
    /** @type {number[]} */ const sigmas = [];
    /** @type {string[]} */ const refused = [];
    for (let number = 0; number < CASES; number += typed ? 1 : 5) {
      const one = photoCase(number);
      const read = await readingOf(typed ? one : { ...one, typedMm: undefined });
      if (!read.ok) {
        refused.push(`${number} ${read.reason}`);
        continue;
      }
      const error = Math.abs(read.pitchLpi - one.truthLpi);
      errors.push(error);
      sigmas.push(error / read.sigmaLpi);
    }
    console.log(
      `${errors.length} photos read${typed ? '' : ', distance not typed'}: within 0.01 LPI ` +
        `${((100 * errors.filter((error) => error <= 0.01).length) / errors.length).toFixed(1)} %, ` +
        `95 of 100 within ${at(errors, 0.95).toFixed(4)} LPI, worst ${at(errors, 1).toFixed(4)} LPI; ` +
        `worst error over its stated σ ${at(sigmas, 1).toFixed(2)}; refused ${refused.length} ${refused.join(', ')}`,
    );
  };
  await run(true);
  await run(false);

  const { HARD_KINDS, hardCase } = await load('/tests/golden/strip-photo-hard.ts');
  for (const [at, kind] of HARD_KINDS.entries()) {
    let [read, pitch, skew] = [0, 0, 0];
    /** @type {Map<string, number>} */ const reasons = new Map();
    for (let number = at; number < 20 * HARD_KINDS.length; number += HARD_KINDS.length) {
      const one = hardCase(number);
      const reading = await readingOf(one);
      if (!reading.ok) {
        reasons.set(reading.reason, (reasons.get(reading.reason) ?? 0) + 1);
        continue;
      }
      read += 1;
      if (Math.abs(reading.pitchLpi - one.truthLpi) <= 2 * reading.sigmaLpi) pitch += 1;
      if (Math.abs(reading.skewRad - one.scene.skewRad) <= 2 * reading.skewSigmaRad) skew += 1;
    }
    const refusals = [...reasons].map(([reason, count]) => `${count} ${reason}`).join(', ');
    console.log(
      `${kind}: ${read} read, ${pitch} within ± of the pitch, ${skew} of the skew; refused ${refusals || 'none'}`,
    );
  }

  const { scene, nominal, typedMm } = photoCase(0);
  const pixels = await takePhoto({ ...scene, widthPx: 4000, heightPx: 3000 });
  const request = { pixels, strip: scene.spec, lens: nominal, readAtMm: typedMm };
  const from = performance.now();
  const read = readStripPhoto(request);
  console.log(
    `12 megapixels ${((performance.now() - from) / 1000).toFixed(2)} s, ${read.ok ? 'read' : read.reason}`,
  );
} finally {
  await close();
}
