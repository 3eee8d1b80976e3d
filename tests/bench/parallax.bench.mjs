// @ts-check
/**
 * How long measured parallax takes: 12 frames of 1200 × 1500 px, averaged down to 800 across as in the
 * studio, each pair matched both ways and to the finest, then through the whole sequence, on one thread. The studio shares the pairs
 * among its workers, and decodes the files besides.
 */
import { openModules } from './shared/modules.mjs';

const FRAMES = 12;
const [WIDTH, HEIGHT] = [1200, 1500];
const MATCHED_PX = 800;

const { load, close } = await openModules();

/** Rough ground: sums of waves of many lengths and turns, the lower half moving against the upper. */
const frame = (/** @type {number} */ index) => {
  const data = new Uint16Array(WIDTH * HEIGHT * 3);
  const waves = Array.from({ length: 8 }, (_, i) => ({
    turn: 2.4 * i,
    k: (2 * Math.PI) / (7 + 5 * i),
  }));
  for (let y = 0; y < HEIGHT; y += 1)
    for (let x = 0; x < WIDTH; x += 1) {
      const moved = x - (y < HEIGHT / 2 ? 1.3 : -0.9) * index;
      let sum = 0;
      for (const { turn, k } of waves)
        sum += Math.sin(k * (moved * Math.cos(turn) + y * Math.sin(turn)));
      data.fill(30000 + 3000 * sum, (y * WIDTH + x) * 3, (y * WIDTH + x) * 3 + 3);
    }
  return data;
};

try {
  const { planeOfLight, pyramidOf } = await load('/src/core/frames/parallax/plane.ts');
  const { matchPair } = await load('/src/core/frames/parallax/pair.ts');
  const { motionThrough } = await load('/src/core/frames/parallax/slope.ts');
  const { trackOf } = await load('/src/core/frames/parallax/track.ts');
  const { resampleLinear } = await load('/src/core/weave/reduce.ts');
  const { axisMap, evenEdges } = await load('/src/core/weave/resample.ts');
  const rows = Math.round((HEIGHT * MATCHED_PX) / WIDTH);
  const sources = Array.from({ length: FRAMES }, (_, index) => ({
    widthPx: WIDTH,
    heightPx: HEIGHT,
    channels: 3,
    encoding: 'light16',
    data: frame(index),
  }));

  let from = performance.now();
  const pyramids = sources.map((source) => {
    const light = resampleLinear(
      source,
      axisMap(evenEdges(MATCHED_PX, WIDTH), WIDTH),
      axisMap(evenEdges(rows, HEIGHT), HEIGHT),
      0,
    );
    return pyramidOf(planeOfLight(light.columns, light.rows, light.pixels));
  });
  const reducing = performance.now() - from;

  const measure = (/** @type {number} */ downTo) => {
    from = performance.now();
    let places = 0;
    const pairs = [];
    for (let i = 1; i < FRAMES; i += 1) {
      const work = matchPair(pyramids[i - 1], pyramids[i], { ribs: 'upright', downTo });
      let step = work.next();
      while (!step.done) step = work.next();
      pairs.push(step.value);
      places += step.value.shift.filter((/** @type {number} */ s) => !Number.isNaN(s)).length;
    }
    return { seconds: (performance.now() - from) / 1000, places, pairs };
  };
  const coarse = measure(2);
  const fine = measure(0);
  from = performance.now();
  const track = trackOf(fine.pairs, MATCHED_PX);
  const planes = new Map(pyramids.map(([finest], index) => [index, finest]));
  let through = 0;
  for (const [index, pair] of fine.pairs.entries()) {
    const work = motionThrough(planes, pair, { index, ribs: 'upright', track });
    let step = work.next();
    while (!step.done) step = work.next();
    through += step.value.shift.filter((/** @type {number} */ s) => !Number.isNaN(s)).length;
  }
  const slopes = (performance.now() - from) / 1000;
  const say = (/** @type {number} */ seconds) => `${seconds.toFixed(2)} s`;
  console.log(
    `${FRAMES} frames of ${WIDTH} × ${HEIGHT}, matched at ${MATCHED_PX} × ${rows}, one thread`,
  );
  console.log(`  reducing        ${say(reducing / 1000)}`);
  console.log(`  first look      ${say(coarse.seconds)}, ${coarse.places} places`);
  console.log(
    `  to the finest   ${say(fine.seconds)}, ${fine.places} places, ${say(fine.seconds / (FRAMES - 1))} a pair`,
  );
  console.log(`  through all     ${say(slopes)}, ${through} places`);
} finally {
  await close();
}
