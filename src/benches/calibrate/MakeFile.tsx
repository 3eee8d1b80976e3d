/** A target on its way to a file: the button, how far it is, and what became of it. */
import type { WeaveState } from '../../state/work.ts';
import { Button, HeldFocus, Notice, ProgressBar, buttonClass } from '../../ui/index.ts';
import styles from './calibrate.module.css';

interface Props {
  /** "strip": the button then reads "Weave strip". */
  readonly name: string;
  readonly state: WeaveState;
  /** Cannot be woven: said nearby why. */
  readonly off: boolean;
  onWeave(): void;
  onStop(): void;
}

const Outcome = ({ name, state }: Pick<Props, 'name' | 'state'>) => {
  if (state.stage === 'woven')
    return (
      <div className={styles['woven']}>
        {state.href === undefined ? (
          <p>
            Saved as <strong>{state.fileName}</strong>.
          </p>
        ) : (
          <a className={buttonClass('primary')} href={state.href} download={state.fileName}>
            Save {name}
          </a>
        )}
        <p className={styles['soft']}>{state.fileName}</p>
      </div>
    );
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

export const MakeFile = ({ name, state, off, onWeave, onStop }: Props) => (
  <HeldFocus stage={state.stage}>
    {state.stage === 'weaving' ? (
      <div className={styles['running']}>
        <ProgressBar label={`Weaving ${name}`} done={state.rowsDone} total={state.rows} of="rows" />
        <Button onClick={onStop}>Stop</Button>
      </div>
    ) : (
      <div>
        <Button look={state.stage === 'woven' ? 'plain' : 'primary'} off={off} onClick={onWeave}>
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
