/** The print run: every piece of the print with its file, woven and saved alone or with the others, ticked off as mounted. */
import { useLayoutEffect } from 'react';
import { useStore } from 'zustand';
import { plainMeasure } from '../../../core/units/measure.ts';
import { changeCopies } from '../../../job/edits/print-run.ts';
import type { RunKind, RunPiece } from '../../../job/facts/print-run.ts';
import { pieceNamesOf, printRunOf, runKindOf, runPiecesOf } from '../../../job/facts/print-run.ts';
import { canChooseFolder } from '../../../studio/keep/browser.ts';
import { saveTilesAsPdf, saveTilesToFolder } from '../../../studio/weave/save-run.ts';
import { Button, MeasureField, Notice, Panel, Prose, Row, Stack } from '../../../ui/index.ts';
import { MOST_COPIES } from '../../../job/schema/print-run.ts';
import { useChange, useJob, useStudio, useTask } from '../../studio.ts';
import { Outcome, Weaving } from '../../desk/FileStage.tsx';
import { usePartShown } from '../../desk/use-parts.ts';
import { PieceRow } from './PieceRow.tsx';
import styles from './run.module.css';

const copiesMeasure = plainMeasure(1, 0);

/** What a piece is, by how the print is divided. */
const words = {
  sheet: 'One print on one lens sheet.',
  several: 'Several prints on one lens sheet: a piece is a lens sheet with all its prints.',
  tiles: 'A piece is a tile on its own lens sheet.',
} as const;

const SaveAll = () => {
  const studio = useStudio();
  const state = useTask('tiles');
  if (state.stage !== 'woven' || state.files.length < 2) return null;
  const isPdf = state.files.every(({ fileName }) => fileName.endsWith('.pdf'));
  const isHere = state.files.every(({ href }) => href !== undefined);
  if (!isHere) return null;
  return (
    <Stack gap={2}>
      <Row gap="2 3">
        {isPdf && (
          <Button off={state.stale} onClick={() => void saveTilesAsPdf(studio)}>
            Save all as one PDF
          </Button>
        )}
        {canChooseFolder() && (
          <Button onClick={() => void saveTilesToFolder(studio)}>Save all to a folder</Button>
        )}
      </Row>
      {!isPdf && (
        <Prose>Woven as PDF, the tiles can also be saved as one file with a page for each.</Prose>
      )}
    </Stack>
  );
};

/** Whether no other part on the screen shows the files of this kind. */
const useIsAlone = (kind: RunKind): boolean => {
  const { tasks } = useStudio();
  useLayoutEffect(() => tasks.show(kind), [tasks, kind]);
  return useStore(tasks.store, ({ shown }) => shown.filter((one) => one === kind).length < 2);
};

/** How the weave goes, and why it ended. */
const UnderWayHere = ({ kind }: { readonly kind: RunKind }) => {
  const state = useTask(kind);
  const name = kind === 'several' ? 'several prints' : kind;
  return (
    <>
      {state.stage === 'weaving' && <Weaving kind={kind} name={name} state={state} />}
      <div role="status">
        {(state.stage === 'stopped' || state.stage === 'failed') && (
          <Outcome name={name} state={state} />
        )}
      </div>
    </>
  );
};

/** The copy is named only where there are several. */
const nameOf = ({ piece, copy }: RunPiece, copies: number): string =>
  copies > 1 ? `${piece}, copy ${copy}` : piece;

interface NextProps {
  readonly pieces: readonly RunPiece[];
  readonly copies: number;
}

const NextPiece = ({ pieces, copies }: NextProps) => {
  const done = pieces.filter(({ mounted }) => mounted !== undefined).length;
  const next = pieces.find(({ mounted }) => mounted === undefined);
  return (
    <p role="status" className={styles['far']}>
      <strong>
        {done} of {pieces.length} mounted.
      </strong>{' '}
      {next === undefined ? 'The run is done.' : `Next: ${nameOf(next, copies)}.`}
    </p>
  );
};

export const RunPanel = () => {
  const job = useJob();
  const change = useChange();
  const kind = runKindOf(job);
  const state = useTask(kind);
  const pieces = runPiecesOf(job);
  const { copies = 1 } = printRunOf(job);
  const [, choose] = usePartShown('mount');
  const isAlone = useIsAlone(kind);
  return (
    <Panel title="Print run">
      <Prose>
        {words[kind]} Files stay with the job in this browser: after a stop, a reload or a crash the
        weave goes on where it was. Tick each piece off as it is mounted; its lens batch and pitch
        are noted with it.
      </Prose>
      <div className={styles['copies']}>
        <MeasureField
          label="Copies of each"
          value={copies}
          measure={copiesMeasure}
          onCommit={(wanted) =>
            wanted > MOST_COPIES || wanted < 1
              ? `From 1 to ${MOST_COPIES} copies.`
              : change(...changeCopies(wanted))
          }
        />
      </div>
      {kind === 'tiles' && <SaveAll />}
      {isAlone && <UnderWayHere kind={kind} />}
      {kind !== 'sheet' && !('files' in state && state.files.length === state.count) && (
        <div>
          <Button onClick={() => choose(kind)}>
            {kind === 'tiles' ? 'Weave all under Tiles' : 'Weave it under Several prints'}
          </Button>
        </div>
      )}
      {'stale' in state && state.stale && state.files.length > 0 && (
        <Notice kind="caution" title="The job has changed since">
          These files show the job as it was. Pieces of different states do not fit each other.
        </Notice>
      )}
      {pieceNamesOf(job).length === 0 ? (
        <Notice kind="info">This print cannot be divided as set: see Tiles for the reason.</Notice>
      ) : (
        <>
          <NextPiece pieces={pieces} copies={copies} />
          <ul className={styles['pieces']}>
            {pieces.map((piece) => (
              <PieceRow
                key={`${piece.copy} ${piece.piece}`}
                kind={kind}
                piece={piece}
                name={nameOf(piece, copies)}
                saves={isAlone}
              />
            ))}
          </ul>
        </>
      )}
    </Panel>
  );
};
