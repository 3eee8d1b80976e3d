/** The remedy in every refusal. */
export const SAVE_AS = 'Save the depths as grey PNG or TIFF, best with 16 bits, or as OpenEXR.';

/** The first of every `stride` numbers. */
export const firstOf = <T extends Uint8Array | Uint16Array | Float32Array>(
  data: T,
  stride: number,
): T => {
  if (stride === 1) return data;
  const out = data.slice(0, data.length / stride) as T;
  for (let i = 0; i < out.length; i += 1) out[i] = data[i * stride]!;
  return out;
};
