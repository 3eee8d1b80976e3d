/** Weaves several prints on one lens sheet into one file. */
import { weaveGang } from '../../calls/weave.ts';
import { StudioError } from '../../contract/errors.ts';
import type { FrameStack } from '../../contract/weave.ts';
import { nameInText } from '../../core/names/shown.ts';
import { isoDay } from '../../core/units/day.ts';
import { gangToWeave, gangViewOf, membersLaid } from '../../job/facts/gang-view.ts';
import type { GangView } from '../../job/facts/gang-view.ts';
import type { WholeParallax } from '../../job/facts/parallax.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Conversion } from '../colour/conversion.ts';
import { checkHolds, conversionOf, inColours } from '../colour/conversion.ts';
import type { PreparedJob } from '../prepare/prepare-job.ts';
import { prepareJob } from '../prepare/prepare-job.ts';
import type { Studio } from '../studio.ts';
import { sheetFileName, sheetInfo } from './sheet-info.ts';
import type { Asked } from './go-on.ts';
import { weaveFiles } from './weave-file.ts';
import { partsOf } from './woven-from.ts';

type Guests = ReadonlyMap<string, Job>;

/** What the other prints show. */
const othersOf = (view: GangView, wholeParallax: WholeParallax | undefined) =>
  view.members.map(({ id, job }) => [id, partsOf.sheet(job, wholeParallax)]);

/** Prepares one job after the other, so that no more frames are decoded at once than for one sheet. */
const prepareAll = async (
  studio: Studio,
  view: GangView,
  signal: AbortSignal,
  prepared: PreparedJob[],
): Promise<readonly FrameStack[] | undefined> => {
  const laid = membersLaid(view);
  if (laid.length === 0) throw new StudioError('internal', 'No print fits on this lens sheet.');
  for (const { job } of laid)
    if (job.frames.length === 0)
      throw new StudioError(
        'internal',
        `“${nameInText(job.name)}” has no frames yet: add them, then weave.`,
      );
  for (const { job } of laid) {
    const outcome = await prepareJob(studio, job, signal);
    if (!outcome.done) return undefined;
    prepared.push(outcome.value);
  }
  return prepared.map(({ stack }) => stack);
};

interface GangFrames {
  readonly stacks: readonly FrameStack[];
  readonly conversion: Conversion | undefined;
}

/** @param guests the other kept jobs on its lens sheet, by id. */
export const weaveSeveral = (studio: Studio, guests: Guests, asked?: Asked): Promise<void> =>
  weaveFiles<GangFrames>(
    studio,
    'several',
    (job, { at, fileType, units }) => {
      checkHolds(job, fileType);
      const view = gangViewOf(job, guests);
      const gang = gangToWeave(job, view, units, isoDay(at));
      const named = { ...job, name: `${job.name}, ${view.best.places.length} on a lens` };
      const fileName = sheetFileName(named, fileType);
      const info = sheetInfo(named, at, gang.page);
      const prepared: PreparedJob[] = [];
      return {
        named: fileName,
        to: studio.view.getState().saveTo,
        prepare: async (signal) => {
          // One sheet of paper has one profile: the open job's.
          const conversion = await conversionOf(studio, job, signal);
          if (conversion === 'stopped') return undefined;
          const stacks = await prepareAll(studio, view, signal, prepared);
          return stacks && { stacks, conversion };
        },
        letGo: () => {
          for (const one of prepared) one.letGo();
        },
        files: [
          {
            name: 'lens sheet',
            fileName,
            info,
            write: ({ stacks, conversion }, sink, call) =>
              weaveGang(inColours({ gang, stacks, fileType, info }, conversion), sink, call),
          },
        ],
        dependsOn: { 'the other prints': othersOf(view, studio.work.getState().wholeParallax) },
      };
    },
    asked,
  );
