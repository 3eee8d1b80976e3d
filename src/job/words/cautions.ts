/**
 * The cautions: what the studio says where someone can be hurt, beside the advice. Local rules and data sheets come
 * first.
 */
import type { CautionKind } from '../facts/mount/step.ts';

export interface CautionWords {
  readonly of: string;
  readonly say: string;
  /** The same in one line, for a step of the page to pin up. */
  readonly brief: string;
}

export const cautionWords: Readonly<Record<CautionKind, CautionWords>> = {
  blades: {
    of: 'Blades and trimmers',
    say: 'Cut away from the hand that holds the sheet, the blade always along a metal rule, never freehand. Keep the guards on guillotines and rotary trimmers. Cut edges are sharp: wear gloves. Chips may fly: wear eye protection. Follow what the tool’s maker says.',
    brief:
      'Blade along a metal rule, away from the hand; guards on; gloves against sharp edges, eye protection against chips.',
  },
  edges: {
    of: 'Lens edges',
    say: 'Edges and corners of a lens sheet are sharp: wear gloves. Lift large sheets with two people.',
    brief: 'Lens edges are sharp: gloves; two people for large sheets.',
  },
  adhesives: {
    of: 'Adhesives and solvents',
    say: 'Open a window, keep flames away, and follow the data sheet.',
    brief: 'Open a window, keep flames away; follow the data sheet.',
  },
  rollers: {
    of: 'Hot laminators and rollers',
    say: 'They burn and they pinch: keep fingers, sleeves and hair clear. Check first that the lens sheet may be heated at all.',
    brief:
      'Rollers pinch and hot ones burn: fingers, sleeves and hair clear; may the lens be heated?',
  },
  lamps: {
    of: 'Lamps behind a print',
    say: 'Use a cool lamp within the rating of its holder and of the frame. It must not touch paper or lens. Leave room for air, and never leave it alone while you try it. Local electrical rules apply; mains wiring is for a qualified person.',
    brief:
      'Cool lamp within the rating of holder and frame, touching nothing; never left alone; mains wiring by a qualified person.',
  },
  flashing: {
    of: 'Flashing pictures',
    say: 'Light and dark pictures that change places can harm photosensitive people, as they walk past or as you tilt it. No more than three flashes in any one second: turn it slowly, warn people before they see it, or choose pictures of like brightness.',
    brief:
      'Can harm photosensitive people: no more than three flashes in any one second. Turn it slowly; warn people.',
  },
  depth: {
    of: 'Strong depth',
    say: 'Deep pictures strain the eyes. Stop looking if it hurts, and make the next one shallower.',
    brief: 'Strong depth strains the eyes: stop if it hurts.',
  },
};

export const GIVE_WAY =
  'All of this gives way to your local rules and to the data sheets of your tools and materials.';
