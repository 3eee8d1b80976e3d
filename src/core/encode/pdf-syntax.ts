/** PDF syntax. Section numbers are those of ISO 32000-1:2008, chapter 7. */
import { plainText, uint16be, utf8 } from './bytes.ts';

export const pdfBytes = (text: string): Uint8Array<ArrayBuffer> => Uint8Array.from(utf8(text));

/** 7.3.3: a real number as a decimal, rounded to a millionth. */
export const pdfNumber = (value: number): string => String(Number(value.toFixed(6)));

export const pdfNumbers = (values: readonly number[]): string => values.map(pdfNumber).join(' ');

/** Two hexadecimal digits for each byte. */
export const hexDigits = (bytes: ArrayLike<number>): string =>
  Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');

/**
 * 7.9.2.2 Text string: ASCII as it is; anything else as UTF-16, high byte and byte order mark first, in hexadecimal,
 * so that no byte can be read as syntax.
 */
export const pdfText = (value: string): string => {
  const text = plainText(value);
  if (/^[\n\x20-\x7e]*$/.test(text))
    return `(${text.replace(/[\\()]/g, '\\$&').replace(/\n/g, '\\n')})`;
  const units = Array.from({ length: text.length }, (_, i) => uint16be(text.charCodeAt(i)));
  return `<${hexDigits([0xfe, 0xff, ...units.flat()])}>`;
};

/** 7.9.4 Date, in universal time. */
export const pdfDate = (date: Date): string =>
  `(D:${date.toISOString().replace(/[-T:]/g, '').slice(0, 14)}+00'00')`;

/** 7.3.7 Dictionary of values already in PDF syntax; undefined ones are left out. */
export const pdfDictionary = (entries: Readonly<Record<string, string | undefined>>): string =>
  `<< ${Object.entries(entries)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => `/${key} ${value ?? ''}`)
    .join(' ')} >>`;

/** 7.3.10: an indirect reference to an object. */
export const reference = (object: number): string => `${object} 0 R`;

/** Largest file offset that the ten digits of a table entry can hold (7.5.4). */
const LARGEST_TABLED = 9_999_999_999;

export interface Trailer {
  readonly root: number;
  readonly info: number;
  /** 14.4: the file identifier, 16 bytes. */
  readonly id: readonly number[];
}

/**
 * 7.5.4, 7.5.5: the cross-reference table and the end of the file. Offsets of more than ten digits go into a
 * cross-reference stream instead (7.5.8).
 * @param places offset of each object 1 … n from the start of the file, bytes.
 * @param here offset of this table.
 */
export const crossReferences = (
  places: readonly number[],
  here: number,
  { root, info, id }: Trailer,
  largestTabled = LARGEST_TABLED,
): Uint8Array<ArrayBuffer> => {
  const trailer = {
    Root: reference(root),
    Info: reference(info),
    ID: `[<${hexDigits(id)}> <${hexDigits(id)}>]`,
  };
  const end = `startxref\n${here}\n%%EOF\n`;
  if (Math.max(here, ...places) > largestTabled) {
    const entries = [entry(0, 0, 65535), ...[...places, here].map((place) => entry(1, place, 0))];
    const dictionary = pdfDictionary({
      Type: '/XRef',
      Size: String(entries.length),
      W: '[1 6 2]',
      ...trailer,
      Length: String(entries.length * 9),
    });
    return Uint8Array.from([
      ...pdfBytes(`${places.length + 1} 0 obj\n${dictionary}\nstream\n`),
      ...entries.flat(),
      ...pdfBytes(`\nendstream\nendobj\n${end}`),
    ]);
  }
  const rows = places.map((place) => `${String(place).padStart(10, '0')} 00000 n \n`).join('');
  const size = places.length + 1;
  return pdfBytes(
    `xref\n0 ${size}\n0000000000 65535 f \n${rows}` +
      `trailer\n${pdfDictionary({ Size: String(size), ...trailer })}\n${end}`,
  );
};

/** 7.5.8.3: type in 1 byte, offset in 6, generation in 2. */
const entry = (type: number, place: number, generation: number): number[] => [
  type,
  ...uint16be(Math.floor(place / 2 ** 32)),
  ...uint16be(Math.floor(place / 2 ** 16) & 0xffff),
  ...uint16be(place & 0xffff),
  ...uint16be(generation),
];
