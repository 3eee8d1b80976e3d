/** Bits and Huffman codes of a JPEG's scans (ITU-T T.81, annexes C and F). */

/** Reads bits from entropy-coded data. It ends at the first marker; behind it come zeros, which are counted. */
export class ScanBits {
  readonly #file: Uint8Array;
  /** Where the next byte is taken from: at a marker once all before it was taken. */
  at: number;
  #buffer = 0;
  #count = 0;
  /** How many of the bits in the buffer, the last ones, lie behind the end. */
  #beyond = 0;

  constructor(file: Uint8Array, at: number) {
    this.#file = file;
    this.at = at;
  }

  /** True when more bits were taken than there are. */
  get starved(): boolean {
    return this.#beyond > this.#count;
  }

  /** True when less than the longest code is left: what makes no sense here was cut off. */
  get ending(): boolean {
    return this.#beyond > 0 && this.#count - this.#beyond < 16;
  }

  #fill(): void {
    while (this.#count <= 24) {
      const byte = this.#file[this.at] ?? 0xff;
      if (byte !== 0xff) this.at += 1;
      else if (this.#file[this.at + 1] === 0) this.at += 2;
      else {
        this.#buffer <<= 8;
        this.#count += 8;
        this.#beyond += 8;
        continue;
      }
      this.#buffer = (this.#buffer << 8) | byte;
      this.#count += 8;
    }
  }

  /**
   * Goes past the next code and the bits of the number that follows it.
   * @returns the symbol that the code stands for; -1 where there is no such code
   */
  take({ quick, full }: HuffmanTable): number {
    if (this.#count < 16) this.#fill();
    const entry =
      quick[(this.#buffer >>> (this.#count - QUICK_BITS)) & QUICK_MASK]! ||
      full[(this.#buffer >>> (this.#count - 16)) & 0xffff]!;
    if (entry === 0) return -1;
    this.drop(entry & 63);
    return entry >> 6;
  }

  /** Goes past 0 … 32 bits, whatever they are. */
  drop(bits: number): true {
    if (bits > this.#count) {
      bits -= this.#count;
      this.#count = 0;
      this.#fill();
    }
    this.#count -= bits;
    return true;
  }

  /** A number of `bits` bits, 0 … 16. */
  read(bits: number): number {
    if (this.#count < 16) this.#fill();
    this.#count -= bits;
    return (this.#buffer >>> this.#count) & ((1 << bits) - 1);
  }

  /** Goes on behind the next restart marker. @returns whether there is one before any other marker. */
  restart(): boolean {
    const marker = nextMarker(this.#file, this.at);
    const code = this.#file[marker + 1] ?? 0;
    if (code < 0xd0 || code > 0xd7) return false;
    this.at = marker + 2;
    this.#buffer = 0;
    this.#count = 0;
    this.#beyond = 0;
    return true;
  }
}

/** Where the next 0xFF stands that is neither data (0 behind it) nor filling; the file's length without one. */
export const nextMarker = (file: Uint8Array, from: number): number => {
  for (let at = file.indexOf(0xff, from); at >= 0; at = file.indexOf(0xff, at + 1)) {
    const next = file[at + 1];
    if (next !== 0 && next !== 0xff && next !== undefined) return at;
  }
  return file.length;
};

/**
 * By the next bits: the symbol × 64 + the bits of its code and of the number behind it, whose length are
 * the symbol's last four bits; 0 for no code.
 */
export interface HuffmanTable {
  /** By the next few, which is where nearly all codes end; 0 for longer ones too. */
  readonly quick: Uint16Array;
  /** By the next 16. */
  readonly full: Uint16Array;
}

const QUICK_BITS = 10;
const QUICK_MASK = (1 << QUICK_BITS) - 1;

/**
 * From the body of a DHT segment's table (T.81, B.2.4.2 and C.2).
 * @param counts how many codes there are of each length, 1 … 16
 * @returns undefined where the codes do not fit
 */
export const huffmanTable = (counts: Uint8Array, symbols: Uint8Array): HuffmanTable | undefined => {
  const quick = new Uint16Array(1 << QUICK_BITS);
  const full = new Uint16Array(1 << 16);
  let [at, next] = [0, 0];
  for (let length = 1; length <= 16; length += 1)
    for (let n = counts[length - 1] ?? 0; n > 0; n -= 1) {
      const end = at + (1 << (16 - length));
      if (end > full.length) return undefined;
      const symbol = symbols[next] ?? 0;
      const entry = (symbol << 6) | (length + (symbol & 15));
      full.fill(entry, at, end);
      if (length <= QUICK_BITS)
        quick.fill(entry, at >> (16 - QUICK_BITS), end >> (16 - QUICK_BITS));
      at = end;
      next += 1;
    }
  return { quick, full };
};
