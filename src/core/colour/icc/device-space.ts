/** The colour spaces of printers that sheets are written in, and how many numbers a dot has in each. */
export const deviceChannels = { GRAY: 1, RGB: 3, CMYK: 4 } as const;
export type DeviceSpace = keyof typeof deviceChannels;

/** For the person. */
export const spaceWords: Readonly<Record<DeviceSpace, string>> = {
  GRAY: 'grey',
  RGB: 'RGB',
  CMYK: 'CMYK',
};

/** How colours that the paper cannot show are brought into what it can (ICC.1:2022, 0.8 and annex A). */
export const intents = ['relative', 'perceptual', 'saturation', 'absolute'] as const;
export type Intent = (typeof intents)[number];
