/** The table that shows a job's colours as they print. */
import { lookTable } from '../../calls/colour.ts';
import type { ProofLook } from '../../contract/proof.ts';
import type { Job } from '../../job/schema/job.ts';
import type { ViewState } from '../../state/view.ts';
import type { Studio } from '../studio.ts';
import { profileOf } from './conversion.ts';

type Look = Pick<ViewState, 'printLook' | 'gamutWarning'>;
type Has = Pick<Studio, 'disk' | 'colours'>;

/** Undefined for a job in sRGB, and where the screen's colours are wanted. @throws StudioError */
export const lookOf = async (
  studio: Has,
  { colour }: Pick<Job, 'colour'>,
  { printLook, gamutWarning }: Look,
): Promise<ProofLook | undefined> => {
  if (colour === undefined || printLook === 'screen') return undefined;
  const { profileId, intent, profile } = colour;
  const paperWhite = printLook === 'paper';
  const key = `${profileId} ${intent} ${printLook}`;
  const had = studio.colours.look;
  if (had?.key === key) return { table: had.made, warn: gamutWarning };
  const file = await profileOf(studio, colour);
  const outcome = await lookTable({ name: profile, file, intent, paperWhite });
  if (!outcome.done) return undefined;
  studio.colours.look = { key, made: outcome.value };
  return { table: outcome.value, warn: gamutWarning };
};
