/** Starts the parts of the studio in order. */
import { nameInText } from '../core/names/shown.ts';
import { DiskSilent, isDiskSilent } from '../files/private-disk.ts';
import { sweepLeftovers } from '../files/sweep.ts';
import { takeShared } from './frames/shared.ts';
import { takeLaunches } from './frames/launches.ts';
import { fillWhatWaits } from './frames/unfilled.ts';
import { restore, sweepKept } from './keep/first-job.ts';
import { tellLostParts } from './keep/lost-part.ts';
import { recallParallax } from './keep/parallax.ts';
import { recallShelves } from './keep/shelves.ts';
import { startCountingGhosts } from './proof/ghosts.ts';
import type { Studio } from './studio.ts';

/** Names the file that was being woven when this tab's last page closed. */
const tellBrokenOff = async ({ tasks, tell, document, finished }: Studio): Promise<void> => {
  const { jobId, job } = document.getState();
  const fileName = await tasks.brokenOff(jobId, job.demo);
  if (fileName === undefined) return;
  const isKept = await finished.isBegun(fileName);
  tell(
    `“${nameInText(fileName)}” was being woven when the page went, and was not finished. ` +
      (isKept
        ? 'What was woven of it is kept: it can go on from there, on the bench where it was begun.'
        : 'Nothing of it is left that could pass for a whole sheet; weave it again.'),
  );
};

/** Opens the kept job, or the demo on a first visit, and begins to keep it. Resolves when the page can be drawn. */
export const startStudio = async (studio: Studio): Promise<void> => {
  studio.updates.goOverTogether();
  tellLostParts(studio);
  // Remove old files before anything new is written to the disk.
  await sweepLeftovers();
  if (isDiskSilent()) studio.tell(new DiskSilent().message);
  await restore(studio, async () =>
    (await import('./frames/demos.ts')).openDemo(studio, 'glasshouse'),
  );
  void sweepKept(studio);
  // Without the measured parallax, softened frames would be prepared twice.
  if (studio.document.getState().job.soften !== undefined) await recallParallax(studio);
  else void recallParallax(studio);
  studio.keeper.start();
  fillWhatWaits(studio);
  studio.preparing.start();
  studio.finished.start();
  startCountingGhosts(studio);
  void studio.pitches.recall();
  void recallShelves(studio, studio.room);
  void tellBrokenOff(studio);
  takeLaunches(studio);
  takeShared(studio);
};
