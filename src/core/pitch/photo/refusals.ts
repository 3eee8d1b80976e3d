/** Why a photo cannot give a number, and what to do about it. */
import type { PhotoCorners, PhotoReading, PhotoRefusal } from './photo-terms.ts';

const words: Record<PhotoRefusal, readonly [sentence: string, whatToDo: string]> = {
  'no-corners': [
    'The four corner marks were not found in the photo.',
    'Take the photo so that all four marks are in it, on an even background; or drag the four handles onto the outer corners of the marks.',
  ],
  blur: [
    'The photo is not sharp enough: the lines of the corner marks and bars run into the white beside them.',
    'Hold the camera still or rest it on something, let it focus on the strip, and take the photo again.',
  ],
  glare: [
    'A reflection covers too much of the bands: they are white where fringes should be.',
    'Turn the strip or the lamp until no light is mirrored in the lens, then take the photo again.',
  ],
  'wrong-strip': [
    'What lies between the corner marks does not fit this strip: its bands, labels or fringes are not where they should be.',
    'Check that the photo shows the strip that was woven last, the whole of it, with the lens it was woven for.',
  ],
  'lens-turned': [
    'No fringes are seen in the bands.',
    'Lay the lens with its ribs up and its flat side on the print, ribs along the short way of the bands’ lines (upright ribs run up and down the strip), over all bands, and take the photo again.',
  ],
  'too-small': [
    'The strip is too small in the photo: there are not enough pixels for each rib.',
    'Go closer or use the camera’s full resolution, so that the strip fills the photo.',
  ],
  'no-fit': [
    'Fringes are seen, but more than one pitch fits them equally well.',
    'Take another photo straight from the front in even light, or count the fringes by eye.',
  ],
};

export const refuse = (reason: PhotoRefusal, corners?: PhotoCorners): PhotoReading => {
  const [sentence, whatToDo] = words[reason];
  return { ok: false, reason, sentence, whatToDo, ...(corners === undefined ? {} : { corners }) };
};
