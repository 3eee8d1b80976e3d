/**
 * 256 colours chosen for a scene, so that its frames are small: an indexed PNG is a third the size of a full-colour one.
 *
 * Median cut over a histogram, then a few rounds of k-means. Rare colours count for more than their area (a butterfly
 * must not turn the colour of the leaves), and frames of one scene share a palette so that nothing shimmers as views change.
 */

/** How far apart two colours look, roughly: differences of sRGB codes weighted for the eye. */
const WEIGHT = [0.55, 1, 0.4];

/** pictures: Uint8Array RGB row-major, sRGB-encoded, any number of them. Returns count colours as [r, g, b] codes. */
export function choosePalette(pictures, count = 256) {
  const bins = histogram(pictures);
  const boxes = [bins];
  while (boxes.length < count) {
    const scores = boxes.map((box) => (box.length > 1 ? spreadOf(box).score : -1));
    const at = scores.indexOf(Math.max(...scores));
    if (scores[at] < 0) break;
    boxes.splice(at, 1, ...cut(boxes[at]));
  }
  let palette = boxes.map(mean);
  for (let round = 0; round < 6; round++) {
    const groups = palette.map(() => []);
    for (const bin of bins) groups[nearestOf(palette, bin[0], bin[1], bin[2])].push(bin);
    palette = groups.map((group, i) => (group.length ? mean(group) : palette[i]));
  }
  return palette.map((c) => c.map(Math.round)).sort((a, b) => luma(a) - luma(b));
}

const luma = (c) => c[0] * 0.3 + c[1] * 0.59 + c[2] * 0.11;

/** Bins of 4 codes a side: [r, g, b, weight]. */
function histogram(pictures) {
  const sums = new Map();
  for (const rgb of pictures) {
    for (let i = 0; i < rgb.length; i += 3) {
      const id = ((rgb[i] >> 2) << 12) | ((rgb[i + 1] >> 2) << 6) | (rgb[i + 2] >> 2);
      const bin = sums.get(id);
      if (bin) {
        bin[0] += rgb[i];
        bin[1] += rgb[i + 1];
        bin[2] += rgb[i + 2];
        bin[3]++;
      } else sums.set(id, [rgb[i], rgb[i + 1], rgb[i + 2], 1]);
    }
  }
  return [...sums.values()].map(([r, g, b, n]) => [r / n, g / n, b / n, n ** 0.7]);
}

function mean(box) {
  const sum = [0, 0, 0];
  let weight = 0;
  for (const bin of box) {
    for (let q = 0; q < 3; q++) sum[q] += bin[q] * bin[3];
    weight += bin[3];
  }
  return sum.map((s) => s / weight);
}

/** The axis along which a box is widest, and how much is lost by leaving it whole. */
function spreadOf(box) {
  if (box.spread) return box.spread;
  const middle = mean(box);
  const variance = [0, 0, 0];
  for (const bin of box)
    for (let q = 0; q < 3; q++) variance[q] += bin[3] * ((bin[q] - middle[q]) * WEIGHT[q]) ** 2;
  const axis = variance.indexOf(Math.max(...variance));
  box.spread = { axis, score: variance[axis], at: middle[axis] };
  return box.spread;
}

function cut(box) {
  const { axis, at } = spreadOf(box);
  const low = box.filter((bin) => bin[axis] <= at);
  const high = box.filter((bin) => bin[axis] > at);
  return low.length && high.length ? [low, high] : [box.slice(0, 1), box.slice(1)];
}

function nearestOf(palette, r, g, b) {
  let best = 0;
  let least = Infinity;
  for (let i = 0; i < palette.length; i++) {
    const c = palette[i];
    const dr = (c[0] - r) * WEIGHT[0];
    const dg = (c[1] - g) * WEIGHT[1];
    const db = (c[2] - b) * WEIGHT[2];
    const d = dr * dr + dg * dg + db * db;
    if (d < least) {
      least = d;
      best = i;
    }
  }
  return best;
}

/** Uint8Array RGB → Uint8Array of palette numbers, no dither: dither is noise, and noise is what parallax gets lost in. */
export function toPalette(rgb, palette) {
  const known = new Map();
  const out = new Uint8Array(rgb.length / 3);
  for (let i = 0; i < out.length; i++) {
    const r = rgb[3 * i];
    const g = rgb[3 * i + 1];
    const b = rgb[3 * i + 2];
    const id = (r << 16) | (g << 8) | b;
    let at = known.get(id);
    if (at === undefined) known.set(id, (at = nearestOf(palette, r, g, b)));
    out[i] = at;
  }
  return out;
}
