/** Weaves what Calibrate prints without frames: the pitch strip, the ghost wedge, the lamp target. */
import { weaveStrip as weaveInto } from '../../calls/strip.ts';
import type { LampTargetSpec } from '../../core/colour/lamp-target.ts';
import type { SheetFileType } from '../../core/encode/file-types.ts';
import { sheetFileTypes } from '../../core/encode/file-types.ts';
import type { SheetInfo } from '../../core/encode/row-writer.ts';
import type { StripSpec } from '../../core/pitch/strip.ts';
import type { WedgeSpec } from '../../core/weave/ghost-wedge.ts';
import type { JobEdit } from '../../job/edits/edit.ts';
import { paperOf } from '../../job/facts/pitch.ts';
import { isMirrored } from '../../job/facts/printer.ts';
import type { Job } from '../../job/schema/job.ts';
import { notConvertedWords } from '../../job/words/colour.ts';
import { mirroredWords } from '../../job/words/printer.ts';
import type { FileKind } from '../../state/tasks.ts';
import type { Studio } from '../studio.ts';
import type { Asked, Terms } from './go-on.ts';
import { weaveFiles } from './weave-file.ts';

export interface Target {
  readonly spec: StripSpec | WedgeSpec | LampTargetSpec;
  readonly size: { readonly widthDots: number; readonly heightDots: number };
  /** File name without the extension. */
  readonly name: string;
  readonly title: string;
  readonly description: string;
  readonly onWhole?: JobEdit;
}

/** What is laid under the lens to prove it must lie as the print does; the lamp target lies under none. */
const mirrors = (job: Job, { spec }: Pick<Target, 'spec'>): boolean =>
  isMirrored(job) && !('kind' in spec && spec.kind === 'lamp-target');

const infoOf = (job: Job, target: Target, writtenAt: Date): SheetInfo => {
  const { spec, size, title, description } = target;
  const mirrored = mirrors(job, target);
  const { widthMm, heightMm } = paperOf(job);
  const [horizontalDpi, verticalDpi] =
    spec.ribs === 'upright' ? [spec.acrossDpi, spec.alongDpi] : [spec.alongDpi, spec.acrossDpi];
  return {
    width: size.widthDots,
    height: size.heightDots,
    horizontalDpi,
    verticalDpi,
    paperMm: { width: widthMm, height: heightMm },
    ...(mirrored && { mirrored: true }),
    title,
    description: [description, mirrored ? mirroredWords(job) : '', notConvertedWords(job)]
      .filter((words) => words !== '')
      .join(' '),
    software: 'Tiltloom',
    writtenAt,
  };
};

const nameOf = ({ name }: Target, mirrored: boolean, fileType: SheetFileType): string =>
  `${name}${mirrored ? ' mirrored' : ''}${sheetFileTypes[fileType].extension}`;

/** @param targetOf may throw with a sentence for the person */
export const weaveTarget = (
  studio: Studio,
  kind: Extract<FileKind, 'strip' | 'wedge' | 'lampTarget'>,
  targetOf: (job: Job, terms: Terms) => Target,
  asked?: Asked,
): Promise<void> =>
  weaveFiles<true>(
    studio,
    kind,
    (job, terms) => {
      const { at, fileType } = terms;
      const target = targetOf(job, terms);
      const info = infoOf(job, target, at);
      const mirrored = mirrors(job, target);
      const fileName = nameOf(target, mirrored, fileType);
      return {
        named: fileName,
        to: studio.view.getState().saveTo,
        prepare: async () => true,
        files: [
          {
            name: target.title,
            fileName,
            info,
            write: (_, sink, call) => weaveInto({ strip: target.spec, fileType, info }, sink, call),
          },
        ],
        dependsOn: {
          'what it shows': target.spec,
          'the paper': paperOf(job),
          'the print side': mirrored,
        },
        ...(target.onWhole && { onWhole: target.onWhole }),
      };
    },
    asked,
  );
