/** A file of the job on its way, and what became of it. */
import { listed } from '../../core/names/listed.ts';
import { sayBytes, trimmed } from '../../core/units/format.ts';
import type { Begun, FileKind, FileState } from '../../state/tasks.ts';
import { Name, Notice, Prose, Stack, UnderWay, buttonClass } from '../../ui/index.ts';
import { useStudio } from '../studio.ts';

/** How a kind of file is spoken of. */
export interface FileWords {
  /** "strip": the button that makes it then reads "Weave strip". */
  readonly name: string;
  /** What the file is called in sentences, where `name` does not fit one: "lens sheet". */
  readonly thing?: string;
}

export type EndedState = Extract<FileState, { files: unknown }>;

interface WeavingProps extends Pick<FileWords, 'name'> {
  readonly kind: FileKind;
  readonly state: Extract<FileState, { stage: 'weaving' }>;
}

export const Weaving = ({ kind, name, state }: WeavingProps) => {
  const { tasks } = useStudio();
  const { rowsDone, rows, secondsLeft, place, count } = state;
  return (
    <UnderWay
      label={`Weaving ${name}`}
      done={rowsDone}
      total={rows}
      of="rows"
      secondsLeft={secondsLeft}
      onStop={() => tasks.stop(kind)}
    >
      {count > 1 && (
        <Prose>
          {place + 1} of {count}
        </Prose>
      )}
    </UnderWay>
  );
};

interface OutcomeProps<State> extends FileWords {
  readonly state: State;
}

const Woven = ({ name, thing = name, state }: OutcomeProps<EndedState>) => {
  const { files, seconds, stale } = state;
  const [file] = files;
  if (file === undefined) return null;
  const { fileName, byteLength, href } = file;
  return (
    <Stack gap={2} align="start">
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
      <Prose>
        <Name>{fileName}</Name>, {sayBytes(byteLength)}, woven in {trimmed(seconds, 1)} s.
      </Prose>
    </Stack>
  );
};

const percentOf = ({ share }: Begun): string => `${Math.max(1, Math.floor(100 * share))} %`;

/** What is kept of what is not whole, and whether it can go on. @param thing "sheet", "tiles" */
export const KeptPart = ({ thing, begun }: { readonly thing: string; readonly begun: Begun }) =>
  begun.changed.length === 0 ? (
    <Notice kind="info">
      {begun.pageWent ? 'The page went while it was woven.' : 'Stopped.'} {percentOf(begun)} of the{' '}
      {thing} are kept, and it can go on from there.
    </Notice>
  ) : (
    <Notice kind="caution" title="It cannot go on where it broke off">
      {percentOf(begun)} of the {thing} are kept, but {listed(begun.changed)} changed since. Undo
      that to go on, or weave it from the start.
    </Notice>
  );

export const Outcome = ({ name, thing = name, state }: OutcomeProps<FileState>) => {
  switch (state.stage) {
    case 'woven':
      return <Woven name={name} thing={thing} state={state} />;
    case 'stopped':
      return state.begun === undefined ? (
        <Notice kind="info">Stopped. Nothing was kept of the unfinished {thing}.</Notice>
      ) : (
        <KeptPart thing={thing} begun={state.begun} />
      );
    case 'failed':
      return (
        <Notice kind="problem" title={`The ${thing} was not woven`}>
          {state.message}
          {state.begun !== undefined && ` ${percentOf(state.begun)} of it are kept.`}
        </Notice>
      );
    default:
      return null;
  }
};
