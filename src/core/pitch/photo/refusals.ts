/** Why a photo cannot give a number, and what to do about it. */
import { trimmed } from '../../units/format.ts';
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
  'lens-askew': [
    'The lens lies askew on the strip, by about {}°.',
    'Turn the lens until its ribs run along the lines of the bands, and take the photo again.',
  ],
  'other-lens': [
    'The lens on the strip is about {} % off the pitch that this job names.',
    'Check that the lens in the photo is the one that the job names, and that the strip was printed at 100 %.',
  ],
  'part-covered': [
    'The lens covers only a part of the bands.',
    'Lay the lens over all bands and over their whole width, and take the photo again. Where the lens is too small for that, count fringes by eye within its width, or weave a narrower strip.',
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

/** @param figure stands for {} in the sentence. */
export const refuse = (reason: PhotoRefusal, corners?: PhotoCorners, figure = 0): PhotoReading => {
  const [told, whatToDo] = words[reason];
  const sentence = told.replace('{}', trimmed(figure, 1));
  return { ok: false, reason, sentence, whatToDo, ...(corners === undefined ? {} : { corners }) };
};
