/**
 * Photos of strips that went wrong as photos do: each is refused with the right reason, or read within the ± that it
 * states. Four of each kind run in the wider run; `npm run bench -- photo` runs all two hundred and reports.
 */
import { describe, expect, it } from 'vitest';
import { readStripPhoto } from '../../src/core/pitch/photo/photo.ts';
import { viewThrough } from '../../src/core/pitch/photo/view.ts';
import { mm } from '../../src/core/units/units.ts';
import { bundlesOfRib } from './lens-bench.ts';
import { photoCase, readingOf } from './photo-cases.ts';
import { lensInFocus } from './press.ts';
import { HARD_KINDS, hardCase } from './strip-photo-hard.ts';
import type { PhotoScene } from './strip-photo-scene.ts';
import { plainScene } from './strip-photo-scene.ts';
import { takePhoto } from './strip-photo.ts';

const { scene, nominal } = photoCase(0);
const sheetOf = ({ pitchMm, thicknessMm, index, radiusMm }: typeof nominal) => ({
  pitchMm: mm(pitchMm),
  thicknessMm: mm(thicknessMm),
  index,
  radiusMm: mm(radiusMm),
});

const read = async (change: Partial<PhotoScene>) => {
  const plain = { ...plainScene(scene.spec, nominal), widthPx: 900, heightPx: 1050 };
  return readStripPhoto({
    pixels: await takePhoto({ ...plain, ...change }),
    strip: scene.spec,
    lens: sheetOf(nominal),
    readAtMm: scene.spec.readFromMm,
  });
};

const toldOf = async (change: Partial<PhotoScene>) => {
  const reading = await read(change);
  if (reading.ok) throw new Error('was read');
  expect(reading.whatToDo).toMatch(/\.$/);
  return `${reading.reason}: ${reading.sentence}`;
};

describe('a photo is refused for the right reason', () => {
  it.each([
    ['across', [0, 0.55, 0, 1] as const],
    ['along', [0, 1, 0.4, 1] as const],
  ])('where the lens covers half of the bands %s', async (_, lensReach) => {
    expect(await toldOf({ lensReach })).toMatch(/^part-covered:/);
  });

  it('where the lens is turned by 5°', async () => {
    const told = await toldOf({ skewRad: (5 * Math.PI) / 180 });
    const degrees = /^lens-askew: .* about (\d+(?:\.\d)?)°/.exec(told)?.[1];
    expect(Math.abs(Number(degrees) - 5)).toBeLessThan(0.15);
  });

  it('where the lens is 3.5 % off the job’s pitch', async () => {
    const told = await toldOf({ lens: { ...nominal, pitchMm: nominal.pitchMm * 1.035 } });
    // Lines per mm: 1 − 1 / 1.035 = 3.4 %.
    expect(told).toMatch(/^other-lens: .* about 3\.[345] %/);
  });
});

describe('where a rib is seen', () => {
  it.each([
    [60, 0.3],
    [40, 0.55],
    [75, 0.2],
  ])('from up to 35° aside agrees with the bench’s trace: %d to the inch', (lines, radiusMm) => {
    const lens = lensInFocus(lines, radiusMm);
    const { beside } = viewThrough(sheetOf(lens));
    for (const aside of [0.1, 0.3, 0.5, 0.7]) {
      let [re, im] = [0, 0];
      // From so far away that all of the rib is seen in one direction.
      const eye = { acrossMm: aside * 1e5, distanceMm: 1e5 };
      for (const { from, to, share } of bundlesOfRib(lens, 0, eye, 128)) {
        const turn = (Math.PI * (from + to)) / lens.pitchMm;
        re += share * Math.cos(turn);
        im += share * Math.sin(turn);
      }
      const off = beside(aside, 0) / lens.pitchMm - Math.atan2(im, re) / (2 * Math.PI);
      // Half a per cent of a rib.
      expect(Math.abs(off - Math.round(off)), `${aside}`).toBeLessThan(0.005);
    }
  });
});

describe.each(HARD_KINDS.map((kind, at) => [kind, at] as const))('photos: %s', (kind, at) => {
  const allowed = {
    blurred: ['blur'],
    'lens turned': ['lens-askew'],
    'another lens': ['other-lens'],
  } as Readonly<Record<string, readonly string[]>>;
  const refusals = kind.startsWith('covered') ? ['part-covered'] : (allowed[kind] ?? []);

  it('are refused for their reason, or read within three of their σ @wider', async () => {
    for (const round of [0, 5, 10, 15]) {
      const one = hardCase(at + HARD_KINDS.length * round);
      const reading = await readingOf(one);
      if (!reading.ok) {
        expect(refusals, `round ${round}`).toContain(reading.reason);
        continue;
      }
      expect(Math.abs(reading.pitchLpi - one.truthLpi), `round ${round}`).toBeLessThan(
        3 * reading.sigmaLpi,
      );
      expect(Math.abs(reading.skewRad - one.scene.skewRad), `round ${round}`).toBeLessThan(
        4 * reading.skewSigmaRad,
      );
    }
  });
});
