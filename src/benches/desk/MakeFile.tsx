/** The button that weaves a file, how far it is, and what became of it. */
import type { ReactNode } from 'react';
import { useLayoutEffect } from 'react';
import type { FileKind } from '../../state/tasks.ts';
import type { Asked } from '../../studio/weave/go-on.ts';
import { Button, HeldFocus, Row } from '../../ui/index.ts';
import { useStudio, useTask } from '../studio.ts';
import { ColoursSaid } from './ColoursSaid.tsx';
import type { EndedState, FileWords } from './FileStage.tsx';
import { Outcome, Weaving } from './FileStage.tsx';

interface Props extends FileWords {
  readonly kind: FileKind;
  /** Cannot be woven: said nearby why. */
  readonly off?: boolean;
  /** Not what its bench is there for. */
  readonly plain?: boolean;
  /** Says what became of it, where there are several files: all in one go. */
  readonly ended?: (state: EndedState) => ReactNode;
  onWeave(asked?: Asked): void;
}

export const MakeFile = (props: Props) => {
  const { kind, name, thing = name, off = false, plain = false, ended, onWeave } = props;
  const { tasks } = useStudio();
  const state = useTask(kind);
  const begun = 'begun' in state ? state.begun : undefined;
  const goesOn = begun !== undefined && begun.changed.length === 0;
  useLayoutEffect(() => tasks.show(kind), [tasks, kind]);
  return (
    <HeldFocus stage={state.stage}>
      {state.stage === 'weaving' ? (
        <Weaving kind={kind} name={name} state={state} />
      ) : (
        <Row gap="2 3">
          {goesOn && (
            <Button
              look={plain ? 'plain' : 'primary'}
              off={off}
              onClick={() => onWeave({ go: 'on' })}
            >
              Go on weaving {name}
            </Button>
          )}
          <Button
            look={
              plain || goesOn || (state.stage === 'woven' && !state.stale) ? 'plain' : 'primary'
            }
            off={off}
            onClick={() => onWeave()}
          >
            Weave {name}
            {goesOn && ' from the start'}
          </Button>
        </Row>
      )}
      {/* The sheet has its own advice. */}
      {kind !== 'sheet' && <ColoursSaid kind={kind} />}
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
