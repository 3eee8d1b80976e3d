/** What a woven file's dots depend on: whether it is out of date, and what has changed since a weave broke off. */
import { digestOf } from '../../job/facts/digest.ts';
import { easeOf } from '../../job/facts/ghost-ease.ts';
import { trimOf } from '../../job/facts/ghost.ts';
import type { WholeParallax } from '../../job/facts/parallax.ts';
import { copyNumber, pageOf, printedAround } from '../../job/facts/page.ts';
import { pieceNamesOf, runKindOf } from '../../job/facts/print-run.ts';
import { isMirrored } from '../../job/facts/printer.ts';
import { gridOf } from '../../job/facts/printer.ts';
import { sheetSpecOf, slotsOf } from '../../job/facts/sheet.ts';
import { slotPicturesOf } from '../../job/facts/slot-pictures.ts';
import { softenKeyOf } from '../../job/facts/soften.ts';
import { typedOf } from '../../job/facts/title.ts';
import type { JobColour } from '../../job/schema/colour.ts';
import type { Job } from '../../job/schema/job.ts';
import type { FileKind } from '../../state/tasks.ts';
import { ownScript } from '../keep/updates.ts';

/** Values by what they are called in a sentence: "… have changed since". */
export type Parts = Readonly<Record<string, unknown>>;
/** The same as digests. */
export type PartDigests = Readonly<Record<string, string>>;

/** Of numbered copies the one that is next; empty where they are not numbered. */
const numberIn = (job: Job): readonly string[] => {
  const pieces = runKindOf(job) === 'tiles' ? pieceNamesOf(job).length : 1;
  const number = copyNumber(job, pieces);
  return number === undefined ? [] : [number];
};

/** Of a typed one its place too; its letters are its picture. */
const titleIn = (job: Job) => {
  const typed = typedOf(job);
  return typed === undefined ? (job.title ?? null) : [job.title, typed.rightMm, typed.downMm];
};

/** Of a sheet and its page. */
const sheetParts = (job: Job, wholeParallax: WholeParallax | undefined) => ({
  'the lens, the size or the printer': sheetSpecOf(job),
  'the frames or their order': slotsOf(job),
  'the key plane': job.keyShift ?? 0,
  'the title': titleIn(job),
  'how the pictures fill the print': job.placement,
  'the exposure': job.exposureStops,
  'ghost removal': trimOf(job) ?? null,
  'the lamp curve': job.lamp ?? null,
  'the page': job.page?.on === true ? [job.page, job.name, ...numberIn(job)] : null,
  'the softening': softenKeyOf(job, wholeParallax) ?? '',
});

/** Pictures that are placed, or lit, by themselves. */
const placedOf = ({ frames }: Job) =>
  frames.flatMap(({ id, place, light }) =>
    place === undefined && light === undefined ? [] : [[id, place ?? null, light ?? null]],
  );

/** Masks at work. */
const easesIn = (job: Job) =>
  (job.ghostEase?.masks ?? []).filter(({ frame }) => easeOf(job, frame) !== undefined);

/** What is not printed around tiles or several prints; the page counts by itself. */
const leftOffAround = (job: Job): readonly string[] => {
  if (job.page?.on !== false || (job.tiles?.on !== true && job.gang?.on !== true)) return [];
  return Object.entries(printedAround(job)).flatMap(([name, ticked]) => (ticked ? [] : [name]));
};

/** Names do not matter to the dots. */
const colourPart = ({ profileId, intent }: JobColour) => [profileId, intent];

/** A key of all that. What was woven before pages could be turned, pictures placed, or ticks held for tiles, keeps its key. */
export const wovenFrom = (job: Job, wholeParallax: WholeParallax | undefined): string =>
  JSON.stringify([
    ...Object.values(sheetParts(job, wholeParallax)),
    ...placedOf(job),
    ...(gridOf(job).fedFirst === 'top' ? [] : ['side first']),
    ...leftOffAround(job),
    ...(isMirrored(job) ? ['mirrored'] : []),
    ...(easesIn(job).length === 0 ? [] : [easesIn(job)]),
    ...(job.colour === undefined ? [] : [colourPart(job.colour)]),
  ]);

/** What all parts together come to: it is named where none of them tells why it differs. */
const REST = 'the pictures';

const picturesOf = (job: Job, wholeParallax: WholeParallax | undefined): Parts => ({
  ...sheetParts(job, wholeParallax),
  'how single pictures are placed': placedOf(job),
  'the contrast against ghosts': easesIn(job),
  [REST]: slotPicturesOf(job),
  'the edge that is fed first': gridOf(job).fedFirst,
  'the print side': isMirrored(job),
  'the colours': job.colour === undefined ? null : colourPart(job.colour),
});

/** What tiles and several prints take of the page: all of it, or while it is off what holds for every page. */
const pageAround = (job: Job) => {
  const page = pageOf(job);
  const number = numberIn(job);
  const sign = page.signLine === true ? ['signed'] : [];
  if (!page.on) return [page.marginsMm, page.edition ?? null, ...number, ...sign];
  return number.length === 0 ? page : [page, ...number];
};

/**
 * The parts of the open job that a file of a kind depends on. Strip, wedge and lamp target show no frames: they are never
 * out of date, and say what they depend on when they are woven.
 */
export const partsOf: Readonly<
  Record<FileKind, (job: Job, wholeParallax: WholeParallax | undefined) => Parts>
> = {
  sheet: picturesOf,
  slice: picturesOf,
  // Their labels name the job, and their pages follow the job's though it is off.
  tiles: (job, parallax) => ({
    ...picturesOf(job, parallax),
    'the page': pageAround(job),
    'the tiles': job.tiles ?? null,
    'what is printed around the picture': printedAround(job),
    'the name of the job': job.name,
  }),
  several: (job, parallax) => ({
    ...picturesOf(job, parallax),
    'the page': pageAround(job),
    'the lens sheet of several prints': job.gang ?? null,
    'what is printed around the picture': printedAround(job),
    'the name of the job': job.name,
  }),
  strip: () => ({}),
  wedge: () => ({}),
  lampTarget: () => ({}),
};

/** This version of the studio, which weaves a whole file itself. */
export const studioPart = (): Parts => ({ 'the studio itself': ownScript() ?? '' });

export const digestsOf = (parts: Parts): PartDigests =>
  Object.fromEntries(Object.entries(parts).map(([name, value]) => [name, digestOf(value ?? null)]));

/** Names of the parts that both have and that differ. */
export const changedParts = (before: PartDigests, now: PartDigests): readonly string[] => {
  const changed = Object.keys(now).filter((name) => name in before && before[name] !== now[name]);
  return changed.length === 1 ? changed : changed.filter((name) => name !== REST);
};
