/**
 * Keeps the frames of the job prepared for its sheet, while the person works: whatever changes, the
 * frames that no longer fit are reduced anew, so that the proof turns and the sheet starts at once.
 */
import type { PreparedFrame, PrepareRequest } from '../../contract/frames.ts';
import type { FrameStack } from '../../contract/weave.ts';
import { toWorkError } from '../../contract/errors.ts';
import { ownSamplesAlong } from '../../core/weave/reduce.ts';
import { frameStore, openFrame } from '../../files/frame-store.ts';
import { removePrepared } from '../../files/sweep.ts';
import { trimOf } from '../../job/facts/ghost.ts';
import type { Job } from '../../job/schema/job.ts';
import { areaOf, sheetSpecOf, withBleed } from '../../job/facts/sheet.ts';
import type { SlotPicture } from '../../job/facts/slot-pictures.ts';
import { slotPicturesOf } from '../../job/facts/slot-pictures.ts';
import { softenKeyOf, softeningOf } from '../../job/facts/soften.ts';
import { prepareFrame } from '../../calls/frames.ts';
import { documentStore } from '../../state/document.ts';
import type { Prepared } from '../../state/work.ts';
import { workStore } from '../../state/work.ts';
import { originalLost } from '../frames/original-lost.ts';

const PROOF_PX = 1024;
/** Long enough to type the next digit, short enough to feel live. */
const SETTLE_MS = 120;

const picturesNeeded = (job: Job): readonly SlotPicture[] => slotPicturesOf(job).pictures;

const alongSamplesOf = (job: Job): number => {
  const sheet = sheetSpecOf(job);
  return Math.max(
    1,
    // The title follows what it lies on.
    ...picturesNeeded(job)
      .filter(({ ground }) => ground === undefined)
      .map(({ frame }) => ownSamplesAlong(sheet, withBleed(job, areaOf(job, frame)))),
  );
};

/** Everything that a prepared frame depends on. Equal keys: the same pixels. */
const keyMaker = (job: Job) => {
  const { widthDots, heightDots, acrossDpi, alongDpi, ribs, viewingPitchMm, offsetMm } =
    sheetSpecOf(job);
  const sheetKey = [widthDots, heightDots, acrossDpi, alongDpi, ribs, viewingPitchMm, offsetMm];
  const along = alongSamplesOf(job);
  const soften = softenKeyOf(job, workStore.getState().wholeParallax);
  return ({ frame, area, ground }: SlotPicture): string =>
    JSON.stringify([
      sheetKey,
      along,
      area,
      frame.sceneLinear && ground === undefined ? job.exposureStops : 0,
      ...(soften === undefined || ground !== undefined ? [] : [soften]),
    ]);
};

/** A job's prepared frames, one a picture that it needs, with all that happens to them while weaving. */
export const stackWith = (job: Job, frames: readonly PreparedFrame[]): FrameStack => {
  const { mixes, slots } = slotPicturesOf(job);
  const trim = trimOf(job);
  return {
    frames,
    slots,
    ...(mixes.length === 0 ? {} : { mixes }),
    ...(trim === undefined ? {} : { trim }),
    ...(job.lamp === undefined ? {} : { lamp: job.lamp }),
  };
};

/** The frames as the weave wants them; undefined until each slot's frame is prepared for this job. */
export const stackOf = (
  job: Job,
  prepared: ReadonlyMap<string, Prepared>,
): FrameStack | undefined => {
  const { pictures } = slotPicturesOf(job);
  if (pictures.length === 0) return undefined;
  const keyOf = keyMaker(job);
  const frames = pictures.map((picture) => {
    const entry = prepared.get(picture.id);
    return entry?.key === keyOf(picture) ? entry.frame : undefined;
  });
  if (frames.includes(undefined)) return undefined;
  return stackWith(
    job,
    frames.filter((frame) => frame !== undefined),
  );
};

/** What has to be prepared for a job. Equal signatures: the same frames, prepared the same way. */
export const signatureOf = (job: Job): string => {
  const keyOf = keyMaker(job);
  return JSON.stringify(picturesNeeded(job).map((picture) => [picture.id, keyOf(picture)]));
};

let running:
  | {
      readonly signature: string;
      readonly halt: AbortController;
      /** Asked for again meanwhile: an original may have come back to a frame that failed for want of it. */
      again: boolean;
    }
  | undefined;

const prepareMissing = async (job: Job): Promise<void> => {
  const keyOf = keyMaker(job);
  const needed = picturesNeeded(job);
  const had = workStore.getState().prepared;
  const missing = needed.filter((picture) => had.get(picture.id)?.key !== keyOf(picture));
  const signature = signatureOf(job);
  if (running?.signature === signature) {
    running.again = true;
    return;
  }
  running?.halt.abort();
  running = undefined;
  if (missing.length === 0) {
    workStore.getState().set({ preparing: undefined, prepareFaults: new Map() });
    prune(needed);
    return;
  }
  const halt = new AbortController();
  const own = { signature, halt, again: false };
  running = own;
  workStore.getState().set({
    preparing: { done: 0, total: missing.length },
    prepareFaults: new Map(),
  });
  // Frames seen for the first time are shown as they come; renewed ones change places all at once,
  // so that the proof never mixes two sheets.
  const renewed = new Map<string, Prepared>();
  await Promise.all(
    missing.map((picture) =>
      prepareOne(job, picture, keyOf(picture), halt.signal, (entry) => {
        if (had.has(picture.id)) renewed.set(picture.id, entry);
        else publish(new Map([[picture.id, entry]]));
      }),
    ),
  );
  if (halt.signal.aborted) {
    for (const entry of renewed.values()) retire(entry);
    return;
  }
  publish(renewed);
  prune(needed);
  running = undefined;
  if (own.again) return prepareMissing(documentStore.getState().job);
  workStore.getState().set({ preparing: undefined });
};

/** What a frame worker is asked for one picture of a job. @throws StudioError `file-gone` */
export const prepareRequestOf = async (
  job: Job,
  { frame, area, ground }: SlotPicture,
  proofPx: number,
): Promise<Omit<PrepareRequest, 'id'>> => {
  const softening =
    ground === undefined ? softeningOf(job, workStore.getState().wholeParallax, frame) : undefined;
  return {
    ...(softening === undefined ? {} : { softening }),
    file: await openFrame(frame.id, frame.name),
    name: frame.name,
    // A title is no light of the scene: its white stays white.
    options: { exposureStops: ground === undefined ? job.exposureStops : 0 },
    ...(ground === undefined ? {} : { ground }),
    sheet: sheetSpecOf(job),
    area,
    alongSamples: alongSamplesOf(job),
    proofPx,
  };
};

const prepareOne = async (
  job: Job,
  picture: SlotPicture,
  key: string,
  signal: AbortSignal,
  keep: (entry: Prepared) => void,
): Promise<void> => {
  const { frame } = picture;
  let read: Blob | undefined;
  try {
    const request = await prepareRequestOf(job, picture, PROOF_PX);
    read = request.file;
    const outcome = await prepareFrame(request, { signal });
    if (!outcome.done) return;
    const entry = { key, frame: outcome.value.frame, proof: outcome.value.proof };
    if (signal.aborted) return retire(entry);
    keep(entry);
  } catch (error) {
    if (signal.aborted) return;
    const { code, message } = toWorkError(error);
    const now = frameStore.fileOf(frame.id);
    // Its original came back while the lost one was read.
    if (code === 'file-gone' && read !== undefined && now !== undefined && now !== read)
      return prepareOne(job, picture, key, signal, keep);
    if (code === 'file-gone') originalLost(frame.id);
    const { prepareFaults, set } = workStore.getState();
    set({ prepareFaults: new Map(prepareFaults).set(frame.id, message) });
  }
  const { preparing, set } = workStore.getState();
  if (preparing !== undefined) set({ preparing: { ...preparing, done: preparing.done + 1 } });
};

const publish = (entries: ReadonlyMap<string, Prepared>) => {
  const { prepared, set } = workStore.getState();
  const next = new Map(prepared);
  for (const [id, entry] of entries) {
    const before = next.get(id);
    if (before !== undefined) retire(before);
    next.set(id, entry);
  }
  set({ prepared: next });
};

/** Lets go of frames that fill no slot any more. */
const prune = (needed: readonly SlotPicture[]) => {
  const ids = new Set(needed.map(({ id }) => id));
  const { prepared, set } = workStore.getState();
  const gone = [...prepared].filter(([id]) => !ids.has(id));
  if (gone.length === 0) return;
  for (const [, entry] of gone) retire(entry);
  set({ prepared: new Map([...prepared].filter(([id]) => ids.has(id))) });
};

const retired: string[] = [];

/** A weave may still read from it: its place on the disk is given back once none is under way. */
const retire = ({ frame }: Prepared): void => {
  if (frame.diskName !== undefined) retired.push(frame.diskName);
  clearRetired();
};

const clearRetired = () => {
  const { weave, tiles } = workStore.getState();
  if (weave.stage === 'weaving' || tiles.stage === 'weaving') return;
  for (const diskName of retired.splice(0)) removePrepared(diskName).catch(() => undefined);
};

/** Drops what is prepared for these pictures, whose pixels are gone, and prepares them anew at once. */
export const prepareAnew = (gone: ReadonlySet<string>): void => {
  // What is under way does not know of them.
  running?.halt.abort();
  running = undefined;
  const { prepared, set } = workStore.getState();
  set({ prepared: new Map([...prepared].filter(([id]) => !gone.has(id))) });
  void prepareMissing(documentStore.getState().job);
};

/** Begins to keep the job's frames prepared; returns what ends it. */
export const startPreparing = (): (() => void) => {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const soon = () => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      const { job, ready } = documentStore.getState();
      if (ready) void prepareMissing(job);
    }, SETTLE_MS);
  };
  const endings = [
    documentStore.subscribe(soon),
    workStore.subscribe(clearRetiredWhenIdle),
    workStore.subscribe((now, before) => {
      if (now.wholeParallax !== before.wholeParallax) soon();
      // An original has come back.
      if (now.missingOriginals.size < before.missingOriginals.size) soon();
    }),
  ];
  soon();
  return () => {
    clearTimeout(timer);
    for (const end of endings) end();
  };
};

const clearRetiredWhenIdle = () => {
  if (retired.length > 0) clearRetired();
};
