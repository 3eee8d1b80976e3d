/** Fills tables of a profile with what the colour engine makes of every node. */
import {
  INTENT_ABSOLUTE_COLORIMETRIC,
  INTENT_PERCEPTUAL,
  INTENT_RELATIVE_COLORIMETRIC,
  INTENT_SATURATION,
  TYPE_CMYK_16,
  TYPE_GRAY_16,
  TYPE_Lab_16,
  TYPE_RGB_16,
} from 'lcms-wasm';
import type { Intent } from '../../src/core/colour/icc/device-space.ts';
import { deviceChannels } from '../../src/core/colour/icc/device-space.ts';
import {
  SCREEN_EDGE,
  SHEET_EDGE,
  nodeCodes,
  paddedNodes,
} from '../../src/core/colour/icc/device-table.ts';
import type { ProfileFacts } from '../../src/core/colour/icc/profile.ts';
import { ProfileFault } from '../../src/core/colour/icc/tag-table.ts';
import {
  BLACK_POINT_COMPENSATION,
  NO_OPTIMIZE,
  openEngine,
  orForget,
} from '../decode/colour-engine.ts';
import { liftedAll, lightnessAt, missed } from './missed.ts';

type Engine = Awaited<ReturnType<typeof openEngine>>;

/** A profile that passed the studio's own check. */
export interface CheckedProfile {
  readonly bytes: Uint8Array;
  readonly facts: ProfileFacts;
}

const formats = { GRAY: TYPE_GRAY_16, RGB: TYPE_RGB_16, CMYK: TYPE_CMYK_16 } as const;

/** Black is scaled to black in relative colorimetric alone: the other intents say themselves what becomes of it. */
const ways: Readonly<Record<Intent, readonly [intent: number, flags: number]>> = {
  relative: [INTENT_RELATIVE_COLORIMETRIC, BLACK_POINT_COMPENSATION],
  perceptual: [INTENT_PERCEPTUAL, 0],
  saturation: [INTENT_SATURATION, 0],
  absolute: [INTENT_ABSOLUTE_COLORIMETRIC, 0],
};

interface End {
  readonly profile: number;
  readonly format: number;
}

const run = (
  lcms: Engine,
  from: End,
  to: End,
  [intent, flags]: readonly [number, number],
  numbers: Uint16Array,
  dots: number,
): Uint16Array => {
  const transform = lcms.cmsCreateTransform(
    from.profile,
    from.format,
    to.profile,
    to.format,
    intent,
    flags | NO_OPTIMIZE,
  );
  if (!transform)
    throw new ProfileFault('The colour engine cannot convert through it: its tables contradict.');
  try {
    return lcms.cmsDoTransform(transform, numbers, dots);
  } finally {
    lcms.cmsDeleteTransform(transform);
  }
};

/** Opens the profile, sRGB and Lab, and closes them whatever happens. */
const withEnds = async <T>(
  { bytes, facts }: CheckedProfile,
  work: (lcms: Engine, ends: Record<'device' | 'srgb' | 'lab', End>) => T,
): Promise<T> => {
  const lcms = await openEngine();
  return orForget(() => {
    const device = lcms.cmsOpenProfileFromMem(bytes, bytes.length);
    if (!device) throw new ProfileFault('The colour engine cannot open it.');
    const srgb = lcms.cmsCreate_sRGBProfile();
    const lab = lcms.cmsCreateLab4Profile();
    try {
      return work(lcms, {
        device: { profile: device, format: formats[facts.space] },
        srgb: { profile: srgb, format: TYPE_RGB_16 },
        lab: { profile: lab, format: TYPE_Lab_16 },
      });
    } finally {
      for (const one of [device, srgb, lab]) lcms.cmsCloseProfile(one);
    }
  });
};

/** 16-bit codes of 8-bit ones. */
const widened = (codes: Uint8Array): Uint16Array => Uint16Array.from(codes, (code) => code * 257);

/** The printer's numbers of sRGB codes, 16 bit. @throws ProfileFault */
export const toDevice = (
  checked: CheckedProfile,
  intent: Intent,
  codes: Uint8Array,
): Promise<Uint16Array> =>
  withEnds(checked, (lcms, { srgb, device }) =>
    run(lcms, srgb, device, ways[intent], widened(codes), codes.length / 3),
  );

/** @returns nodes for `DeviceTable`. @throws ProfileFault */
export const printNodes = async (
  checked: CheckedProfile,
  intent: Intent,
  edge = SHEET_EDGE,
): Promise<Uint16Array<ArrayBuffer>> =>
  paddedNodes(
    await toDevice(checked, intent, nodeCodes(edge)),
    deviceChannels[checked.facts.space],
  );

/**
 * Red, green and blue of the print as a screen shows it, and how far the paper misses the colour.
 * @throws ProfileFault where the profile does not say how its numbers look
 */
export const lookNodes = (
  checked: CheckedProfile,
  intent: Intent,
  paperWhite: boolean,
): Promise<Uint16Array<ArrayBuffer>> =>
  withEnds(checked, (lcms, { srgb, device, lab }) => {
    const codes = widened(nodeCodes(SCREEN_EDGE));
    const dots = codes.length / 3;
    const plain = [INTENT_RELATIVE_COLORIMETRIC, 0] as const;
    const printed = run(lcms, srgb, device, ways[intent], codes, dots);
    const seen = run(lcms, device, srgb, paperWhite ? ways.absolute : plain, printed, dots);
    // Whether the paper can show a colour does not depend on the intent that is chosen.
    const trip = (colours: Uint16Array) =>
      run(lcms, device, lab, plain, run(lcms, lab, device, plain, colours, dots), dots);
    const screen = run(lcms, srgb, lab, plain, codes, dots);
    const black = run(lcms, lab, device, plain, screen.subarray(0, 3), 1);
    const wanted = liftedAll(screen, lightnessAt(run(lcms, device, lab, plain, black, 1), 0));
    const reached = trip(wanted);
    const far = missed(wanted, reached, trip(reached));
    const nodes = paddedNodes(seen, 3);
    for (let dot = 0; dot < dots; dot += 1) nodes[dot * 4 + 3] = far[dot]!;
    return nodes;
  });
