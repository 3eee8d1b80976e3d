/**
 * Files over a data channel. For each: a message with its name, type and length, its bytes in messages of at most
 * 64 KiB, then a word from the other side that it came. What comes is input from outside and is checked.
 */
import * as v from 'valibot';

const PIECE_BYTES = 2 ** 16;
/** So much waits in the browser at most before more is read from the file. */
const WAITING_BYTES = 2 ** 20;
const MOST_BYTES = 2 ** 29;

const headSchema = v.object({
  name: v.pipe(v.string(), v.nonEmpty(), v.maxLength(200)),
  type: v.pipe(v.string(), v.regex(/^(image\/[\w.+-]{1,60})?$/)),
  size: v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(MOST_BYTES)),
});

const CAME = 'came';
const REFUSED = 'refused';

const parsed = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
};

const untilRoom = (channel: RTCDataChannel): Promise<void> =>
  new Promise((resolve, reject) => {
    if (channel.bufferedAmount <= WAITING_BYTES) return resolve();
    channel.bufferedAmountLowThreshold = WAITING_BYTES / 2;
    channel.addEventListener('bufferedamountlow', () => resolve(), { once: true });
    channel.addEventListener('close', () => reject(brokenOff()), { once: true });
  });

const brokenOff = () =>
  new Error('The link between the two devices broke off. Show the code again.');

/** Resolves when the other side has it whole. @throws when the link breaks off, or the other side refuses it */
export const sendFile = async (
  channel: RTCDataChannel,
  file: File,
  onShare: (share: number) => void,
): Promise<void> => {
  if (channel.readyState !== 'open') throw brokenOff();
  const answer = new Promise<string>((resolve, reject) => {
    channel.addEventListener('message', ({ data }) => resolve(String(data)), { once: true });
    channel.addEventListener('close', () => reject(brokenOff()), { once: true });
  });
  answer.catch(() => undefined);
  const { name, type, size } = file;
  channel.send(JSON.stringify({ name: name.slice(-200), type, size }));
  for (let at = 0; at < size; at += PIECE_BYTES) {
    await untilRoom(channel);
    channel.send(await file.slice(at, at + PIECE_BYTES).arrayBuffer());
    onShare(Math.min(1, (at + PIECE_BYTES) / size));
  }
  if ((await answer) !== CAME)
    throw new Error('The other device did not take this file: it takes pictures of up to 512 MB.');
};

interface Coming {
  readonly head: v.InferOutput<typeof headSchema>;
  readonly pieces: ArrayBuffer[];
  came: number;
}

/** Hands over each picture that came whole. Whatever else comes is refused, and the link goes on. */
export const receiveFiles = (
  channel: RTCDataChannel,
  on: { file(file: File): void; share(share: number): void; closed(): void },
): void => {
  let coming: Coming | undefined;
  channel.addEventListener('close', () => on.closed());
  channel.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
    if (typeof data === 'string') {
      const head = v.safeParse(headSchema, parsed(data));
      coming = head.success ? { head: head.output, pieces: [], came: 0 } : undefined;
      if (!head.success) channel.send(REFUSED);
      return;
    }
    if (!(data instanceof ArrayBuffer) || coming === undefined) return;
    const { head, pieces } = coming;
    coming.came += data.byteLength;
    if (coming.came > head.size) {
      coming = undefined;
      channel.send(REFUSED);
      return;
    }
    pieces.push(data);
    on.share(coming.came / head.size);
    if (coming.came < head.size) return;
    coming = undefined;
    channel.send(CAME);
    on.file(new File(pieces, head.name, { type: head.type }));
  });
};
