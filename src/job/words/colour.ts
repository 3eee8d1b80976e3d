/** Words for the colours of a file: how they are converted, and what must be done with it. */
import type { Intent } from '../../core/colour/icc/device-space.ts';
import type { JobColour } from '../schema/colour.ts';
import type { Job } from '../schema/job.ts';

/** Names of the standard (ICC.1:2022, 0.8), and what each does. */
export const intentWords: Readonly<
  Record<Intent, { readonly name: string; readonly does: string }>
> = {
  relative: {
    name: 'Relative',
    does: 'Keeps every colour that the paper can show, and moves others to its edge; black and white are those of the paper. The usual choice.',
  },
  perceptual: {
    name: 'Perceptual',
    does: 'Presses all colours together a little, so that steps between strong colours stay.',
  },
  saturation: {
    name: 'Saturation',
    does: 'Keeps colours strong rather than true: for flat drawings.',
  },
  absolute: {
    name: 'Absolute',
    does: 'Imitates the white of the screen too: white parts, the page around the print among them, can get ink.',
  },
};

export const intentNames: Readonly<Record<Intent, string>> = {
  relative: 'relative colorimetric, black point compensated',
  perceptual: 'perceptual',
  saturation: 'saturation',
  absolute: 'absolute colorimetric',
};

/** For the file itself and beside the button; "" for sRGB. */
export const convertedWords = ({ colour }: Pick<Job, 'colour'>): string =>
  colour === undefined
    ? ''
    : `Colours are converted for ${colour.paper} (${intentNames[colour.intent]}): print without colour management.`;

/** Of pitch strip, ghost wedge and lamp target; "" where the sheet is sRGB too. */
export const notConvertedWords = ({ colour }: Pick<Job, 'colour'>): string =>
  colour === undefined
    ? ''
    : 'Not converted for the paper, as the sheet is: its colours are sRGB, for the driver to turn into ink.';

/** What to do where the profile's bytes are not here. */
export const goneWords = ({ paper, profile }: Pick<JobColour, 'paper' | 'profile'>): string =>
  `The profile “${profile}” of ${paper} is not on this computer. Add it to a paper in the Workshop, or choose Tagged sRGB.`;

export const noCmykInPng =
  'PNG holds no CMYK. Choose TIFF or PDF as the file type, or Tagged sRGB as the colours.';
