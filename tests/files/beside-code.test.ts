/** The short form of a session description: what browsers write comes back as what browsers take. */
import { describe, expect, test } from 'vitest';
import { BadCode, codeOf, descriptionOf } from '../../src/files/beside/code.ts';

const FINGERPRINT =
  'F9:EF:D2:17:4A:58:8A:A7:F9:CA:8A:C7:25:0D:5B:E3:76:59:6E:08:EC:D9:99:1D:27:CB:26:2B:C1:D1:55:54';

/** As Chromium writes it, with addresses of every kind. Names and ports are made up. */
const sdp = (candidates: readonly string[]) =>
  [
    'v=0',
    'o=- 6253453333660533031 2 IN IP4 127.0.0.1',
    's=-',
    't=0 0',
    'a=group:BUNDLE 0',
    'm=application 9 UDP/DTLS/SCTP webrtc-datachannel',
    'c=IN IP4 0.0.0.0',
    ...candidates,
    'a=ice-ufrag:T/MF',
    'a=ice-pwd:H1LWPY2HVRX9LZUBlTrwA3ng',
    'a=ice-options:trickle',
    `a=fingerprint:sha-256 ${FINGERPRINT}`,
    'a=setup:actpass',
    'a=mid:0',
    'a=sctp-port:5000',
    '',
  ].join('\r\n');

const host = (address: string, port: number, how = 'udp') =>
  `a=candidate:51 1 ${how} 2113937151 ${address} ${port} typ host generation 0`;

const places = (text: string) =>
  [...text.matchAll(/^a=candidate:.* (\S+) (\d+) typ host/gm)].map(([, address, port]) => [
    address,
    Number(port),
  ]);

describe('a code', () => {
  const name = 'e842a7c9-9038-436f-9dd0-6a9a4a51e36b.local';
  const code = codeOf(
    sdp([
      host(name, 44226),
      host('192.168.7.20', 9),
      host('2001:db8::8a2e:370:7334', 65535),
      host('192.168.7.20', 9, 'tcp'),
    ]),
  );

  test('gives back names, numbers and certificate, as offer and as answer', () => {
    for (const type of ['offer', 'answer'] as const) {
      const back = descriptionOf(code, type);
      expect(back.type).toBe(type);
      expect(back.sdp).toContain('a=ice-ufrag:T/MF\r\n');
      expect(back.sdp).toContain('a=ice-pwd:H1LWPY2HVRX9LZUBlTrwA3ng\r\n');
      expect(back.sdp).toContain(`a=fingerprint:sha-256 ${FINGERPRINT}\r\n`);
      expect(back.sdp).toContain(type === 'offer' ? 'a=setup:actpass' : 'a=setup:active');
      expect(places(back.sdp)).toEqual([
        [name, 44226],
        ['192.168.7.20', 9],
        ['2001:0db8:0000:0000:0000:8a2e:0370:7334', 65535],
      ]);
    }
  });

  test('is short enough for a small QR code, and has no letter that an address changes', () => {
    expect(code.length).toBeLessThan(200);
    expect(encodeURIComponent(code)).toBe(code);
  });
});

describe('what is no code', () => {
  const good = codeOf(sdp([]));

  test.each([
    ['nothing', ''],
    ['other words', 'hello there'],
    ['one cut short', good.slice(0, -6)],
    ['of another version', `Ag${good.slice(2)}`],
    ['a place of an unknown kind', `${good}CCCC`],
    ['a very long one', 'A'.repeat(5000)],
  ])('is refused: %s', (_, text) => {
    expect(() => descriptionOf(text, 'answer')).toThrow(BadCode);
  });

  test('whatever letter is changed, nothing but its own fields reaches the description', () => {
    for (let at = 0; at < good.length; at += 1)
      for (const letter of ['A', 'z', '_', '-', '9']) {
        const text = `${good.slice(0, at)}${letter}${good.slice(at + 1)}`;
        try {
          const lines = descriptionOf(text, 'offer').sdp.trimEnd().split('\r\n');
          expect(lines.length).toBe(14);
          for (const line of lines) expect(line).toMatch(/^[a-z]=[\w:./ +-]+$/);
        } catch (error) {
          expect(error).toBeInstanceOf(BadCode);
        }
      }
  });
});
