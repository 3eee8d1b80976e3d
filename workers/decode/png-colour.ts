/** The colour space of a PNG: cICP wins over iCCP, then sRGB, then gAMA and cHRM. */
import { srgbToLinear } from '../../src/core/colour/srgb.ts';
import { u32be } from './bytes.ts';
import type { SourceColour } from './icc.ts';
import { unsupported } from './image.ts';
import { iccpName } from './png-header.ts';
import type { PngHeader } from './png-header.ts';
import { P3_D65, REC2020, REC709, isRec709 } from './primaries.ts';
import type { Chromaticities } from './primaries.ts';

const SRGB: SourceColour = { type: 'srgb' };
const power = (exponent: number) => (encoded: number) => encoded ** exponent;

/** Code points of ITU-T H.273 table 2. */
const cicpPrimaries: Readonly<Record<number, readonly [string, Chromaticities]>> = {
  1: ['Rec. 709', REC709],
  9: ['Rec. 2020', REC2020],
  12: ['Display P3', P3_D65],
};

/** Inverse of the BT.709 camera curve, H.273 table 3, code points 1, 6, 14 and 15. */
const rec709ToLinear = (v: number): number =>
  v < 0.081 ? v / 4.5 : ((v + 0.099) / 1.099) ** (1 / 0.45);

/** Code points of ITU-T H.273 table 3. */
const cicpTransfers: Readonly<Record<number, (encoded: number) => number>> = {
  1: rec709ToLinear,
  4: power(2.2),
  6: rec709ToLinear,
  8: power(1),
  13: srgbToLinear,
  14: rec709ToLinear,
  15: rec709ToLinear,
};

const fromCicp = (chunk: Uint8Array, name: string): SourceColour => {
  const [primaries = 0, transfer = 0, matrix = 0, fullRange = 0] = chunk;
  if (transfer === 16 || transfer === 18) {
    throw unsupported(
      name,
      'holds HDR colours (PQ or HLG), brighter than any paper',
      'Save it as an ordinary sRGB picture, or as OpenEXR and set the exposure here.',
    );
  }
  const known = cicpPrimaries[primaries];
  const toLinear = cicpTransfers[transfer];
  if (!known || !toLinear || matrix !== 0 || fullRange !== 1) {
    throw unsupported(
      name,
      `uses a rare colour description (cICP ${primaries}-${transfer}-${matrix}-${fullRange})`,
      'Save it as an sRGB picture.',
    );
  }
  if (primaries === 1 && transfer === 13) return SRGB;
  return { type: 'primaries', label: known[0], chromaticities: known[1], toLinear };
};

const fromChrm = (chunk: Uint8Array): Chromaticities => {
  const pair = (i: number) => [u32be(chunk, i * 8) / 1e5, u32be(chunk, i * 8 + 4) / 1e5] as const;
  return { white: pair(0), red: pair(1), green: pair(2), blue: pair(3) };
};

/** Most writers of the power 0.45455 mean sRGB, which it nearly is. */
const SRGB_GAMMA = 45455;

/**
 * @param profile the inflated `iCCP` profile, where the caller has it
 * @throws StudioError `unsupported-variant` for HDR and rare code points
 */
export const pngColour = (
  { chunks }: PngHeader,
  profile: Uint8Array | undefined,
  name: string,
): SourceColour => {
  const cicp = chunks.get('cICP');
  if (cicp) return fromCicp(cicp, name);
  const iccp = chunks.get('iCCP');
  if (profile && iccp) return { type: 'icc', profile, label: iccpName(iccp) };
  if (chunks.has('sRGB')) return SRGB;
  const gama = chunks.get('gAMA');
  const chrm = chunks.get('cHRM');
  const chromaticities = chrm ? fromChrm(chrm) : REC709;
  const gamma = gama ? u32be(gama, 0) : SRGB_GAMMA;
  if (gamma === 0 || !(chromaticities.white[1] > 0)) return SRGB;
  if (isRec709(chromaticities)) {
    if (Math.abs(gamma - SRGB_GAMMA) < 500) return SRGB;
    return {
      type: 'primaries',
      label: `gamma ${gamma / 1e5}`,
      chromaticities: REC709,
      toLinear: power(1e5 / gamma),
    };
  }
  return {
    type: 'primaries',
    label: 'the primaries in the file',
    chromaticities,
    toLinear: gama ? power(1e5 / gamma) : srgbToLinear,
  };
};
