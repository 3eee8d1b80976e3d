/** What the studio says where someone can be hurt; all of it gives way to local rules and data sheets. */
import type { CautionKind } from '../facts/mount/step.ts';

export interface CautionWords {
  readonly of: string;
  readonly say: string;
}

export const cautionWords: Readonly<Record<CautionKind, CautionWords>> = {
  blades: {
    of: 'Blades and trimmers',
    say: 'Cut away from the hand that holds the sheet, along a metal rule, and follow what the tool’s maker says.',
  },
  adhesives: {
    of: 'Adhesives and solvents',
    say: 'Open a window, keep flames away, and follow the data sheet. Let the ink dry before it meets the adhesive.',
  },
  rollers: {
    of: 'Hot laminators and rollers',
    say: 'They burn and they pinch: keep fingers, sleeves and hair clear. Check first that the lens sheet may be heated at all.',
  },
  lamps: {
    of: 'Lamps behind a print',
    say: 'Use a lamp rated for the frame, and leave room for air. Local electrical rules apply; mains wiring is for a qualified person.',
  },
  flashing: {
    of: 'Flashing pictures',
    say: 'A print that flips between light and dark can harm photosensitive viewers as they walk past. Choose frames of like brightness.',
  },
  depth: {
    of: 'Strong depth',
    say: 'Deep pictures strain the eyes. Stop looking when it hurts, and make the next one shallower.',
  },
};

export const GIVE_WAY =
  'All of this gives way to your local rules and to the data sheets of your tools and materials.';
