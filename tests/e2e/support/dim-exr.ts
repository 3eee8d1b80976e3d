/** A scan-line OpenEXR file, not compressed: linear 0.05 all over, 32-bit float. */
export const dimExr = (width: number, height: number): Buffer => {
  const int = (value: number) => {
    const bytes = Buffer.alloc(4);
    bytes.writeInt32LE(value);
    return bytes;
  };
  const float = (value: number) => {
    const bytes = Buffer.alloc(4);
    bytes.writeFloatLE(value);
    return bytes;
  };
  const attribute = (name: string, type: string, value: Buffer) =>
    Buffer.concat([Buffer.from(`${name}\0${type}\0`), int(value.length), value]);
  const channel = (name: string) =>
    Buffer.concat([Buffer.from(`${name}\0`), int(2), int(0), int(1), int(1)]);
  const window = Buffer.concat([int(0), int(0), int(width - 1), int(height - 1)]);
  const header = Buffer.concat([
    Buffer.from([0x76, 0x2f, 0x31, 0x01, 2, 0, 0, 0]),
    attribute(
      'channels',
      'chlist',
      Buffer.concat([...['B', 'G', 'R'].map(channel), Buffer.from([0])]),
    ),
    attribute('compression', 'compression', Buffer.from([0])),
    attribute('dataWindow', 'box2i', window),
    attribute('displayWindow', 'box2i', window),
    attribute('lineOrder', 'lineOrder', Buffer.from([0])),
    attribute('pixelAspectRatio', 'float', float(1)),
    attribute('screenWindowCenter', 'v2f', Buffer.concat([float(0), float(0)])),
    attribute('screenWindowWidth', 'float', float(1)),
    Buffer.from([0]),
  ]);
  const line = Buffer.concat(Array.from({ length: 3 * width }, () => float(0.05)));
  const offsets = Buffer.alloc(8 * height);
  const lines = Array.from({ length: height }, (_, y) => {
    const at = header.length + offsets.length + y * (8 + line.length);
    offsets.writeBigUInt64LE(BigInt(at), 8 * y);
    return Buffer.concat([int(y), int(line.length), line]);
  });
  return Buffer.concat([header, offsets, ...lines]);
};
