/** Reading one picture in a worker: how it is told, and how it is stopped. */
import type { Outcome } from '../../contract/errors.ts';
import { toWorkError } from '../../contract/errors.ts';
import type { PictureState, ReadByHand } from '../../state/work.ts';

interface ReadCall {
  readonly signal: AbortSignal;
  readonly report: (share: number) => void;
}

/** One picture at a time: a new one stops the one before. */
export const createPictureRun = <Answer>(tell: (state: PictureState<Answer>) => void) => {
  let halt: AbortController | undefined;
  return {
    stop: () => halt?.abort(),
    async start(
      file: File,
      read: (call: ReadCall) => Promise<Outcome<Answer>>,
      asked: { readonly stripKey?: string; readonly byHand?: ReadByHand } = {},
    ): Promise<void> {
      halt?.abort();
      const own = new AbortController();
      halt = own;
      const tellIfLast = (state: PictureState<Answer>) => {
        if (halt === own) tell(state);
      };
      tellIfLast({ stage: 'reading', fileName: file.name, share: 0 });
      const report = (share: number) => {
        if (!own.signal.aborted) tellIfLast({ stage: 'reading', fileName: file.name, share });
      };
      try {
        const outcome = await read({ signal: own.signal, report });
        // Late progress must not come after the answer.
        const last = halt === own;
        own.abort();
        if (last)
          tell(
            outcome.done
              ? { stage: 'read', file, answer: outcome.value, ...asked }
              : { stage: 'stopped' },
          );
      } catch (error) {
        tellIfLast({ stage: 'failed', message: toWorkError(error).message });
      }
    },
  };
};
