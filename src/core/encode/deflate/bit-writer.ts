/** Packs bits into bytes, lowest bit first (RFC 1951, 3.1.1), in a room of the kernels' memory. */
export class BitWriter {
  readonly #bytes: Uint8Array;
  readonly #view: DataView;
  readonly #start: number;
  /** Whole bytes written. */
  at = 0;
  /** Bits that do not fill a byte yet, and their number: below 8. They stand in the room too. */
  #held = 0;
  #heldBits = 0;

  /** @param start the room's address; it does not grow. */
  constructor(buffer: ArrayBuffer, start: number) {
    this.#bytes = new Uint8Array(buffer, start);
    this.#view = new DataView(buffer, start);
    this.#start = start;
  }

  /** @param bits 0 … 24. */
  put(value: number, bits: number): void {
    const all = this.#held | (value << this.#heldBits);
    const count = this.#heldBits + bits;
    this.#view.setInt32(this.at, all, true);
    this.at += count >> 3;
    this.#held = all >>> (count & 24);
    this.#heldBits = count & 7;
  }

  /**
   * Lets a kernel write.
   * @param write is given the address where writing goes on and how many bits of that byte are written, and says how
   *   many bits it wrote.
   */
  handOver(write: (out: number, held: number) => number): void {
    const count = this.#heldBits + write(this.#start + this.at, this.#heldBits);
    this.at += count >>> 3;
    this.#heldBits = count & 7;
    this.#held = this.#bytes[this.at]! & ((1 << this.#heldBits) - 1);
  }

  toWholeByte(): void {
    if (this.#heldBits > 0) this.put(0, 8 - this.#heldBits);
  }

  /** Copies bytes, from the next byte boundary on. */
  putBytes(bytes: Uint8Array): void {
    this.toWholeByte();
    this.#bytes.set(bytes, this.at);
    this.at += bytes.length;
  }
}
