/** Names for files that the studio makes: in any script, and such as every system takes. */

/** What some system refuses in a name, and what breaks its line. */
const refused = /[\p{Cc}\u2028\u2029<>:"/\\|?*]+/gu;
/**
 * What is not seen and says nothing: marks of direction (Unicode Standard Annex 9), widths of nothing, halves of a pair.
 * Joiners stay: they shape words in Persian and in the scripts of India, and hold emoji together.
 */
const unseen =
  /[\p{Cs}\u00ad\u061c\u180e\u200b\u200e\u200f\u202a-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]+/gu;
/** A joiner that stands after nothing it could join. */
const strayJoiner = /(^|[^\p{L}\p{M}\p{Extended_Pictographic}\p{Emoji_Modifier}])[\u200c\u200d]+/gu;
/**
 * A letter and the marks on it, letters of India that a virama binds, or an emoji and what it is joined to: never cut in
 * two (about as Unicode Standard Annex 29 has it; Intl.Segmenter is not in every browser that the studio runs in).
 */
const whole =
  /(?:\p{Regional_Indicator}{2}|[^])(?:[\u094d\u09cd\u0acd\u0b4d\u0c4d\u0d4d]\u200d?\p{L}|\u200d\p{Extended_Pictographic}|[\p{M}\p{Emoji_Modifier}\u200c\u200d\u{e0020}-\u{e007f}])*/gu;

/** With what the studio sets around a name, within the 255 that file systems allow: bytes on some, UTF-16 units on others. */
const MOST_UNITS = 80;
const MOST_BYTES = 160;

/** Bytes in UTF-8. */
const bytesOf = (text: string): number => {
  let bytes = 0;
  for (const letter of text) {
    const code = letter.codePointAt(0)!;
    bytes += code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
  }
  return bytes;
};

const shortened = (text: string): string => {
  let kept = '';
  for (const [piece] of text.matchAll(whole)) {
    const longer = kept + piece;
    if (longer.length > MOST_UNITS || bytesOf(longer) > MOST_BYTES) break;
    kept = longer;
  }
  return kept;
};

/**
 * The name as a file's, without folder or ending: composed (NFC), marks on letters kept, no dot or space at either end.
 * @param otherwise for a name of which nothing is left.
 * @returns at most 80 UTF-16 units and 160 bytes of UTF-8.
 */
export const inFileName = (name: string, otherwise: string): string => {
  const plain = name
    .normalize('NFC')
    .replace(refused, ' ')
    .replace(unseen, '')
    .replace(strayJoiner, '$1')
    .replace(/\s+/g, ' ')
    .replace(/^[. ]+/, '');
  return shortened(plain).replace(/[. ]+$/, '') || otherwise;
};
