import { describe, expect, it } from 'vitest';
import { code8OfLinear } from '../../../src/core/colour/srgb.ts';

/** IEC 61966-2-1, written out: linear light 0 … 1 to an encoded value. */
const encoded = (light: number) =>
  light <= 0.0031308 ? 12.92 * light : 1.055 * Math.pow(light, 1 / 2.4) - 0.055;

describe('the table of codes', () => {
  it('has the nearest code for each of the 65,536 lights', () => {
    const table = code8OfLinear();
    const wrong = Array.from(table).filter(
      (code, value) => code !== Math.round(encoded(value / 65535) * 255),
    );
    expect(table).toHaveLength(65536);
    expect(wrong).toEqual([]);
  });
});
