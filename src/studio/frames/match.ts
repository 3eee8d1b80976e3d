/** Lays pictures on each other by themselves, and matches their light. One matching at a time; it can be stopped. */
import { layOn, matchLight } from '../../calls/align.ts';
import { messageOf } from '../../contract/errors.ts';
import type { LaidFile } from '../../contract/align.ts';
import type { PictureLight } from '../../core/colour/picture-light.ts';
import { lightOfGains } from '../../core/colour/light-of-gains.ts';
import { gainsOf } from '../../core/colour/picture-light.ts';
import type { Similarity } from '../../core/numeric/similarity.ts';
import { nameInText } from '../../core/names/shown.ts';
import { setPlace } from '../../job/edits/set-place.ts';
import { lightPicture } from '../../job/edits/place.ts';
import { placeOnOther } from '../../job/facts/laid.ts';
import { areaOf, sequenceOf } from '../../job/facts/sheet.ts';
import type { Frame, Job } from '../../job/schema/job.ts';
import { sayLight, sayMatched, sayUnmatched } from '../../job/words/place.ts';
import type { Studio } from '../studio.ts';
import { openOriginal } from './open-original.ts';

/** What came of it, for the person. */
export interface Told {
  readonly kind: 'info' | 'caution' | 'problem';
  readonly text: string;
}

/** Told how many pictures are done. */
type Report = (done: number, total: number) => void;

const jobNow = ({ document }: Studio): Job => document.getState().job;

const frameNow = (studio: Studio, { id }: Frame): Frame | undefined =>
  jobNow(studio).frames.find((frame) => frame.id === id);

/** Runs it as work of the open job. Undefined where it was stopped, or the job is no longer open. */
const matching = async (
  studio: Studio,
  work: (signal: AbortSignal) => Promise<Told | undefined>,
): Promise<Told | undefined> => {
  const { jobId } = studio.document.getState();
  studio.tasks.stop('matching');
  return studio.tasks.run({ kind: 'matching', jobId }, async (signal) => {
    try {
      const told = await work(signal);
      if (signal.aborted || told === undefined) return undefined;
      studio.announce(told.text);
      return told;
    } catch (error) {
      return signal.aborted ? undefined : { kind: 'problem', text: messageOf(error) };
    }
  });
};

const isStillOpen = ({ document }: Studio, jobId: string): boolean =>
  document.getState().jobId === jobId;

const laidOn = (job: Job, frame: Frame, other: Frame, between: Similarity): Job =>
  setPlace(job, frame.id, placeOnOther(job, frame, other, between));

/** Lays a picture on another, as `between` says, where both lie now. @returns the sentence that refuses it, if any */
export const layOnOther = (
  studio: Studio,
  frame: Frame,
  other: Frame,
  between: Similarity,
): string | undefined =>
  studio.change(`laying ${nameInText(frame.name)} on ${nameInText(other.name)}`, (job) =>
    laidOn(job, frame, other, between),
  );

const askFor = async (studio: Studio, frame: Frame, other: Frame, signal: AbortSignal) =>
  layOn(
    {
      from: await openOriginal(studio, frame),
      to: await openOriginal(studio, other),
      options: { exposureStops: jobNow(studio).exposureStops },
    },
    signal,
  );

export const matchByItself = (
  studio: Studio,
  frame: Frame,
  other: Frame,
): Promise<Told | undefined> => {
  const { jobId } = studio.document.getState();
  return matching(studio, async (signal) => {
    const outcome = await askFor(studio, frame, other, signal);
    if (!outcome.done || !isStillOpen(studio, jobId)) return undefined;
    const { value: match } = outcome;
    if (!match.found) return { kind: 'caution', text: sayUnmatched(match, frame, other) };
    const [one, on] = [frameNow(studio, frame), frameNow(studio, other)];
    if (one === undefined || on === undefined) return undefined;
    const refused = layOnOther(studio, one, on, match.between);
    if (refused !== undefined) return { kind: 'problem', text: refused };
    const laid = frameNow(studio, frame) ?? one;
    return { kind: 'info', text: sayMatched(match, laid, other) };
  });
};

const NAMED_AT_MOST = 6;

const listed = (frames: readonly Frame[]): string =>
  frames
    .slice(0, NAMED_AT_MOST)
    .map(({ name }) => nameInText(name))
    .join(', ') + (frames.length > NAMED_AT_MOST ? ' and more' : '');

/** Lays all other pictures on this one: one step to undo. Those that cannot be matched stay where they are. */
export const matchOthers = (
  studio: Studio,
  frame: Frame,
  report: Report,
): Promise<Told | undefined> => {
  const { jobId } = studio.document.getState();
  const others = sequenceOf(jobNow(studio)).filter(({ id }) => id !== frame.id);
  return matching(studio, async (signal) => {
    const found: { readonly id: string; readonly between: Similarity }[] = [];
    const left: Frame[] = [];
    for (const [done, other] of others.entries()) {
      report(done, others.length);
      const outcome = await askFor(studio, other, frame, signal);
      if (!outcome.done) return undefined;
      if (outcome.value.found) found.push({ id: other.id, between: outcome.value.between });
      else left.push(other);
    }
    const on = frameNow(studio, frame);
    if (!isStillOpen(studio, jobId) || on === undefined) return undefined;
    const refused = studio.change(`laying all others on ${nameInText(frame.name)}`, (job) =>
      found.reduce((next, { id, between }) => {
        const one = next.frames.find((each) => each.id === id);
        return one === undefined ? next : laidOn(next, one, on, between);
      }, job),
    );
    if (refused !== undefined) return { kind: 'problem', text: refused };
    const text = `${found.length} of ${others.length} other pictures lie on ${nameInText(frame.name)}.`;
    return left.length === 0
      ? { kind: 'info', text }
      : {
          kind: 'caution',
          text: `${text} Too little agrees with it in ${listed(left)}, which stayed where ${left.length === 1 ? 'it' : 'they'} lay.`,
        };
  });
};

/** Fewer places that agree are no sure measure. */
const SURE = 0.3;

const rounded = ({ stops, warmth, tint }: PictureLight): PictureLight => ({
  stops: Math.round(stops * 1000) / 1000 + 0,
  warmth: Math.round(warmth * 1000) / 1000 + 0,
  tint: Math.round(tint * 1000) / 1000 + 0,
});

/** Makes a picture as bright and as white as another, by what of both lies on the same place of the print. */
export const matchLightTo = (
  studio: Studio,
  frame: Frame,
  other: Frame,
): Promise<Told | undefined> => {
  const { jobId } = studio.document.getState();
  const laid = async (one: Frame, withLight: boolean): Promise<LaidFile> => {
    const job = jobNow(studio);
    const { exposureStops } = job;
    const gains = withLight && one.light !== undefined ? { gains: gainsOf(one.light) } : {};
    return {
      ...(await openOriginal(studio, one)),
      area: areaOf(job, one),
      options: { exposureStops, ...gains },
    };
  };
  return matching(studio, async (signal) => {
    const request = { from: await laid(frame, false), to: await laid(other, true) };
    const outcome = await matchLight(request, signal);
    const one = frameNow(studio, frame);
    if (!outcome.done || !isStillOpen(studio, jobId) || one === undefined) return undefined;
    const { value: match } = outcome;
    const names = `${nameInText(frame.name)} and ${nameInText(other.name)}`;
    if (!match.found)
      return {
        kind: 'caution',
        text: `Too little of ${names} lies on the same place of the print, or it is burnt out or black. Nothing was changed.`,
      };
    const light = rounded(lightOfGains(match.gains));
    const refused = studio.change(...lightPicture(one, light));
    if (refused !== undefined)
      return { kind: 'problem', text: `${names} are too far apart. ${refused}` };
    const text = `${nameInText(frame.name)} now has ${sayLight(light)}, after ${nameInText(other.name)}.`;
    const share = `${Math.round(100 * match.agrees)} % of the places`;
    return match.agrees < SURE
      ? { kind: 'caution', text: `${text} Only ${share} agree, so look at it.` }
      : { kind: 'info', text: `${text} ${share} agree.` };
  });
};
