/** This computer's camera, as far as a code that a phone shows is read with it. */
import { readCodeFrom } from '../../files/beside/read-code.ts';

/** What a phone's code begins with, so that no other QR code passes for it. */
const MARK = 'tiltloom:';

/** As it is shown by the phone. */
export const shownCode = (code: string): string => `${MARK}${code}`;

/** The code in a text that was read or pasted, with or without its mark. */
export const unmarked = (text: string): string =>
  text.startsWith(MARK) ? text.slice(MARK.length) : text;

const open = async (): Promise<MediaStream> => {
  const { mediaDevices } = navigator as { readonly mediaDevices?: MediaDevices };
  if (mediaDevices === undefined)
    throw new Error(
      'This browser lends its camera to pages on https or on this computer alone. Paste the code instead.',
    );
  try {
    return await mediaDevices.getUserMedia({ video: { width: { ideal: 1280 } }, audio: false });
  } catch {
    throw new Error(
      'The camera cannot be used: there is none, another program has it, or it was not allowed. Paste the code instead.',
    );
  }
};

/** Shows the camera's picture in the element until a phone's code is in it. @throws a sentence where there is no camera */
export const readPhoneCode = async (
  video: HTMLVideoElement,
  signal: AbortSignal,
): Promise<string> => {
  const stream = await open();
  const end = () => stream.getTracks().forEach((track) => track.stop());
  try {
    signal.throwIfAborted();
    video.srcObject = stream;
    await video.play();
    return await readCodeFrom(
      video,
      (text) => (text.startsWith(MARK) ? unmarked(text) : undefined),
      signal,
    );
  } finally {
    end();
  }
};
