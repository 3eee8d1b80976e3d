// @ts-check
/**
 * Mend against the traced bench: five hundred prints with one fault, two hundred and fifty with two
 * (tests/golden/mend-cases.ts), counted by a careful eye; and sixty photos of failed prints
 * (tests/golden/mend-photo-cases.ts). Prints the confusion table of docs/mend-confusion.md as Markdown.
 */
import { openModules } from './shared/modules.mjs';

const { load, close } = await openModules();
const [SINGLES, DOUBLES, PHOTOS] = [500, 250, 60];

/** @param {number} share */
const percent = (share) => `${(100 * share).toFixed(1)} %`;
/** @param {number[]} values @param {number} share */
const at = (values, share) => {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN;
};

try {
  const { SINGLE, singleCase, doubleCase } = await load('/tests/golden/mend-cases.ts');
  const { scoreOf, shareOf, BUDGET, WIDTH_IN } = await load('/tests/golden/mend-score.ts');
  /** @typedef {import('../golden/mend-score.ts').Score} Score */
  /** @param {string} name @param {Score[]} scores */
  const report = (name, scores) => {
    const read = scores.filter(({ pitchOff }) => pitchOff !== undefined);
    const off = read.map(({ pitchOff }) => Math.abs(pitchOff ?? NaN));
    const signs = scores.reduce((sum, one) => sum + one.signs, 0);
    const wrong = scores.reduce((sum, one) => sum + one.wrongSigns, 0);
    const inside = off.filter((one) => one <= BUDGET / WIDTH_IN).length / off.length;
    const held = shareOf(
      read,
      (/** @type {Score} */ one) => Math.abs(one.pitchOff ?? NaN) <= (one.pitchPlusMinus ?? 0),
    );
    console.log(
      `${name}: ${scores.length} prints. Found ${percent(shareOf(scores, (/** @type {Score} */ one) => one.found))}. ` +
        `Of ${signs} signs with a band or more ${wrong} wrong. Corrected pitch inside a quarter zone over ` +
        `${WIDTH_IN} in ${percent(inside)}, half of them within ${at(off, 0.5).toFixed(4)}, 95 of 100 within ` +
        `${at(off, 0.95).toFixed(4)} LPI; its ± holds in ${percent(held)}.`,
    );
  };

  const from = performance.now();
  /** @type {Score[]} */
  const singles = Array.from({ length: SINGLES }, (_, i) => scoreOf(singleCase(i)));
  /** @type {Score[]} */
  const doubles = Array.from({ length: DOUBLES }, (_, i) => scoreOf(doubleCase(i)));
  report('One fault', singles);
  report('Two faults', doubles);
  console.log(`${((performance.now() - from) / 1000).toFixed(1)} s`);

  /** @type {string[]} */
  const columns = [...SINGLE, 'depth', 'flip'];
  console.log(`\n| put in \\ ranked first | ${columns.join(' | ')} | of |`);
  console.log(`| --- |${columns.map(() => ' ---: |').join('')} ---: |`);
  for (const cause of SINGLE) {
    const mine = singles.filter(({ causes }) => causes[0] === cause);
    const counts = columns.map((top) => mine.filter(({ ranked }) => ranked[0] === top).length);
    console.log(
      `| ${cause} | ${counts.map((n) => (n === 0 ? '' : n)).join(' | ')} | ${mine.length} |`,
    );
  }
  console.log('\n| of two faults, this one | found | of |\n| --- | ---: | ---: |');
  for (const cause of SINGLE) {
    const mine = doubles.filter(({ causes }) => causes.includes(cause));
    if (mine.length > 0)
      console.log(
        `| ${cause} | ${mine.filter(({ ranked }) => ranked.includes(cause)).length} | ${mine.length} |`,
      );
  }

  const { printScene } = await load('/tests/golden/mend-photo.ts');
  const { ALLOWED_LPI, ALLOWED_RAD, photoCase, readingOf, truthOf } = await load(
    '/tests/golden/mend-photo-cases.ts',
  );
  const printed = printScene(4);
  /** @type {number[][]} */
  const offs = [[], [], []];
  /** @type {number[][]} */
  const overs = [[], [], []];
  /** @type {string[]} */
  const refused = [];
  let reading = 0;
  for (let seed = 0; seed < PHOTOS; seed += 1) {
    const photo = photoCase(seed);
    const begun = performance.now();
    const read = readingOf(printed, photo);
    reading += performance.now() - begun;
    if (!read.ok) {
      refused.push(`${seed} ${read.reason}`);
      continue;
    }
    const truth = truthOf(photo);
    const place = read.offsetMm.value - truth.offsetMm;
    const pitch = 25.4 / 60;
    const errors = [
      read.pitch.viewingLpi.value - truth.lpi,
      read.skew.rad.value - truth.skewRad,
      place - pitch * Math.round(place / pitch),
    ];
    const stated = [
      read.pitch.viewingLpi.plusMinus,
      read.skew.rad.plusMinus,
      read.offsetMm.plusMinus,
    ];
    errors.forEach((error, i) => {
      offs[i]?.push(Math.abs(error));
      overs[i]?.push(Math.abs(error) / (stated[i] ?? NaN));
    });
  }
  const [lpi = [], rad = [], mm = []] = offs;
  console.log(
    `\nPhotos: ${PHOTOS - refused.length} of ${PHOTOS} read (${refused.join(', ')}), ` +
      `${(reading / PHOTOS / 1000).toFixed(2)} s each with taking it. Pitch inside a quarter zone ` +
      `${percent(lpi.filter((one) => one <= ALLOWED_LPI).length / lpi.length)}, 95 of 100 within ${at(lpi, 0.95).toFixed(4)} LPI; ` +
      `skew inside ${percent(rad.filter((one) => one <= ALLOWED_RAD).length / rad.length)}, 95 of 100 within ${at(rad, 0.95).toFixed(5)} rad; ` +
      `place 95 of 100 within ${at(mm, 0.95).toFixed(3)} mm. Stated ± holds for pitch, skew, place in ` +
      overs.map((each) => percent(each.filter((one) => one <= 1).length / each.length)).join(', '),
  );
} finally {
  await close();
}
