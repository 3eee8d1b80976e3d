/** One piece of the print run. */
import { isoDay } from '../../../core/units/day.ts';
import { sayBytes, trimmed } from '../../../core/units/format.ts';
import { mm, mmToLpi } from '../../../core/units/units.ts';
import { changeLensBatch, tickMounted, untickMounted } from '../../../job/edits/print-run.ts';
import type { RunKind, RunPiece } from '../../../job/facts/print-run.ts';
import { printedLensPitch } from '../../../job/facts/sheet.ts';
import type { Mounted } from '../../../job/schema/print-run.ts';
import { weaveTiles } from '../../../studio/weave/tiles.ts';
import { Button, NoticeMark, Prose, Row, TextField, buttonClass } from '../../../ui/index.ts';
import { useChange, useIsWeaving, useJob, useStudio, useTask } from '../../studio.ts';
import styles from './run.module.css';

interface Props {
  readonly kind: RunKind;
  readonly piece: RunPiece;
  /** With its copy, where there are several. */
  readonly name: string;
  /** Whether its file is offered here, and not by the part that weaves it. */
  readonly saves: boolean;
}

/** Its file to save, and for a tile the button that weaves it alone. */
const PieceFile = ({ kind, piece, saves }: Omit<Props, 'name'>) => {
  const studio = useStudio();
  const state = useTask(kind);
  const isWeaving = useIsWeaving();
  const files = 'files' in state ? state.files : [];
  const file = kind === 'tiles' ? files.find(({ name }) => name === piece.piece) : files[0];
  return (
    <Row gap={2}>
      {saves && file?.href !== undefined && (
        <a className={buttonClass('plain')} href={file.href} download={file.fileName}>
          Save {piece.piece}
        </a>
      )}
      {kind === 'tiles' ? (
        <Button
          off={isWeaving}
          onClick={() => void weaveTiles(studio, 'here', { go: { again: piece.index } })}
        >
          Weave {piece.piece} {file === undefined ? 'alone' : 'again'}
        </Button>
      ) : (
        kind === 'sheet' &&
        file === undefined && (
          <a className={buttonClass()} href="#/weave">
            Go to Weave
          </a>
        )
      )}
      {file !== undefined && <Prose as="span">{sayBytes(file.byteLength)}</Prose>}
    </Row>
  );
};

const lpi = (pitchMm: number): string => `${trimmed(mmToLpi(mm(pitchMm)), 3)} LPI`;

/** Less than this cannot be read from a strip (0.001 LPI at 60 LPI). */
const SAME_PITCH = 2e-5;

const Noted = ({ mounted, name }: { readonly mounted: Mounted; readonly name: string }) => {
  const job = useJob();
  const change = useChange();
  const now = printedLensPitch(job);
  const { on, lensBatch = '', pitchMm, proved } = mounted;
  const isOther = Math.abs(pitchMm / now - 1) > SAME_PITCH;
  return (
    <div className={styles['noted']}>
      <TextField
        label={`Lens batch of ${name}`}
        value={lensBatch}
        maxLength={80}
        onCommit={(text) => void change(...changeLensBatch(mounted, text))}
      />
      <Prose as="span">
        {on}, {lpi(pitchMm)} {proved ? 'proved' : 'nominal'}
      </Prose>
      {isOther && (
        <p className={styles['other']}>
          <NoticeMark kind="caution" /> The job has {lpi(now)} now: beside this piece a new one
          turns at another place.
        </p>
      )}
    </div>
  );
};

export const PieceRow = ({ kind, piece, name, saves }: Props) => {
  const change = useChange();
  const { mounted } = piece;
  return (
    <li className={styles['piece']}>
      <label className={styles['tick']}>
        <input
          type="checkbox"
          checked={mounted !== undefined}
          onChange={({ target }) =>
            void change(
              ...(target.checked ? tickMounted(piece, isoDay(new Date())) : untickMounted(piece)),
            )
          }
        />
        <span>
          <strong>{name}</strong> <span className="unseen">mounted</span>
        </span>
      </label>
      {piece.copy === 1 && <PieceFile kind={kind} piece={piece} saves={saves} />}
      {mounted !== undefined && <Noted mounted={mounted} name={name} />}
    </li>
  );
};
