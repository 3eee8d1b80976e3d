/** Reading a photo of the strip or a scan of a bare lens: from the file to what it says. */
import type { Outcome } from '../../contract/errors.ts';
import { toWorkError } from '../../contract/errors.ts';
import type { LensScanAnswer, StripPhotoAnswer } from '../../contract/photo.ts';
import type { Job } from '../../job/job.ts';
import type { WovenStrip } from '../../job/pitch-schema.ts';
import { specOfWoven } from '../../job/pitch.ts';
import { lensOf } from '../../job/selectors.ts';
import { readPhoto, readScan } from '../../jobs/photo.ts';
import type { PictureState, ReadByHand } from '../../state/work.ts';
import { workStore } from '../../state/work.ts';

interface ReadCall {
  readonly signal: AbortSignal;
  readonly report: (share: number) => void;
}

/** One picture at a time: a new one stops the one before. */
const createPictureRun = <Answer>(tell: (state: PictureState<Answer>) => void) => {
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

const photoRun = createPictureRun<StripPhotoAnswer>((photo) => workStore.getState().set({ photo }));
const scanRun = createPictureRun<LensScanAnswer>((lensScan) =>
  workStore.getState().set({ lensScan }),
);

export const stripKeyOf = (job: Job, strip: WovenStrip): string =>
  JSON.stringify([specOfWoven(job, strip), lensOf(job)]);

export const readStripFrom = (
  file: File,
  job: Job,
  strip: WovenStrip,
  byHand: ReadByHand = {},
): Promise<void> =>
  photoRun.start(
    file,
    (call) =>
      readPhoto(
        {
          file,
          name: file.name,
          strip: specOfWoven(job, strip),
          lens: lensOf(job),
          ...byHand,
        },
        call,
      ),
    { stripKey: stripKeyOf(job, strip), byHand },
  );

export const readScanFrom = (file: File): Promise<void> =>
  scanRun.start(file, (call) => readScan({ file, name: file.name }, call));

export const stopPhoto = (): void => photoRun.stop();
export const stopScan = (): void => scanRun.stop();
export const putPhotoAway = (): void => workStore.getState().set({ photo: { stage: 'idle' } });
