/**
 * Files that no part of the open bench shows. What is being woven stands here on every bench, to be watched and
 * stopped; what is woven stands on its own bench alone, where it is looked for, and only as long as its part is away.
 */
import type { ReactNode } from 'react';
import { useStore } from 'zustand';
import type { BenchName } from '../../job/findings/finding.ts';
import type { FileKind } from '../../state/tasks.ts';
import { HeldFocus } from '../../ui/index.ts';
import { useStudio, useTask } from '../studio.ts';
import type { EndedState, FileWords } from './FileStage.tsx';
import { Outcome, Weaving } from './FileStage.tsx';
import { TilesEnded } from './TilesEnded.tsx';
import styles from './FilesUnderWay.module.css';

interface KindOfFile extends FileWords {
  readonly bench: BenchName;
  readonly ended?: (state: EndedState) => ReactNode;
}

const kinds: Readonly<Record<FileKind, KindOfFile>> = {
  strip: { name: 'strip', bench: 'calibrate' },
  wedge: { name: 'wedge', bench: 'calibrate' },
  lampTarget: { name: 'lamp target', bench: 'calibrate' },
  sheet: { name: 'sheet', bench: 'weave' },
  tiles: { name: 'tiles', bench: 'mount', ended: TilesEnded },
  several: { name: 'several prints', thing: 'lens sheet', bench: 'mount' },
  slice: { name: 'slice', bench: 'mend' },
};

interface Props {
  readonly kind: FileKind;
  /** The one that is open. */
  readonly bench: BenchName;
}

const OneFile = ({ kind, bench }: Props) => {
  const { ended, bench: own, ...words } = kinds[kind];
  const state = useTask(kind);
  const isWeaving = state.stage === 'weaving';
  if (state.stage === 'idle' || (!isWeaving && bench !== own)) return null;
  return (
    <div className={styles['file']}>
      <HeldFocus stage={state.stage}>
        {isWeaving && <Weaving kind={kind} name={words.name} state={state} />}
        {/* Only what became of it is read aloud, not every step on the way. */}
        <div role="status">
          {ended !== undefined && 'files' in state ? (
            ended(state)
          ) : (
            <Outcome {...words} state={state} />
          )}
        </div>
      </HeldFocus>
    </div>
  );
};

export const FilesUnderWay = ({ bench }: Pick<Props, 'bench'>) => {
  const shown = useStore(useStudio().tasks.store, (tasks) => tasks.shown);
  const others = (Object.keys(kinds) as FileKind[]).filter((kind) => !shown.includes(kind));
  return (
    <>
      {others.map((kind) => (
        <OneFile key={kind} kind={kind} bench={bench} />
      ))}
    </>
  );
};
