/** Packs bits into bytes, lowest bit first (RFC 1951, 3.1.1). */
export class BitWriter {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly view: DataView;
  /** Whole bytes written. */
  at = 0;
  /** Bits that do not fill a byte yet, and their number: below 8. */
  held = 0;
  heldBits = 0;

  /** @param room bytes it can hold; it does not grow. */
  constructor(room: number) {
    this.bytes = new Uint8Array(room);
    this.view = new DataView(this.bytes.buffer);
  }

  /** @param bits 0 … 24. */
  put(value: number, bits: number): void {
    const all = this.held | (value << this.heldBits);
    const count = this.heldBits + bits;
    this.view.setInt32(this.at, all, true);
    this.at += count >> 3;
    this.held = all >>> (count & 24);
    this.heldBits = count & 7;
  }

  toWholeByte(): void {
    if (this.heldBits > 0) this.put(0, 8 - this.heldBits);
  }

  /** Copies bytes, from the next byte boundary on. */
  putBytes(bytes: Uint8Array): void {
    this.toWholeByte();
    this.bytes.set(bytes, this.at);
    this.at += bytes.length;
  }

  /** Empties it for the next use. */
  reset(): void {
    this.at = 0;
    this.held = 0;
    this.heldBits = 0;
  }
}
