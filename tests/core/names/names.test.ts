/**
 * Names in many scripts. Directions: Unicode Standard Annex 9; the letters and their marks: the Unicode character
 * database, as the engine's own \p{…} and Intl.Segmenter have it.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { inFileName } from '../../../src/core/names/in-file-name.ts';
import { nameInText, shownName } from '../../../src/core/names/shown.ts';

const keptWhole = [
  ['Hindi, with signs for vowels', 'शीशे का घर और किंगफ़िशर'],
  ['Tamil', 'கண்ணாடி வீடு'],
  ['Bengali', 'মাছরাঙা ও কাঁচের ঘর'],
  ['Thai', 'นกกระเต็นที่ประภาคาร'],
  ['pointed Arabic', 'مَنَارَةُ البَحْرِ'],
  ['pointed Hebrew', 'מִגְדַּלּוֹר'],
  ['Persian, with a non-joiner', 'گل\u200cخانه'],
  ['Malayalam, with a joiner at the end', 'അവന\u0d4d\u200d'],
  ['Sinhala, with a joiner', 'ශ\u0dca\u200dරී ලංකා'],
  ['Japanese, voiced marks', 'ガラスの温室'],
  ['Vietnamese', 'Nhà kính và ngọn hải đăng'],
  ['emoji with joiners', 'Crew 👩🏽‍🚀👨‍👩‍👧‍👦🏴‍☠️'],
  ['flags and keycaps', '🇫🇮🏴\u{e0067}\u{e0062}\u{e0073}\u{e0063}\u{e0074}\u{e007f} 3️⃣'],
] as const;

describe('a name for a file', () => {
  test.each(keptWhole)('keeps %s', (_, name) => {
    expect(inFileName(name, 'Job')).toBe(name.normalize('NFC'));
  });

  test('is composed: what a disk takes apart comes back as one', () => {
    const name = 'Gewächshaus Ångström 가온 ガラス';
    expect(inFileName(name.normalize('NFD'), 'Job')).toBe(name.normalize('NFC'));
  });

  test('holds no mark of direction, and nothing that a system refuses', () => {
    expect(inFileName('sheet\u202egnp.exe', 'Job')).toBe('sheetgnp.exe');
    expect(inFileName('\u2066a\u2069 \u200fb\u061c\ufeff', 'Job')).toBe('a b');
    expect(inFileName('Fog / lamp: 8*10 <final>?\n"x"|\\', 'Job')).toBe('Fog lamp 8 10 final x');
    expect(inFileName(' .. hidden. ', 'Job')).toBe('hidden');
    expect(inFileName('\u200d\u200c ..\u202e', 'Job')).toBe('Job');
  });

  const letters = 'क्षि மொ بّ בּ 👩🏽‍🚀 🇫🇮 e\u0301 a'.split(' ');
  const rest = [' ', '/', '.', '\u202e', '\u200d', '\ud800'];

  test('of any text: within the limits, nothing refused in it, the same when made again', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...letters, ...rest), { maxLength: 120 }), (some) => {
        const made = inFileName(some.join(''), 'Job');
        expect(made.length).toBeLessThanOrEqual(80);
        expect(Buffer.byteLength(made)).toBeLessThanOrEqual(160);
        expect(made).not.toMatch(/[\p{Cc}\p{Cs}/\u202e]|^[. ]|[. ]$/u);
        expect(inFileName(made, 'Job')).toBe(made);
      }),
    );
  });

  test('a long one is cut between two letters, never inside one', () => {
    const segments = new Intl.Segmenter('und', { granularity: 'grapheme' });
    const parts = (text: string) => Array.from(segments.segment(text), ({ segment }) => segment);
    const long = fc.array(fc.constantFrom(...letters), { minLength: 81, maxLength: 120 });
    fc.assert(
      fc.property(long, (some) => {
        const made = parts(inFileName(some.join(''), 'Job'));
        expect(parts(some.join('').normalize('NFC')).slice(0, made.length)).toEqual(made);
        // The next letter would have been too much: of these the longest is an astronaut of 15 bytes.
        expect(Buffer.byteLength(made.join(''))).toBeGreaterThan(80 - 15);
      }),
    );
  });
});

describe('a name on the screen', () => {
  const marks = [0x61c, 0x200e, 0x200f, 0x202a, 0x202b, 0x202c, 0x202d, 0x202e].concat([
    0x2066, 0x2067, 0x2068, 0x2069,
  ]);
  test.each(marks)('shows the mark of direction %i as its code point', (code) => {
    const mark = String.fromCharCode(code);
    const seen = `[U+${code.toString(16).toUpperCase().padStart(4, '0')}]`;
    expect(shownName(`frame${mark}gnp.exe`)).toBe(`frame${seen}gnp.exe`);
    expect(nameInText(`frame${mark}gnp.exe`)).toBe(`frame${seen}gnp.exe`);
  });

  test.each(keptWhole)('is as it was given: %s', (_, name) => {
    expect(shownName(name)).toBe(name);
  });

  test('is kept apart in a sentence where it runs from right to left, and only there', () => {
    expect(nameInText('kingfisher_01.png')).toBe('kingfisher_01.png');
    expect(nameInText('Gewächshaus 温室 कांच')).toBe('Gewächshaus 温室 कांच');
    // UAX 9: first strong isolate U+2068 … pop directional isolate U+2069.
    expect(nameInText('منارة 1')).toBe('\u2068منارة 1\u2069');
    expect(nameInText('מגדלור.png')).toBe('\u2068מגדלור.png\u2069');
    // An end of isolation in the name itself cannot end ours.
    expect(nameInText('א\u2069 b')).toBe('\u2068א[U+2069] b\u2069');
  });
});
