/** The printer's colours: which profile the dots are converted with, and how. */
import * as v from 'valibot';
import { intents } from '../../core/colour/icc/device-space.ts';
import { openObject } from './open-object.ts';

export const colourSchema = openObject({
  /** Of the profile's bytes; they lie beside the shelves, and in the job's file. */
  profileId: v.pipe(v.string(), v.regex(/^[0-9a-f]{32}$/, 'expected 32 digits')),
  /** Names for the person, kept for when the profile is gone. */
  profile: v.pipe(v.string(), v.maxLength(200)),
  paper: v.pipe(v.string(), v.maxLength(100)),
  space: v.picklist(['GRAY', 'RGB', 'CMYK']),
  intent: v.picklist(intents),
});

export type JobColour = v.InferOutput<typeof colourSchema>;
