/** Typefaces that a title can be typed in. */
import type { Typed } from '../schema/typed.ts';

/** These come with the studio, so they look the same on every device. */
export const ownFaces = ['Source Sans 3', 'Bitter'] as const;
/** Whatever the device has of that kind. */
export const genericFaces = ['sans-serif', 'serif', 'monospace'] as const;

export const faceNames: Readonly<Record<string, string>> = {
  'Source Sans 3': 'Source Sans',
  Bitter: 'Bitter, with serifs',
  'sans-serif': 'Sans-serif of this device',
  serif: 'Serif of this device',
  monospace: 'Monospace of this device',
};

export const isOwnFace = (face: string): boolean => ownFaces.some((own) => own === face);
export const isGeneric = (face: string): boolean => genericFaces.some((one) => one === face);

export const weightNames: readonly (readonly [weight: number, name: string])[] = [
  [300, 'Light'],
  [400, 'Regular'],
  [600, 'Semibold'],
  [700, 'Bold'],
  [900, 'Black'],
];

/** What the studio's own typefaces hold: Latin of western Europe, with its signs. */
const held =
  /^[\s\u0020-\u00ff\u0131\u0152\u0153\u02bb\u02bc\u02c6\u02da\u02dc\u0304\u0308\u0329\u2000-\u206f\u20ac\u2122\u2191\u2193\u2212\u2215]*$/;

export const lacksLetters = ({ face, text }: Pick<Typed, 'face' | 'text'>): boolean =>
  isOwnFace(face) && !held.test(text);

/** The typeface that was drawn instead, as a sentence; undefined where all of it is in the chosen one. */
export const sayInstead = (typed: Typed): string | undefined => {
  const { face, instead } = typed;
  if (instead !== undefined)
    return `“${face}” was not on the device that drew this title: it was drawn in ${faceNames[instead] ?? instead}.`;
  return lacksLetters(typed)
    ? `${faceNames[face] ?? face} lacks some of these letters: they were drawn in a typeface of the device.`
    : undefined;
};
