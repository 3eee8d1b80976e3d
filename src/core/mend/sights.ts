/** What a person says of a print that failed, in their own words, and the few pictures that can be meant. */
import type { SymptomId } from './symptoms.ts';

export type SightId = 'bands' | 'jump' | 'inside-out' | 'two' | 'place' | 'driver';

interface Sight {
  readonly id: SightId;
  readonly label: string;
  /** The likeliest first; no more than can be compared side by side. */
  readonly symptoms: readonly SymptomId[];
}

export const SIGHTS: readonly Sight[] = [
  {
    id: 'bands',
    label: 'Bands that slant or cross it',
    symptoms: ['too-coarse', 'too-fine', 'skewed-left', 'skewed-right'],
  },
  {
    id: 'jump',
    label: 'It jumps straight ahead',
    symptoms: ['off-centre', 'harsh-flip', 'out-of-step'],
  },
  {
    id: 'inside-out',
    label: 'Inside out, or nothing moves',
    symptoms: ['order-reversed', 'ribs-crossed', 'too-deep'],
  },
  {
    id: 'two',
    label: 'Two pictures at once',
    symptoms: ['two-at-once', 'too-deep', 'harsh-flip', 'ribs-crossed'],
  },
  {
    id: 'place',
    label: 'Blurred in one place',
    symptoms: ['one-place', 'too-deep', 'two-at-once'],
  },
  {
    id: 'driver',
    label: 'Stripes, hard edges or a wrong size',
    symptoms: ['resampled', 'out-of-step', 'sharpened', 'scaled'],
  },
];
