/**
 * The page uses a font that every PDF reader has. It has only the letters of western Europe (Windows code page
 * 1252).
 */

export interface PlainText {
  readonly text: string;
  /** Letters that became "?", each once. */
  readonly lost: readonly string[];
}

const spelled: Readonly<Record<string, string>> = {
  '−': '-',
  '‐': '-',
  '‑': '-',
  '′': "'",
  '″': '"',
};

/** Joins letters and accents, and replaces every kind of space by a space. */
const tidy = (text: string) => text.normalize('NFC').replace(/[\s\p{Cc}\p{Zs}]+/gu, ' ');

/** Drops accents that the font lacks; other letters that it lacks become "?". */
export const plainLetters = (text: string, known: ReadonlySet<number>): PlainText => {
  const isKnown = (letters: string) =>
    Array.from(letters).every((letter) => known.has(letter.codePointAt(0) as number));
  const lost = new Set<string>();
  const plain = Array.from(tidy(text), (letter) => {
    const bare = letter.normalize('NFKD').replace(/\p{M}/gu, '');
    const found = [letter, spelled[letter] ?? '', bare].find(
      (letters) => letters !== '' && isKnown(letters),
    );
    // Marks and joiners mean nothing alone.
    if (found === undefined && /^[\p{M}\p{Cf}]$/u.test(letter)) return '';
    if (found === undefined) lost.add(letter);
    return found ?? '?';
  });
  return { text: plain.join('').trim(), lost: [...lost] };
};
