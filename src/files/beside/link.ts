/**
 * A direct link between two browsers on one network, over which files go: no server in between, and none that
 * helps them find each other (no STUN, no TURN). One side shows a code, the other answers with one.
 */
import { codeOf, descriptionOf } from './code.ts';

export interface Link {
  /** Resolves when both can speak; rejects when they cannot find each other. */
  readonly opened: Promise<RTCDataChannel>;
  close(): void;
}

/** Host addresses alone are gathered, which takes no longer than asking the own machine. */
const GATHERED_BY_MS = 3000;

const gathered = (peer: RTCPeerConnection): Promise<void> =>
  new Promise((resolve) => {
    const look = () => {
      if (peer.iceGatheringState === 'complete') resolve();
    };
    peer.addEventListener('icegatheringstatechange', look);
    setTimeout(resolve, GATHERED_BY_MS);
    look();
  });

const untilOpen = (
  peer: RTCPeerConnection,
  channel: Promise<RTCDataChannel>,
): Promise<RTCDataChannel> =>
  new Promise((resolve, reject) => {
    peer.addEventListener('connectionstatechange', () => {
      if (peer.connectionState === 'failed')
        reject(
          new Error(
            'The two devices did not find each other. Both must be in the same network, which must let its devices ' +
              'speak to each other: guest networks often do not.',
          ),
        );
    });
    void channel.then((made) => {
      made.binaryType = 'arraybuffer';
      if (made.readyState === 'open') resolve(made);
      else made.addEventListener('open', () => resolve(made), { once: true });
    });
  });

/** What was said last still goes out: a channel is closed after it, a connection at once. */
const closing = (peer: RTCPeerConnection, channel: () => RTCDataChannel | undefined) => () => {
  const open = channel();
  if (open?.readyState !== 'open') return peer.close();
  open.addEventListener('close', () => peer.close(), { once: true });
  open.close();
};

const newPeer = (): RTCPeerConnection => {
  if (!('RTCPeerConnection' in globalThis))
    throw new Error('This browser, or its settings, allows no direct link between two devices.');
  return new RTCPeerConnection({ iceServers: [] });
};

const ownCode = async (peer: RTCPeerConnection): Promise<string> => {
  await peer.setLocalDescription();
  await gathered(peer);
  return codeOf(peer.localDescription?.sdp ?? '');
};

/** The side that shows its code first. `answered` takes the other's code. @throws {BadCode} from `answered` */
export const offerLink = async (): Promise<
  Link & { readonly code: string; answered(code: string): Promise<void> }
> => {
  const peer = newPeer();
  const channel = peer.createDataChannel('files');
  const opened = untilOpen(peer, Promise.resolve(channel));
  // Said by whoever waits for it; one that is closed before is nobody's fault.
  opened.catch(() => undefined);
  return {
    opened,
    code: await ownCode(peer),
    answered: (code) => peer.setRemoteDescription(descriptionOf(code, 'answer')),
    close: closing(peer, () => channel),
  };
};

/** The side that has read a code. @throws {BadCode} */
export const answerLink = async (
  offered: string,
): Promise<Omit<Link, 'close'> & { readonly code: string }> => {
  const peer = newPeer();
  const channel = new Promise<RTCDataChannel>((resolve) => {
    peer.addEventListener('datachannel', (event) => resolve(event.channel), { once: true });
  });
  const opened = untilOpen(peer, channel);
  opened.catch(() => undefined);
  await peer.setRemoteDescription(descriptionOf(offered, 'offer'));
  return { opened, code: await ownCode(peer) };
};
