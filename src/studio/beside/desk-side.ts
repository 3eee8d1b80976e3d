/** The desk's end of a link to a phone: its code, the phone's answer, the pictures that come. */
import { createStore } from 'zustand/vanilla';
import { messageOf } from '../../contract/errors.ts';
import { receiveFiles } from '../../files/beside/channel.ts';
import { offerLink } from '../../files/beside/link.ts';

export type DeskStage =
  | { readonly stage: 'making' }
  /** `refused`: the code that was read last was no answer. */
  | { readonly stage: 'showing'; readonly code: string; readonly refused?: string }
  | { readonly stage: 'finding' }
  /** `share` of a picture that is coming. */
  | { readonly stage: 'linked'; readonly share: number | undefined }
  | { readonly stage: 'failed'; readonly message: string };

/** Begins at once. @param onFile is given each picture that came whole */
export const createDeskSide = (onFile: (file: File) => void) => {
  const store = createStore<{ readonly now: DeskStage }>()(() => ({ now: { stage: 'making' } }));
  const set = (now: DeskStage) => store.setState({ now });
  let ended = false;
  const fail = (error: unknown) => {
    if (!ended) set({ stage: 'failed', message: messageOf(error) });
  };

  const linked = (channel: RTCDataChannel): void => {
    if (ended) return;
    set({ stage: 'linked', share: undefined });
    receiveFiles(channel, {
      share: (share) => set({ stage: 'linked', share }),
      file: (file) => {
        set({ stage: 'linked', share: undefined });
        onFile(file);
      },
      closed: () => fail(new Error('The link to the phone broke off. Show the code again.')),
    });
  };

  const begun = offerLink();
  begun.then(({ code, close, opened }) => {
    if (ended) return close();
    set({ stage: 'showing', code });
    opened.then(linked, fail);
  }, fail);

  return {
    store,
    /** The code that the phone shows. */
    answer: async (text: string): Promise<void> => {
      const { code, answered } = await begun;
      try {
        await answered(text.trim());
        if (store.getState().now.stage === 'showing') set({ stage: 'finding' });
      } catch (error) {
        if (store.getState().now.stage === 'showing')
          set({ stage: 'showing', code, refused: messageOf(error) });
      }
    },
    end: (): void => {
      ended = true;
      void begun.then(
        ({ close }) => close(),
        () => undefined,
      );
    },
  };
};
