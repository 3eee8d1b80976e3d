// @ts-check
/**
 * Eighty seeded photos of prints (tests/golden/mend-photo-cases.ts), every second with a bubble of air
 * under its lens, two in three soft all over by air or ink: how many bubbles are found, and how many places
 * are called lifted where none is. Numbers that no limit was chosen on.
 */
import { openModules } from './shared/modules.mjs';

const [FIRST, PRINTS] = [3000, 80];
const { load, close } = await openModules();

try {
  const { printScene } = await load('/tests/golden/mend-photo.ts');
  const { liftedCase, readingOf } = await load('/tests/golden/mend-photo-cases.ts');
  /** @typedef {{ x: number, y: number }} Part */
  const printed = printScene(4);
  let [flat, wrongPrints, wrongPlaces, bubbles, found, beside, refused] = [0, 0, 0, 0, 0, 0, 0];
  for (let number = FIRST; number < FIRST + PRINTS; number += 1) {
    const photo = liftedCase(number);
    const read = readingOf(printed, photo);
    if (!read.ok) {
      refused += 1;
      continue;
    }
    const { bubble } = photo.wrong;
    if (bubble === undefined) {
      flat += 1;
      wrongPlaces += read.lifted.length;
      if (read.lifted.length > 0) wrongPrints += 1;
      continue;
    }
    bubbles += 1;
    // The picture is 120 by 90 mm.
    const away = read.lifted.map((/** @type {Part} */ { x, y }) =>
      Math.hypot(120 * x - bubble.xMm, 90 * y - bubble.yMm),
    );
    if (away.some((/** @type {number} */ mm) => mm < bubble.radiusMm)) found += 1;
    beside += away.filter((/** @type {number} */ mm) => mm > 1.3 * bubble.radiusMm).length;
  }
  console.log(
    `${found} of ${bubbles} bubbles found, ${beside} places beside them; ${wrongPlaces} wrong places in ` +
      `${wrongPrints} of ${flat} prints that lie flat; ${refused} photos not read`,
  );
} finally {
  await close();
}
