/** Published profiles that sharp carries: those of libvips. */
import sharp from 'sharp';

const patch = () => sharp({ create: { width: 2, height: 2, channels: 3, background: '#2d7f88' } });

/** A press profile, CMYK, class prtr, with tables. */
export const cmykProfile = async (): Promise<Uint8Array<ArrayBuffer>> => {
  const file = await patch().toColourspace('cmyk').withIccProfile('cmyk').tiff().toBuffer();
  return Uint8Array.from((await sharp(file).metadata()).icc ?? []);
};

/** Display P3 or sRGB: RGB, class mntr, a matrix and curves. */
export const rgbProfile = async (name: 'p3' | 'srgb'): Promise<Uint8Array<ArrayBuffer>> => {
  const file = await patch().withIccProfile(name).png().toBuffer();
  return Uint8Array.from((await sharp(file).metadata()).icc ?? []);
};

/** A file to read. */
export const fileOf = (bytes: Uint8Array<ArrayBuffer>, name = 'Glossy 260.icc') => ({
  name,
  file: new Blob([bytes]),
});
