/** Something woven on its way to a file: the button, how far it is, and what became of it. */
import { sayBytes, trimmed } from '../../core/units/format.ts';
import type { WeaveState } from '../../state/work.ts';
import { Button, HeldFocus, Notice, ProgressBar, buttonClass } from '../../ui/index.ts';
import styles from './MakeFile.module.css';

interface OutcomeProps {
  /** "strip": the button then reads "Weave strip". */
  readonly name: string;
  readonly state: WeaveState;
}

interface Props extends OutcomeProps {
  /** Cannot be woven: said nearby why. */
  readonly off?: boolean;
  /** Not what its bench is there for. */
  readonly plain?: boolean;
  onWeave(): void;
  onStop(): void;
}

const Woven = ({
  name,
  state,
}: {
  readonly name: string;
  readonly state: Extract<WeaveState, { stage: 'woven' }>;
}) => (
  <div className={styles['woven']}>
    {state.stale && (
      <Notice kind="caution" title="The job has changed since">
        This {name} shows the job as it was. Weave it again before you print.
      </Notice>
    )}
    {state.href === undefined ? (
      <p>
        Saved as <strong>{state.fileName}</strong>.
      </p>
    ) : (
      <a className={buttonClass('primary')} href={state.href} download={state.fileName}>
        Save {name}
      </a>
    )}
    <p className={styles['facts']}>
      {state.fileName}, {sayBytes(state.byteLength)}, woven in {trimmed(state.seconds, 1)} s.
    </p>
  </div>
);

const Outcome = ({ name, state }: OutcomeProps) => {
  if (state.stage === 'woven') return <Woven name={name} state={state} />;
  if (state.stage === 'stopped')
    return <Notice kind="info">Stopped. Nothing was kept of the unfinished {name}.</Notice>;
  if (state.stage === 'failed')
    return (
      <Notice kind="problem" title={`The ${name} was not woven`}>
        {state.message}
      </Notice>
    );
  return null;
};

export const MakeFile = ({ name, state, off = false, plain = false, onWeave, onStop }: Props) => (
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
        <Button onClick={onStop}>Stop</Button>
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
      <Outcome name={name} state={state} />
    </div>
  </HeldFocus>
);
