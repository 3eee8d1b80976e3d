/** The phone's end of a link to a desk: its answer to the desk's code, and the pictures that it sends. */
import { createStore } from 'zustand/vanilla';
import { messageOf } from '../../contract/errors.ts';
import { sendFile } from '../../files/beside/channel.ts';
import { answerLink } from '../../files/beside/link.ts';

export type PhoneStage =
  | { readonly stage: 'making' }
  | { readonly stage: 'showing'; readonly code: string }
  /** `share` of the picture that is on its way; `refused`: why the last one did not get there. */
  | {
      readonly stage: 'linked';
      readonly share: number | undefined;
      readonly sent: number;
      readonly refused?: string;
    }
  /** The desk has what it wanted. */
  | { readonly stage: 'done' }
  | { readonly stage: 'failed'; readonly message: string };

/** Begins at once. @param offered the code that the desk shows */
export const createPhoneSide = (offered: string) => {
  const store = createStore<{ readonly now: PhoneStage }>()(() => ({ now: { stage: 'making' } }));
  const set = (now: PhoneStage) => store.setState({ now });
  let channel: RTCDataChannel | undefined;
  let sent = 0;
  const fail = (error: unknown) => set({ stage: 'failed', message: messageOf(error) });

  answerLink(offered).then(({ code, opened }) => {
    set({ stage: 'showing', code });
    opened.then((made) => {
      channel = made;
      made.addEventListener('close', () => {
        if (sent > 0) set({ stage: 'done' });
        else fail(new Error('The desk has ended the link, or it broke off. Read its code again.'));
      });
      set({ stage: 'linked', share: undefined, sent });
    }, fail);
  }, fail);

  return {
    store,
    send: async (file: File): Promise<void> => {
      if (channel === undefined) return;
      const isThere = () => store.getState().now.stage === 'linked';
      set({ stage: 'linked', share: 0, sent });
      try {
        await sendFile(channel, file, (share) => {
          if (isThere()) set({ stage: 'linked', share, sent });
        });
        sent += 1;
        if (isThere()) set({ stage: 'linked', share: undefined, sent });
      } catch (error) {
        if (isThere()) set({ stage: 'linked', share: undefined, sent, refused: messageOf(error) });
      }
    },
  };
};

export type PhoneSide = ReturnType<typeof createPhoneSide>;
