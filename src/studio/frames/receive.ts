/**
 * Whatever a person hands over, on any bench and at any moment: dropped, pasted, chosen, or opened from the system.
 * A job file is opened. Pictures begin a job of the person's own where a demo is open; where the job has
 * frames of its own, the person is asked once what becomes of them.
 */
import { lookAt } from '../../calls/frames.ts';
import { messageOf } from '../../contract/errors.ts';
import { sharedName } from '../../core/frames/names.ts';
import { nameInText } from '../../core/names/shown.ts';
import type { Arrival, Gathered } from '../../files/arrivals.ts';
import { fitToFrames } from '../../job/edits/begin.ts';
import { newJob } from '../../job/schema/job.ts';
import { sayFrames } from '../../job/words/frames.ts';
import type { DropChoice } from '../../state/work.ts';
import { nextJob } from '../keep/next-job.ts';
import type { Studio } from '../studio.ts';
import { arrive, inOrder } from './arrive.ts';
import { lookAtClip } from './clips/choose.ts';

interface Options {
  /** The person has said that they add to this job: they are not asked again. */
  readonly adding?: boolean;
}

/** Stopped: nothing came. */
const gatherAll = async (
  { tasks, work, document }: Studio,
  gather: (signal: AbortSignal) => Promise<Gathered>,
): Promise<Gathered | undefined> => {
  if (!tasks.isRunning('arrivals')) work.setState({ arriving: { done: 0, total: 0 } });
  try {
    return await tasks.run(
      { kind: 'gathering', jobId: document.getState().jobId },
      async (signal) => {
        const gathered = await gather(signal);
        return signal.aborted ? undefined : gathered;
      },
    );
  } finally {
    if (!tasks.isRunning('arrivals')) work.setState({ arriving: undefined });
  }
};

/** The person's choice; the question stands on the page until they answer. */
const ask = ({ work }: Studio, count: number, from: string): Promise<DropChoice> =>
  new Promise((resolve) => {
    const { dropQuestion } = work.getState();
    // Another drop came before the first was answered: the first is let go.
    dropQuestion?.answer('nothing');
    work.setState({
      dropQuestion: {
        count,
        from,
        answer: (choice) => {
          work.setState({ dropQuestion: undefined });
          resolve(choice);
        },
      },
    });
  });

/** A job of the person's own for these pictures: named after them, of their shape. */
const beginWith = async (studio: Studio, arrivals: readonly Arrival[]): Promise<void> => {
  const [first] = inOrder(arrivals);
  const named = sharedName(arrivals.map(({ path }) => path));
  const job = await nextJob(studio, named === '' ? newJob().name : named.slice(0, 190));
  const looked =
    first === undefined
      ? undefined
      : await lookAt(first.file, first.name, { exposureStops: 0 }).catch(() => undefined);
  const facts = looked?.done === true ? looked.value : undefined;
  await studio.keeper.begin(facts === undefined ? job : fitToFrames(job, arrivals.length, facts));
  studio.notes.dismissAll();
  studio.keeper.listChanged();
};

/** An empty job that nobody has named is called after the first frames it gets. */
const nameAfter = (studio: Studio, arrivals: readonly Arrival[]): void => {
  const { job } = studio.document.getState();
  const named = sharedName(arrivals.map(({ path }) => path)).slice(0, 190);
  if (job.frames.length > 0 || job.name !== newJob().name || named === '') return;
  studio.change('job name', (now) => ({ ...now, name: named }));
};

const choiceFor = (
  studio: Studio,
  { arrivals }: Gathered,
  { adding = false }: Options,
): DropChoice | Promise<DropChoice> => {
  const { document, work } = studio;
  const { job } = document.getState();
  if (job.demo !== undefined) return 'new job';
  // Originals that the job misses are given back to it, wherever they are dropped.
  if (adding) return 'add';
  // A photo of a strip needs no frames.
  const mayBePhoto = arrivals.length === 1 && job.pitchStrip?.woven !== undefined;
  if ((job.frames.length === 0 && !mayBePhoto) || work.getState().missingOriginals.size > 0)
    return 'add';
  return ask(studio, arrivals.length, sharedName(arrivals.map(({ path }) => path)));
};

const takePictures = async (
  studio: Studio,
  gathered: Gathered,
  choice: 'add' | 'replace' | 'new job',
): Promise<void> => {
  const { arrivals } = gathered;
  const { document, work } = studio;
  if (choice === 'new job') await beginWith(studio, arrivals);
  else {
    const { lookOnly } = document.getState();
    if (lookOnly !== undefined) throw new Error(lookOnly);
    nameAfter(studio, arrivals);
  }
  await arrive(studio, async () => gathered, choice === 'replace' ? 'replace' : 'add');
  const { name, frames } = document.getState().job;
  const bad = work.getState().arrivalNotes.filter(({ severity }) => severity === 'problem').length;
  const unused = bad === 0 ? '' : ' Some files could not be used: the Frames bench names each.';
  if (choice === 'new job')
    studio.inform(
      `“${nameInText(name)}” is a job of your own, with ${sayFrames(frames.length)}.${unused}`,
    );
  else if (bad > 0) studio.tell(unused.trim());
};

/** Read on the bench where a person would have chosen it. */
const readAsPhoto = async (
  studio: Studio,
  photo: Arrival | undefined,
  of: 'photo of strip' | 'photo of print',
): Promise<void> => {
  const woven = studio.document.getState().job.pitchStrip?.woven;
  if (photo === undefined) return;
  const file = new File([photo.file], photo.path);
  if (of === 'photo of strip') {
    if (woven === undefined) return;
    location.hash = '#/calibrate';
    const { readStripFrom } = await import('../read/strip-pictures.ts');
    return readStripFrom(studio, file, woven);
  }
  location.hash = '#/mend';
  const { canRead, readPrintFrom } = await import('../read/print-photo.ts');
  if (canRead(studio)) return readPrintFrom(studio, file);
  studio.tell('The frames are not prepared yet: choose the photo of the print here in a moment.');
};

/** Told at the shelves, where their papers are. */
const keepProfiles = async (studio: Studio, profiles: readonly File[]): Promise<void> => {
  studio.view.getState().set({ openShelf: 'papers' });
  location.hash = '#/workshop';
  const { keepProfile } = await import('../colour/paper-profile.ts');
  for (const profile of profiles) await keepProfile(studio, profile);
};

const take = async (studio: Studio, gathered: Gathered, options: Options): Promise<void> => {
  const { arrivals, jobFiles, clips, profiles, leftOut, scene } = gathered;
  const [jobFile] = jobFiles;
  for (const clip of clips)
    void lookAtClip(studio, studio.clips.add(clip, options.adding === true));
  if (clips.length > 0) location.hash = '#/frames';
  if (profiles.length > 0) await keepProfiles(studio, profiles);
  if (scene !== undefined) {
    location.hash = '#/shoot';
    const { addScene } = await import('../stage/add-scene.ts');
    return addScene(studio, scene);
  }
  if (arrivals.length > 0) {
    const choice = await choiceFor(studio, gathered, options);
    if (choice === 'nothing') studio.announce('Nothing was added.');
    else if (choice === 'photo of strip' || choice === 'photo of print')
      await readAsPhoto(studio, arrivals[0], choice);
    else await takePictures(studio, gathered, choice);
  } else if (jobFile === undefined && clips.length === 0 && profiles.length === 0)
    studio.tell(`Nothing in that could be used. ${leftOut[0]?.reason ?? 'It held no files.'}`);
  if (jobFile === undefined) return;
  const { openJobFile } = await import('../keep/job-file/open.ts');
  await openJobFile(studio, jobFile);
};

/**
 * Never rejects: what goes wrong is told at the head of the page.
 * @param gather called at once, because a drop can be read only during its event
 */
export const receive = async (
  studio: Studio,
  gather: (signal: AbortSignal) => Promise<Gathered>,
  options: Options = {},
): Promise<void> => {
  try {
    const gathered = await gatherAll(studio, gather);
    if (gathered !== undefined) await take(studio, gathered, options);
  } catch (error) {
    studio.tell(`What you handed over was not taken. ${messageOf(error)}`);
  }
};
