/**
 * The coded blocks of a JPEG's scans, stepped over without making pixels of them (ITU-T T.81, F.2.2 for
 * sequential, G.1.2 for progressive scans). Each function goes past one block and says whether its codes make sense.
 */
import type { HuffmanTable, ScanBits } from './jpeg-bits.ts';

export interface Band {
  /** First and last coefficient, 0 … 63, in zigzag order. */
  readonly first: number;
  readonly last: number;
}

/** Differences of the first coefficient have no more bits than this; only forged tables say so. */
const MOST_DC_BITS = 15;

export const passDc = (bits: ScanBits, dc: HuffmanTable): boolean => {
  const size = bits.take(dc);
  return size >= 0 && size <= MOST_DC_BITS;
};

/** A block of a sequential scan. */
export const passBlock = (bits: ScanBits, dc: HuffmanTable, ac: HuffmanTable): boolean => {
  if (!passDc(bits, dc)) return false;
  for (let k = 1; k < 64; k += 1) {
    const symbol = bits.take(ac);
    if (symbol < 0) return false;
    if ((symbol & 15) === 0 && symbol !== 0xf0) break;
    k += symbol >> 4;
  }
  return true;
};

/** The bits `first` … `last` of a word, as far as it has them. */
const maskOf = (first: number, last: number): number => {
  if (first > 31 || last < 0 || last < first) return 0;
  return (-1 << Math.max(0, first)) & (-1 >>> Math.max(0, 31 - last));
};

/** How many bits of a word are set. */
const onesOf = (word: number): number => {
  const pairs = word - ((word >>> 1) & 0x55555555);
  const fours = (pairs & 0x33333333) + ((pairs >>> 2) & 0x33333333);
  return Math.imul((fours + (fours >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
};

/** Which coefficients of a component are other than 0 so far: later scans send a bit for each of them. */
export class Known {
  readonly #bits: Uint32Array;

  constructor(blocks: number) {
    this.#bits = new Uint32Array(2 * blocks);
  }

  has(block: number, k: number): boolean {
    return ((this.#bits[2 * block + (k >> 5)]! >>> (k & 31)) & 1) === 1;
  }

  add(block: number, k: number): void {
    this.#bits[2 * block + (k >> 5)]! |= 1 << (k & 31);
  }

  /** How many of the coefficients `first` … `last`, 0 … 63. */
  countOf(block: number, first: number, last: number): number {
    const low = this.#bits[2 * block]! & maskOf(first, last);
    const high = this.#bits[2 * block + 1]! & maskOf(first - 32, last - 32);
    return onesOf(low) + onesOf(high);
  }
}

/**
 * A progressive scan of one component's coefficients other than the first, block by block. It begins anew
 * at each restart.
 */
export class AcScan {
  readonly #bits: ScanBits;
  readonly #table: HuffmanTable;
  readonly #band: Band;
  readonly #known: Known;
  /** How many blocks from here on have nothing new. */
  #emptyRun = 0;

  constructor(bits: ScanBits, table: HuffmanTable, band: Band, known: Known) {
    this.#bits = bits;
    this.#table = table;
    this.#band = band;
    this.#known = known;
  }

  /** T.81, G.1.2.2. */
  passFirst(block: number): boolean {
    if (this.#emptyRun > 0) {
      this.#emptyRun -= 1;
      return true;
    }
    for (let k = this.#band.first; k <= this.#band.last; k += 1) {
      const symbol = this.#bits.take(this.#table);
      if (symbol < 0) return false;
      const [run, size] = [symbol >> 4, symbol & 15];
      if (size === 0 && run < 15) {
        this.#emptyRun = (1 << run) - 1 + this.#bits.read(run);
        break;
      }
      k += run;
      if (size > 0 && k <= this.#band.last) this.#known.add(block, k);
    }
    return true;
  }

  /** T.81, G.1.2.3: new coefficients, and a bit for each that is known. */
  passRefining(block: number): boolean {
    let k = this.#band.first;
    if (this.#emptyRun === 0)
      for (; k <= this.#band.last; k += 1) {
        const symbol = this.#bits.take(this.#table);
        if (symbol < 0 || (symbol & 15) > 1) return false;
        const [run, size] = [symbol >> 4, symbol & 15];
        if (size === 0 && run < 15) {
          this.#emptyRun = (1 << run) + this.#bits.read(run);
          break;
        }
        k = this.#passKnown(block, k, run);
        if (size > 0 && k <= this.#band.last) this.#known.add(block, k);
      }
    if (this.#emptyRun === 0) return true;
    this.#emptyRun -= 1;
    for (let left = this.#known.countOf(block, k, this.#band.last); left > 0; left -= 16)
      this.#bits.drop(Math.min(16, left));
    return true;
  }

  /** @returns the place behind `zeros` coefficients that are still 0, having stepped over the bits of known ones. */
  #passKnown(block: number, from: number, zeros: number): number {
    let left = zeros;
    let k = from;
    for (; k <= this.#band.last; k += 1) {
      if (this.#known.has(block, k)) this.#bits.drop(1);
      else if (left === 0) break;
      else left -= 1;
    }
    return k;
  }
}
