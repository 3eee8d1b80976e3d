/** Which papers a job's colours can be converted for. */
import type { JobColour } from '../../job/schema/colour.ts';
import type { Job } from '../../job/schema/job.ts';
import type { PaperEntry, Shelves } from '../../materials/shelves.ts';
import { stockOf } from '../../materials/use-in-job.ts';

type Choice = Omit<JobColour, 'intent'>;

const choiceOf = ({ name, profile }: PaperEntry): Choice[] =>
  profile === undefined
    ? []
    : [{ profileId: profile.id, profile: profile.name, paper: name, space: profile.space }];

/** The paper that the job uses comes first; a profile that the job names and no paper has is last. */
export const colourChoices = (job: Job, { papers }: Shelves): readonly Choice[] => {
  const { paperId } = stockOf(job);
  const used = papers.filter(({ id }) => id === paperId);
  const others = papers.filter(({ id }) => id !== paperId);
  const onShelf = [...used, ...others].flatMap(choiceOf);
  const { colour } = job;
  const isThere = onShelf.some(({ profileId }) => profileId === colour?.profileId);
  return colour === undefined || isThere ? onShelf : [...onShelf, colour];
};

/** The ink that the paper takes and the most that the profile asks for, %, where both are known. */
export const inkOf = (
  { colour }: Job,
  { papers }: Shelves,
): { readonly most: number; readonly limit: number | undefined } | undefined => {
  const paper = papers.find(({ profile }) => profile?.id === colour?.profileId);
  const most = colour?.space === 'CMYK' ? paper?.profile?.mostInk : undefined;
  return most === undefined ? undefined : { most, limit: paper?.inkLimit };
};
