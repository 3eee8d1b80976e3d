/** Files on their way: the button that weaves them, how far they are, and what became of them. */
import type { ReactNode } from 'react';
import { sayBytes, trimmed } from '../../core/units/format.ts';
import type { FileKind, FileState } from '../../state/tasks.ts';
import {
  Button,
  buttonClass,
  HeldFocus,
  Name,
  Notice,
  ProgressBar,
  Prose,
} from '../../ui/index.ts';
import { useStudio, useTask } from '../studio.ts';
import styles from './MakeFile.module.css';

interface Props {
  readonly kind: FileKind;
  /** "strip": the button then reads "Weave strip". */
  readonly name: string;
  /** What the file is called in sentences, where `name` does not fit one: "lens sheet". */
  readonly thing?: string;
  /** Cannot be woven: said nearby why. */
  readonly off?: boolean;
  /** Not what its bench is there for. */
  readonly plain?: boolean;
  /** Says what became of it, where there are several files: all in one go. */
  readonly ended?: (state: EndedState) => ReactNode;
  onWeave(): void;
}

export type EndedState = Extract<FileState, { files: unknown }>;

interface OutcomeProps<State> {
  readonly name: string;
  readonly thing: string;
  readonly state: State;
}

const Woven = ({ name, thing, state }: OutcomeProps<EndedState>) => {
  const { files, seconds, stale } = state;
  const [file] = files;
  if (file === undefined) return null;
  const { fileName, byteLength, href } = file;
  return (
    <div className={styles['woven']}>
      {stale && (
        <Notice kind="caution" title="The job has changed since">
          This {thing} shows the job as it was. Weave it again before you print.
        </Notice>
      )}
      {href === undefined ? (
        <p>
          Saved as{' '}
          <strong>
            <Name>{fileName}</Name>
          </strong>
          .
        </p>
      ) : (
        <a className={buttonClass('primary')} href={href} download={fileName}>
          Save {name}
        </a>
      )}
      <p className={styles['facts']}>
        <Name>{fileName}</Name>, {sayBytes(byteLength)}, woven in {trimmed(seconds, 1)} s.
      </p>
    </div>
  );
};

const Outcome = ({ name, thing, state }: OutcomeProps<FileState>) => {
  switch (state.stage) {
    case 'woven':
      return <Woven name={name} thing={thing} state={state} />;
    case 'stopped':
      return <Notice kind="info">Stopped. Nothing was kept of the unfinished {thing}.</Notice>;
    case 'failed':
      return (
        <Notice kind="problem" title={`The ${thing} was not woven`}>
          {state.message}
        </Notice>
      );
    default:
      return null;
  }
};

export const MakeFile = (props: Props) => {
  const { kind, name, thing = name, off = false, plain = false, ended, onWeave } = props;
  const { tasks } = useStudio();
  const state = useTask(kind);
  return (
    <HeldFocus stage={state.stage}>
      {state.stage === 'weaving' ? (
        <div className={styles['running']}>
          <ProgressBar
            label={`Weaving ${name}`}
            done={state.rowsDone}
            total={state.rows}
            of="rows"
            secondsLeft={state.secondsLeft}
          />
          {state.count > 1 && (
            <Prose>
              {state.place + 1} of {state.count}
            </Prose>
          )}
          <Button onClick={() => tasks.stop(kind)}>Stop</Button>
        </div>
      ) : (
        <div>
          <Button
            look={plain || (state.stage === 'woven' && !state.stale) ? 'plain' : 'primary'}
            off={off}
            onClick={onWeave}
          >
            Weave {name}
          </Button>
        </div>
      )}
      {/* There from the start: a region that comes with its words is not read aloud. */}
      <div role="status">
        {ended !== undefined && 'files' in state ? (
          ended(state)
        ) : (
          <Outcome name={name} thing={thing} state={state} />
        )}
      </div>
    </HeldFocus>
  );
};
