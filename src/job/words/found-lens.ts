/** What a found lens is worth, in a sentence. */
import type { FoundLens, LensWish, Shortfall } from '../../core/plan/finder.ts';
import { trimmed } from '../../core/units/format.ts';

export type SayLength = (lengthMm: number) => string;

const percent = (share: number): string => `${trimmed(100 * share, 0)} %`;

/** "12 mm in front to 14 mm behind" */
export const saySharp = ({ frontMm, behindMm }: FoundLens['sharp'], say: SayLength): string =>
  `${say(-frontMm)} in front ${behindMm === Infinity ? 'and everything behind' : `to ${say(behindMm)} behind`}`;

const shortfalls: Readonly<
  Record<Shortfall, (found: FoundLens, wish: LensWish, say: SayLength) => string>
> = {
  frames: ({ places, frames }, { use }) => {
    if (use.kind === 'flip')
      return `only ${places} places under a rib can be printed and told apart, and ${use.pictures} pictures with their guards need ${3 * use.pictures}`;
    return places < 2
      ? 'not even two frames can be printed and told apart'
      : `${frames} frames are more than the ${places} that can be printed and told apart`;
  },
  'eyes-share-a-view': ({ betweenEyes }, { farMm }, say) =>
    `from ${say(farMm)} both eyes see one view (${trimmed(betweenEyes[1], 2)} views between them)`,
  'zone-narrower-than-eyes': ({ zoneMm }, { nearMm }, say) =>
    `from ${say(nearMm)} the zone is ${say(zoneMm[0])} wide, narrower than two eyes`,
  depth: ({ depthShare, sharp }, _, say) =>
    `${percent(depthShare)} of the depth stays sharp, ${saySharp(sharp, say)}`,
  price: (_, { mostPrice }) => `it costs more than ${mostPrice ?? ''}`,
};

const strength = (found: FoundLens, { use, gain = 1 }: LensWish, say: SayLength): string => {
  const { sharp, coneRad, frames, places } = found;
  const cone = `${trimmed((coneRad * 180) / Math.PI, 0)}°`;
  if (use.kind === 'flip')
    return `${use.pictures} pictures change over a cone of ${cone}, with ${places} places for them and their guards`;
  if (use.kind === 'animation') return `${frames} moments are told apart over a cone of ${cone}`;
  const shown = gain === 1 ? '' : ` at a depth gain of ${trimmed(gain, 3)}`;
  return `sharp from ${saySharp(sharp, say)}, with ${frames} frames${shown}`;
};

/** Why it stands where it does, worst first; no full stop. */
export const sayFound = (found: FoundLens, wish: LensWish, say: SayLength): string =>
  found.short.length === 0
    ? strength(found, wish, say)
    : found.short.map((name) => shortfalls[name](found, wish, say)).join('; ');

/** What the one above gives up for its place; undefined where it gives up nothing that is told. */
export const sayInstead = (
  found: FoundLens,
  above: FoundLens,
  { use }: LensWish,
): string | undefined => {
  const gains = [
    ...(found.lpi > above.lpi * 1.01 ? ['finer ribs'] : []),
    ...(found.coneRad > above.coneRad * 1.02 ? ['a wider cone'] : []),
    ...(use.kind === 'depth' && -found.sharp.frontMm > -above.sharp.frontMm * 1.02
      ? ['more depth']
      : []),
    ...(use.kind !== 'depth' && found.places > above.places ? ['more places'] : []),
    ...(found.lost < above.lost - 0.01 ? ['dots that come out even'] : []),
  ];
  return gains.length === 0 ? undefined : `Instead of the one above: ${gains.join(', ')}`;
};
