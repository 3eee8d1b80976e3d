/**
 * The page is set in the plain type that every PDF reader has, which knows the letters of western
 * Europe (Windows code page 1252) and no others.
 */

export interface PlainText {
  readonly text: string;
  /** Letters that had to become "?", each once. */
  readonly lost: readonly string[];
}

const spelled: Readonly<Record<string, string>> = {
  '−': '-',
  '‐': '-',
  '‑': '-',
  '′': "'",
  '″': '"',
};

/** One code point for each letter with its accents; every kind of space is a space. */
const tidy = (text: string) => text.normalize('NFC').replace(/[\s\p{Cc}\p{Zs}]+/gu, ' ');

/** Accents that the type lacks fall away; a letter that it lacks altogether becomes "?". */
export const plainLetters = (text: string, known: ReadonlySet<number>): PlainText => {
  const isKnown = (letters: string) =>
    Array.from(letters).every((letter) => known.has(letter.codePointAt(0) as number));
  const lost = new Set<string>();
  const plain = Array.from(tidy(text), (letter) => {
    const bare = letter.normalize('NFKD').replace(/\p{M}/gu, '');
    const found = [letter, spelled[letter] ?? '', bare].find(
      (letters) => letters !== '' && isKnown(letters),
    );
    // Marks and joiners that stand for nothing alone.
    if (found === undefined && /^[\p{M}\p{Cf}]$/u.test(letter)) return '';
    if (found === undefined) lost.add(letter);
    return found ?? '?';
  });
  return { text: plain.join('').trim(), lost: [...lost] };
};
