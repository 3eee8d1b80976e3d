import { unsupported } from './image.ts';
import type { DecodedImage } from './image.ts';

export const decodeTiff = async (_file: Uint8Array, name: string): Promise<DecodedImage> => {
  throw unsupported(name, 'is TIFF, which is being added', 'Save it as PNG for now.');
};
