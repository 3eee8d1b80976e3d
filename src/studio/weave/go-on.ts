/** Going on with a weave that broke off, or weaving one of its files again: only as long as nothing has changed. */
import { StudioError } from '../../contract/errors.ts';
import type { SheetFileType } from '../../core/encode/file-types.ts';
import { listed } from '../../core/names/listed.ts';
import type { LengthUnit } from '../../core/units/parse.ts';
import type { KeptRun, RunRecord } from '../../files/kept-runs.ts';
import type { Job } from '../../job/schema/job.ts';
import type { FileKind } from '../../state/tasks.ts';
import type { Studio } from '../studio.ts';
import type { PartDigests, Parts } from './woven-from.ts';
import { changedParts, digestsOf, partsOf, studioPart } from './woven-from.ts';

export interface Asked {
  /** `on`: the last weave of this kind, where it broke off. `again`: one of its files anew, by its place. */
  readonly go?: 'on' | { readonly again: number };
}

/** What a weave that goes on keeps from its beginning, whatever is set by then. */
export interface Terms {
  /** When it began: the date on the page and in the file. */
  readonly at: Date;
  readonly fileType: SheetFileType;
  readonly units: LengthUnit;
}

/** @param last the weave to go on with */
export const termsOf = ({ view }: Studio, last: RunRecord | undefined): Terms => {
  const { fileType, units } = view.getState();
  return last === undefined
    ? { at: new Date(), fileType, units }
    : { at: new Date(last.startedAt), fileType: last.fileType, units: last.units };
};

/** What files that are woven now depend on: the job, what they say themselves, and this version of the studio. */
export const dependsOnNow = (
  { work }: Studio,
  kind: FileKind,
  job: Job,
  own: Parts = {},
): PartDigests => {
  const parts = partsOf[kind](job, work.getState().wholeParallax);
  return digestsOf({ ...parts, ...own, ...studioPart() });
};

/** @throws StudioError that names what has changed */
export const refuseChanged = ({ dependsOn }: RunRecord, now: PartDigests, { go }: Asked): void => {
  const changed = changedParts(dependsOn, now);
  if (changed.length === 0) return;
  const why = `because ${listed(changed)} changed since`;
  throw new StudioError(
    'internal',
    go === 'on'
      ? `It cannot go on where it broke off, ${why}. Weave it from the start.`
      : `It cannot be woven again by itself, ${why}: it would not fit the others. Weave all of them from the start.`,
  );
};

/** The places of the files that are not written yet. */
const unwritten = async (run: KeptRun): Promise<number[]> => {
  const { files, given } = run.record();
  const todo: number[] = [];
  for (const index of files.keys())
    if (!given.some((one) => one.index === index))
      if ((await (await run.open(index)).file()) === undefined) todo.push(index);
  return todo;
};

/** The places of the files to write, in order; a file that is woven again is removed first. */
export const filesToWrite = async (run: KeptRun, { go }: Asked): Promise<readonly number[]> => {
  if (typeof go !== 'object') return unwritten(run);
  const { again } = go;
  await run.drop(again);
  await run.update({ given: run.record().given.filter(({ index }) => index !== again) });
  return [again];
};
