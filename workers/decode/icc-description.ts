import { ascii, hasText, u32be } from './bytes.ts';

/** Description of an ICC profile from its `desc` tag (ICC.1:2022 9.2.41; v2 text or v4 mluc). */
export const iccDescription = (profile: Uint8Array): string => {
  const count = Math.min(u32be(profile, 128), 100);
  for (let i = 0; i < count; i += 1) {
    const entry = 132 + i * 12;
    if (!hasText(profile, entry, 'desc')) continue;
    const at = u32be(profile, entry + 4);
    if (hasText(profile, at, 'desc')) {
      const text = ascii(profile, at + 12, Math.min(u32be(profile, at + 8), 200));
      return text.split('\0')[0] ?? '';
    }
    if (!hasText(profile, at, 'mluc')) return '';
    const bytes = Math.min(u32be(profile, at + 20), 200);
    const start = at + u32be(profile, at + 24);
    const text = new Uint8Array(profile.subarray(start, start + bytes));
    return new TextDecoder('utf-16be').decode(text).split('\0')[0] ?? '';
  }
  return '';
};
