/**
 * The two patterns of the strip, dot by dot across the ribs. Like the sheet, both have the middle of a rib at the
 * middle of their dots. Each dot is the average over its fractional position: nothing is rounded to dots.
 */
import { linearToSrgb } from '../colour/srgb.ts';
import { MM_PER_INCH } from '../units/units.ts';

/**
 * Width of the dark line under each rib, in ribs. At a quarter, a band can turn dark from edge to edge only while it
 * drifts by less than a quarter of a zone: the usual budget of relation 7.
 */
export const LINE_SHARE = 0.25;

/** Swing of the phase strip around half light: short of black and white, where ink is least linear. */
export const PHASE_SWING = 0.45;

/** Left edge of a dot in ribs; the middle of rib 0 is at the middle of the dots. */
const edgeInRibs = (dot: number, dots: number, pitchMm: number, dpi: number): number =>
  ((dot - dots / 2) * MM_PER_INCH) / (dpi * pitchMm);

/** Dark length from −∞ to x, up to a constant; x in ribs. */
const darkBefore = (x: number): number => {
  const rib = Math.round(x);
  return rib * LINE_SHARE + Math.min(LINE_SHARE / 2, Math.max(-LINE_SHARE / 2, x - rib));
};

/** Share of each dot that the dark lines cover, 0 … 1. */
export const lineShares = (pitchMm: number, dpi: number, dots: number): Float64Array => {
  const shares = new Float64Array(dots);
  for (let dot = 0; dot < dots; dot += 1) {
    const left = edgeInRibs(dot, dots, pitchMm, dpi);
    const right = edgeInRibs(dot + 1, dots, pitchMm, dpi);
    shares[dot] = Math.min(1, Math.max(0, (darkBefore(right) - darkBefore(left)) / (right - left)));
  }
  return shares;
};

const THIRD = (2 * Math.PI) / 3;

/**
 * Linear light of the phase strip, row-major RGB, length dots × 3, 0 … 1: ½ + swing × cos of φ − ⅓ turn, φ, φ + ⅓
 * turn for red, green, blue; φ makes one turn a rib and is 0 at its middle. Then φ = atan2(√3 (I1 − I3), 2 I2 − I1 −
 * I3) (relation 10).
 */
export const phaseLight = (pitchMm: number, dpi: number, dots: number): Float64Array => {
  const light = new Float64Array(dots * 3);
  for (let dot = 0; dot < dots; dot += 1) {
    const left = 2 * Math.PI * edgeInRibs(dot, dots, pitchMm, dpi);
    const right = 2 * Math.PI * edgeInRibs(dot + 1, dots, pitchMm, dpi);
    for (let c = 0; c < 3; c += 1) {
      const lead = (c - 1) * THIRD;
      const mean = (Math.sin(right + lead) - Math.sin(left + lead)) / (right - left);
      light[dot * 3 + c] = 0.5 + PHASE_SWING * mean;
    }
  }
  return light;
};

const code = (light: number): number => Math.round(linearToSrgb(light) * 255);

/** Row-major RGB, 8 bit, sRGB-encoded, length dots × 3. */
export const lineRow = (pitchMm: number, dpi: number, dots: number): Uint8Array => {
  const row = new Uint8Array(dots * 3);
  lineShares(pitchMm, dpi, dots).forEach((share, dot) => {
    row.fill(code(1 - share), dot * 3, dot * 3 + 3);
  });
  return row;
};

/** Row-major RGB, 8 bit, sRGB-encoded, length dots × 3. */
export const phaseRow = (pitchMm: number, dpi: number, dots: number): Uint8Array =>
  Uint8Array.from(phaseLight(pitchMm, dpi, dots), code);
