/**
 * A careful eye before a failed print: it looks at the traced picture, moves its head, lays a ruler on,
 * and writes down what a person could: parts of bands to a quarter, head travel to a centimetre, lengths to
 * half a millimetre. It knows nothing of what is wrong with the print.
 */
import type { Counts, Patch } from '../../src/core/mend/counts.ts';
import type { FailedPrint, Look } from './mend-bench.ts';
import { heightMm, lookAt, widthMm } from './mend-bench.ts';

const quarter = (value: number) => Math.round(Math.abs(value) * 4) / 4;
const centimetre = (value: number) => Math.round(value / 10) * 10;
const wrapped = (turns: number) => turns - Math.round(turns);

/** Hue in turns and how far the colour is from grey, of channels 0 … 2. */
const hueOf = (light: Float64Array) => {
  let [re, im] = [0, 0];
  for (let c = 0; c < 3; c += 1) {
    re += light[c]! * Math.cos((2 * Math.PI * c) / 3);
    im += light[c]! * Math.sin((2 * Math.PI * c) / 3);
  }
  return { turns: Math.atan2(im, re) / (2 * Math.PI), strength: Math.hypot(re, im) };
};

/** Runs through the hues along a line of places, by a straight line through the unwrapped hues. */
const runOver = (hues: readonly number[]): { total: number; left: number[] } => {
  const unwrapped = [hues[0]!];
  for (let i = 1; i < hues.length; i += 1)
    unwrapped.push(unwrapped[i - 1]! + wrapped(hues[i]! - hues[i - 1]!));
  const n = hues.length;
  const middle = (n - 1) / 2;
  const mean = unwrapped.reduce((sum, one) => sum + one, 0) / n;
  let [top, under] = [0, 0];
  unwrapped.forEach((one, i) => {
    top += (i - middle) * (one - mean);
    under += (i - middle) ** 2;
  });
  const slope = top / under;
  return { total: slope * n, left: unwrapped.map((one, i) => one - mean - slope * (i - middle)) };
};

const PLACES = 96;

/** Places of a line across (whole ribs) and along, from edge to edge. */
const linesOf = (print: FailedPrint, look: ReturnType<typeof lookAt>) => {
  const reach = Math.floor(widthMm(print) / 2 / look.pitchMm - 1);
  const ribs = Array.from({ length: PLACES }, (_, i) =>
    Math.round((((i + 0.5) / PLACES) * 2 - 1) * reach),
  );
  const heights = Array.from(
    { length: PLACES },
    (_, i) => ((i + 0.5) / PLACES - 0.5) * heightMm(print),
  );
  return { ribs, heights };
};

interface Jumps {
  readonly forth: number;
  readonly back: number;
  readonly takes: number;
}

/** Moves the head from one side to the other and watches one height of the print's middle. */
const watchJumps = (look: Look, yMm: number, zoneMm: number): Jumps | undefined => {
  const step = zoneMm / 160;
  const heads = Array.from({ length: 401 }, (_, i) => (i - 200) * step);
  const seen = heads.map((eye) => look(0, yMm, eye));
  const most = Math.max(...seen.map((light) => light[3]! + light[4]!));
  const least = Math.min(...seen.map((light) => light[3]! + light[4]!));
  if (least > 0.5 * most) return undefined;
  const both = seen.map((light) => {
    const [first, last] = [light[3]!, light[4]!];
    const sum = first + last;
    return sum < 0.15 * most ? 0 : Math.min(first, last) / sum;
  });
  // Where the first frame overtakes the last as the head goes right, and the stretch of both around it.
  const found: { middle: number; long: number; strong: number }[] = [];
  for (let i = 1; i < heads.length; i += 1) {
    const [was, is] = [seen[i - 1]!, seen[i]!];
    // Reversed order: the last frame overtakes the first.
    const turns = (is[3]! - is[4]!) * (was[3]! - was[4]!) <= 0;
    if (!turns || is[3]! + is[4]! < 0.3 * most) continue;
    let [low, high] = [i - 1, i];
    while (low > 0 && both[low]! >= 0.1) low -= 1;
    while (high < heads.length - 1 && both[high]! >= 0.1) high += 1;
    const stretch = heads[high]! - heads[low]! - step;
    found.push({ middle: (heads[i - 1]! + heads[i]!) / 2, long: stretch, strong: is[3]! + is[4]! });
  }
  // Crossings close together are one jump, met where both frames are strongest.
  const stretches = found
    .filter(({ strong }) => strong > 0.5 * most)
    .reduce<typeof found>((kept, one) => {
      const before = kept.at(-1);
      if (before === undefined || one.middle - before.middle > 0.2 * zoneMm) kept.push(one);
      else if (one.strong > before.strong) kept[kept.length - 1] = one;
      return kept;
    }, []);
  const forth = stretches.find(({ middle }) => middle >= 0);
  const back = [...stretches].reverse().find(({ middle }) => middle < 0);
  if (forth === undefined || back === undefined) return undefined;
  const [repeat, takes] = [forth.middle - back.middle, (forth.long + back.long) / 2];
  return { forth: forth.middle, back: -back.middle, takes: Math.min(repeat, takes) };
};

/** Where the eye looks: the print's middle, or lines beside a patch that covers it. */
interface Spot {
  readonly rib: number;
  readonly y: number;
}

const spotBeside = (
  print: FailedPrint,
  look: ReturnType<typeof lookAt>,
  patch: Patch | 'none',
): Spot => {
  if (patch === 'none') return { rib: 0, y: 0 };
  const clear = 0.75 * patch.width + 0.05;
  const away = (at: number, reach: number) =>
    Math.abs(at) > reach ? 0 : at > 0 ? at - reach : at + reach;
  const tall = heightMm(print) / widthMm(print);
  return {
    rib: Math.round((away(patch.across, clear) * widthMm(print)) / look.pitchMm),
    y: away(patch.along, clear / tall) * heightMm(print),
  };
};

/** Bands across and along, their lean, and where they go as the head moves right. */
const countBands = (
  print: FailedPrint,
  look: ReturnType<typeof lookAt>,
  { rib: middleRib, y: middleY }: Spot,
): Partial<Counts> => {
  const { ribs, heights } = linesOf(print, look);
  const across = runOver(ribs.map((rib) => hueOf(look(rib, middleY, 0)).turns));
  const along = runOver(heights.map((y) => hueOf(look(middleRib, y, 0)).turns));
  const [bandsAcross, bandsAlong] = [quarter(across.total), quarter(along.total)];
  const one = hueOf(look(middleRib, middleY, 0)).turns;
  const moved = wrapped(hueOf(look(middleRib, middleY, 5)).turns - one);
  // A band keeps its hue: where the hue changes by `moved`, it went the other way along the slope.
  const goes = (slope: number) => -Math.sign(moved) * Math.sign(slope);
  const slanting = bandsAcross > 0 && bandsAlong > 0;
  const upright = bandsAcross / widthMm(print) >= bandsAlong / heightMm(print);
  return {
    bandsAcross,
    bandsAlong,
    ...(slanting
      ? { lean: across.total * along.total > 0 ? ('forth' as const) : ('back' as const) }
      : {}),
    ...(bandsAcross > 0 && upright
      ? { run: goes(across.total) > 0 ? ('with' as const) : ('against' as const) }
      : {}),
    ...(bandsAlong > 0 && !upright
      ? { run: goes(along.total) > 0 ? ('forth' as const) : ('back' as const) }
      : {}),
  };
};

/** Stripes: the hue down one rib steps to and fro. */
const findStripes = (
  print: FailedPrint,
  look: ReturnType<typeof lookAt>,
  zoneMm: number,
): Counts['stripes'] => {
  const places = 254;
  const long = heightMm(print);
  const hues = Array.from(
    { length: places },
    (_, i) => hueOf(look(0, ((i + 0.5) / places - 0.5) * long, 0)).turns,
  );
  const steps = hues.slice(1).map((hue, i) => wrapped(hue - hues[i]!));
  const usual = [...steps].sort((a, b) => a - b)[steps.length >> 1]!;
  const jumps = steps.map((step) => wrapped(step - usual)).map((s) => (Math.abs(s) > 0.06 ? s : 0));
  const at = jumps.flatMap((jump, i) => (jump === 0 ? [] : [{ i, jump }]));
  // To and fro in turns, at even distances.
  const fair = at.filter(
    ({ jump }, k) => k === 0 || Math.sign(jump) !== Math.sign(at[k - 1]!.jump),
  );
  if (fair.length < 6 || fair.length < 0.8 * at.length) return 'none';
  const heightOf = ((fair.at(-1)!.i - fair[0]!.i) / (fair.length - 1)) * (long / places);
  const apart = fair.reduce((sum, { jump }) => sum + Math.abs(jump), 0) / fair.length;
  return { heightMm: Math.round(heightOf), apartMm: centimetre(apart * zoneMm) };
};

/** A place whose colours are paler, or which slides beside its surroundings. */
const findPatch = (print: FailedPrint, look: ReturnType<typeof lookAt>): Patch | 'none' => {
  const [columns, rows] = [20, 24];
  const reach = Math.floor(widthMm(print) / 2 / look.pitchMm - 1);
  const strength: number[] = [];
  for (let j = 0; j < rows; j += 1)
    for (let i = 0; i < columns; i += 1) {
      const rib = Math.round((((i + 0.5) / columns) * 2 - 1) * reach);
      strength.push(hueOf(look(rib, ((j + 0.5) / rows - 0.5) * heightMm(print), 0)).strength);
    }
  const usual = [...strength].sort((a, b) => a - b)[strength.length >> 1]!;
  const pale = strength.flatMap((one, k) =>
    one < 0.8 * usual ? [{ i: k % columns, j: Math.floor(k / columns) }] : [],
  );
  if (pale.length < 3 || pale.length > 0.4 * strength.length) return 'none';
  const mean = (of: (one: { i: number; j: number }) => number) =>
    pale.reduce((sum, one) => sum + of(one), 0) / pale.length;
  const [mi, mj] = [mean(({ i }) => i), mean(({ j }) => j)];
  const spread = Math.sqrt(mean(({ i, j }) => (i - mi) ** 2 + (j - mj) ** 2));
  // One place, not many: a disc of so many cells would lie this close together.
  if (spread > 1.5 * Math.sqrt(pale.length / Math.PI)) return 'none';
  return {
    across: (mi + 0.5) / columns - 0.5,
    along: (mj + 0.5) / rows - 0.5,
    width: (2 * Math.sqrt(pale.length / Math.PI)) / columns,
  };
};

/** Neighbouring ribs that differ to and fro, the same way wherever the head is. */
const findStanding = (look: Look, y: number): boolean => {
  const left = [-20, 0, 20].map((eye) => {
    const ribs = Array.from({ length: 60 }, (_, i) => hueOf(look(i - 30, y, eye)).turns);
    return runOver(ribs).left;
  });
  const mean = left[0]!.map((_, i) => left.reduce((sum, one) => sum + one[i]!, 0) / left.length);
  return Math.sqrt(mean.reduce((sum, one) => sum + one * one, 0) / mean.length) > STANDING;
};

/** Unevenness of hue that the eye calls stripes, in turns of the wheel. */
const STANDING = 0.012;

/** Everything a careful eye would write down. */
export const carefulEye = (print: FailedPrint): Counts => {
  const look = lookAt(print);
  // The zone as the eye finds it: a rough guess only sets how far the head is moved.
  const roughZone =
    (print.lens.pitchMm * print.distanceMm * print.lens.index) / print.lens.thicknessMm;
  const hues = Array.from({ length: 9 }, (_, i) => look(0, 0, (i - 4) * 0.04 * roughZone));
  const changing = [0, 1, 2].some((c) => {
    const lights = hues.map((light) => light[c]!);
    return Math.max(...lights) - Math.min(...lights) > 0.02;
  });
  const drawn = widthMm({ ...print, wrong: {} });
  const ruler = (mm: number) => Math.round(mm * 2) / 2;
  const bar = { drawnMm: drawn, measuredMm: ruler(drawn * (print.wrong.scale ?? 1)) };
  if (!changing) return { changes: 'never', barAcross: bar };
  const turns = hues.map((light) => hueOf(light).turns);
  const sense = turns.slice(1).reduce((sum, one, i) => sum + wrapped(one - turns[i]!), 0);
  const patch = findPatch(print, look);
  const spot = spotBeside(print, look, patch);
  // The jump is watched where the patch is not, straight up or down from the middle.
  const covered =
    patch !== 'none' &&
    Math.hypot(patch.across, (patch.along * heightMm(print)) / widthMm(print)) < patch.width;
  const jumps = watchJumps(look, covered ? spot.y : 0, roughZone);
  const stripes = findStripes(print, look, roughZone);
  return {
    changes: 'across',
    ...countBands(print, look, spot),
    ...(jumps === undefined
      ? { jumpTakesMm: centimetre(roughZone) }
      : {
          jumpForthMm: centimetre(jumps.forth),
          jumpBackMm: centimetre(jumps.back),
          jumpTakesMm: centimetre(jumps.takes),
        }),
    order: sense > 0 ? 'right' : 'backwards',
    patch,
    standingStripes: stripes === 'none' && findStanding(look, spot.y),
    barAcross: bar,
    ...(stripes === undefined ? {} : { stripes }),
  };
};
