/**
 * What two browsers must tell each other before they can speak, short enough to be shown as a QR code: the
 * session description of a data channel (SDP, RFC 8866; WebRTC, RFC 8829) without everything that is always the
 * same. As bytes, then base64url (RFC 4648, section 5):
 *
 *   1     version, 1
 *   1 + n  name of the connection (ice-ufrag, RFC 8839), its length first
 *   1 + n  its password (ice-pwd)
 *   32    SHA-256 of the certificate (fingerprint, RFC 8122)
 *   then for each place where it listens: kind (4: IPv4, 6: IPv6, 16: a name of the local network, RFC 6762), port
 *   (2 bytes, the high one first), address (4 or 16 bytes)
 */

const VERSION = 1;
const FINGERPRINT_BYTES = 32;
/** Addresses that a machine has; more would only make the code large. */
const MOST_PLACES = 6;
/** More than any browser writes. */
const MOST_LETTERS = 1000;

/** Sent over by the other side, so it is checked before it comes into a session description. */
const ICE_LETTERS = /^[A-Za-z0-9+/]+$/;

interface Place {
  readonly address: string;
  readonly port: number;
}

interface Hello {
  readonly ufrag: string;
  readonly password: string;
  readonly fingerprint: Uint8Array;
  readonly places: readonly Place[];
}

export class BadCode extends Error {}

const bad = (): never => {
  throw new BadCode(
    'This is not the whole code of a link between two devices, or it comes from another version of the studio. ' +
      'Show and read it again.',
  );
};

const lineOf = (sdp: string, name: string): string =>
  new RegExp(`^a=${name}:(.*)$`, 'm').exec(sdp)?.[1]?.trim() ?? bad();

const fingerprintOf = (sdp: string): Uint8Array => {
  const [kind = '', hex = ''] = lineOf(sdp, 'fingerprint').split(' ');
  const bytes = Uint8Array.from(hex.split(':'), (pair) => Number.parseInt(pair, 16));
  return kind.toLowerCase() === 'sha-256' && bytes.length === FINGERPRINT_BYTES ? bytes : bad();
};

/** Candidates over UDP; the port stands behind the address (RFC 8839, section 5.1). */
const placesOf = (sdp: string): Place[] =>
  [...sdp.matchAll(/^a=candidate:\S+ 1 udp \d+ (\S+) (\d+) typ host/gim)]
    .map(([, address = '', port]) => ({ address, port: Number(port) }))
    .slice(0, MOST_PLACES);

const readSdp = (sdp: string): Hello => ({
  ufrag: lineOf(sdp, 'ice-ufrag'),
  password: lineOf(sdp, 'ice-pwd'),
  fingerprint: fingerprintOf(sdp),
  places: placesOf(sdp),
});

const hex = (byte: number): string => byte.toString(16).padStart(2, '0');

const ipv6Bytes = (address: string): number[] | undefined => {
  const [head = '', tail] = address.split('::');
  const groups = (text: string | undefined) => (text ? text.split(':') : []);
  const [before, after] = [groups(head), groups(tail)];
  const zeros = tail === undefined ? 0 : 8 - before.length - after.length;
  const all = [...before, ...Array.from({ length: Math.max(0, zeros) }, () => '0'), ...after];
  if (all.length !== 8 || !all.every((group) => /^[0-9a-f]{1,4}$/i.test(group))) return undefined;
  return all.flatMap((group) => {
    const value = Number.parseInt(group, 16);
    return [value >> 8, value & 0xff];
  });
};

/** Kind and bytes of an address; undefined for what a code has no place for. */
const addressBytes = (address: string): readonly number[] | undefined => {
  const uuid = /^([0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12})\.local$/i.exec(
    address,
  )?.[1];
  if (uuid !== undefined)
    return [
      16,
      ...Uint8Array.from(uuid.replaceAll('-', '').match(/../g) ?? [], (pair) =>
        Number.parseInt(pair, 16),
      ),
    ];
  if (/^\d{1,3}(\.\d{1,3}){3}$/.test(address)) return [4, ...address.split('.').map(Number)];
  const bytes = ipv6Bytes(address);
  return bytes && [6, ...bytes];
};

const addressOf = (kind: number, bytes: Uint8Array): string => {
  const digits = Array.from(bytes, hex).join('');
  if (kind === 4) return bytes.join('.');
  if (kind === 6) return (digits.match(/.{4}/g) ?? []).join(':');
  return `${digits.replace(/^(.{8})(.{4})(.{4})(.{4})/, '$1-$2-$3-$4-')}.local`;
};

const toBase64Url = (bytes: Uint8Array): string =>
  btoa(String.fromCharCode(...bytes))
    .replaceAll('+', '-')
    .replaceAll('/', '_')
    .replace(/=+$/, '');

const fromBase64Url = (code: string): Uint8Array => {
  if (code.length > MOST_LETTERS || !/^[A-Za-z0-9_-]+$/.test(code)) return bad();
  try {
    return Uint8Array.from(atob(code.replaceAll('-', '+').replaceAll('_', '/')), (letter) =>
      letter.charCodeAt(0),
    );
  } catch {
    return bad();
  }
};

/** @param sdp of a data channel, with its candidates gathered. @throws {BadCode} on any other */
export const codeOf = (sdp: string): string => {
  const { ufrag, password, fingerprint, places } = readSdp(sdp);
  const text = (letters: string) => [letters.length, ...new TextEncoder().encode(letters)];
  const listening = places.flatMap(({ address, port }) => {
    const [kind, ...bytes] = addressBytes(address) ?? [];
    return kind === undefined ? [] : [kind, port >> 8, port & 0xff, ...bytes];
  });
  return toBase64Url(
    Uint8Array.from([VERSION, ...text(ufrag), ...text(password), ...fingerprint, ...listening]),
  );
};

const readCode = (code: string): Hello => {
  const bytes = fromBase64Url(code);
  let at = 0;
  const take = (count: number): Uint8Array => {
    const part = bytes.subarray(at, at + count);
    at += count;
    return part.length === count ? part : bad();
  };
  const takeByte = (): number => take(1)[0] as number;
  const letters = (least: number): string => {
    const text = String.fromCharCode(...take(takeByte()));
    return text.length >= least && ICE_LETTERS.test(text) ? text : bad();
  };
  if (takeByte() !== VERSION) bad();
  // Least lengths: RFC 8839, section 5.4.
  const hello = { ufrag: letters(4), password: letters(22), fingerprint: take(FINGERPRINT_BYTES) };
  const places: Place[] = [];
  while (at < bytes.length && places.length < MOST_PLACES) {
    const kind = takeByte();
    if (kind !== 4 && kind !== 6 && kind !== 16) bad();
    const [high = 0, low = 0] = take(2);
    places.push({ port: high * 256 + low, address: addressOf(kind, take(kind === 4 ? 4 : 16)) });
  }
  return { ...hello, places };
};

/** Host candidates, the first the most wanted (priority: RFC 8445, section 5.1.2.1). */
const candidateLine = ({ address, port }: Place, index: number): string =>
  `a=candidate:${index + 1} 1 udp ${126 * 2 ** 24 + (65535 - index) * 256 + 255} ${address} ${port} typ host`;

/** The session description that a code stands for. @throws {BadCode} */
export const descriptionOf = (
  code: string,
  type: 'offer' | 'answer',
): { readonly type: 'offer' | 'answer'; readonly sdp: string } => {
  const { ufrag, password, fingerprint, places } = readCode(code);
  const lines = [
    'v=0',
    'o=- 1 2 IN IP4 127.0.0.1',
    's=-',
    't=0 0',
    'a=group:BUNDLE 0',
    'm=application 9 UDP/DTLS/SCTP webrtc-datachannel',
    'c=IN IP4 0.0.0.0',
    ...places.map(candidateLine),
    `a=ice-ufrag:${ufrag}`,
    `a=ice-pwd:${password}`,
    `a=fingerprint:sha-256 ${Array.from(fingerprint, hex).join(':').toUpperCase()}`,
    `a=setup:${type === 'offer' ? 'actpass' : 'active'}`,
    'a=mid:0',
    'a=sctp-port:5000',
    'a=max-message-size:262144',
  ];
  return { type, sdp: `${lines.join('\r\n')}\r\n` };
};
