/** Weaving the targets beside the strip: where each goes, and what its file says about itself. */
import { sheetFileTypes } from '../../core/encode/file-types.ts';
import type { SheetInfo } from '../../core/encode/row-writer.ts';
import type { LampTargetSpec } from '../../core/colour/lamp-target.ts';
import type { WedgeSpec } from '../../core/weave/ghost-wedge.ts';
import type { Job } from '../../job/schema/job.ts';
import { paperOf } from '../../job/facts/pitch.ts';
import { weaveStrip as weaveInto } from '../../calls/strip.ts';
import { documentStore } from '../../state/document.ts';
import type { TargetState } from '../../state/targets.ts';
import { targetStore } from '../../state/targets.ts';
import { viewStore } from '../../state/view.ts';
import type { FileRun, FileToWrite } from './weave-file.ts';
import { createFileRun } from './weave-file.ts';

export interface TargetFile {
  readonly spec: WedgeSpec | LampTargetSpec;
  readonly size: { readonly widthDots: number; readonly heightDots: number };
  /** Of the file, without its ending. */
  readonly name: string;
  readonly title: string;
  readonly description: string;
  readonly onWhole?: () => void;
}

export const targetRun = (field: 'wedge' | 'lampTarget'): FileRun =>
  createFileRun({
    get: () => targetStore.getState()[field],
    set: (state) => {
      const change: Partial<Omit<TargetState, 'set'>> = { [field]: state };
      targetStore.getState().set(change);
    },
  });

const infoOf = (job: Job, { spec, size, title, description }: TargetFile): SheetInfo => {
  const { widthMm, heightMm } = paperOf(job);
  const [horizontalDpi, verticalDpi] =
    spec.ribs === 'upright' ? [spec.acrossDpi, spec.alongDpi] : [spec.alongDpi, spec.acrossDpi];
  return {
    width: size.widthDots,
    height: size.heightDots,
    horizontalDpi,
    verticalDpi,
    paperMm: { width: widthMm, height: heightMm },
    title,
    description,
    software: 'Tiltloom',
    writtenAt: new Date(),
  };
};

/** The file in the file type that was chosen for the strip. */
export const targetToWrite = (target: TargetFile): FileToWrite => {
  const { fileType } = viewStore.getState();
  const { job } = documentStore.getState();
  return {
    fileName: `${target.name}${sheetFileTypes[fileType].extension}`,
    fileType,
    rows: target.size.heightDots,
    write: (sink, call) =>
      weaveInto({ strip: target.spec, fileType, info: infoOf(job, target) }, sink, call),
    isStale: () => false,
    ...(target.onWhole === undefined ? {} : { onWhole: target.onWhole }),
  };
};
