/** Reads a picture in a worker, with progress and a stop. */
import type { ReadCall } from '../../calls/photo.ts';
import type { Outcome } from '../../contract/errors.ts';
import { messageOf } from '../../contract/errors.ts';
import type {
  PictureKind,
  PictureState,
  PictureTasks,
  ReadByHand,
  TaskStates,
} from '../../state/tasks.ts';
import type { Floor } from '../floor.ts';

type AnswerOf<Kind extends PictureKind> =
  PictureTasks[Kind] extends PictureState<infer Answer> ? Answer : never;

/** One picture of a kind at a time: a new one stops the one before. The reading belongs to the open job. */
export const readPicture = async <Kind extends PictureKind>(
  { tasks, document }: Floor,
  kind: Kind,
  file: File,
  read: (call: ReadCall) => Promise<Outcome<AnswerOf<Kind>>>,
  asked: { readonly stripKey?: string; readonly byHand?: ReadByHand } = {},
): Promise<void> => {
  const { jobId } = document.getState();
  const tell = (state: PictureState<AnswerOf<Kind>>) =>
    tasks.tell(jobId, kind, state as TaskStates[Kind]);
  tasks.stop(kind);
  await tasks.run({ kind, jobId }, async (signal) => {
    // Progress that arrives after a stop or the answer is ignored.
    const late = new AbortController();
    const isLate = () => late.signal.aborted;
    signal.addEventListener('abort', () => {
      late.abort();
      tell({ stage: 'stopped' });
    });
    const report = (share: number) => {
      if (!isLate()) tell({ stage: 'reading', fileName: file.name, share });
    };
    report(0);
    try {
      const outcome = await read({ signal, report });
      if (isLate()) return;
      late.abort();
      tell(
        outcome.done
          ? { stage: 'read', file, answer: outcome.value, ...asked }
          : { stage: 'stopped' },
      );
    } catch (error) {
      if (!isLate()) tell({ stage: 'failed', message: messageOf(error) });
    }
  });
};
