/** Types for what a worker imports that has none of its own. */

declare module '*.wasm?url' {
  const url: string;
  export default url;
}

/** The address of the module that the build compiles from AssemblyScript (tests/settings/kernels.mjs). */
declare module '*?wasm' {
  const url: string;
  export default url;
}

/** The part of lcms-wasm 1.0 that is used here; handles are addresses in its memory, 0 for none. */
declare module 'lcms-wasm' {
  export const TYPE_GRAY_16: number;
  export const TYPE_RGB_16: number;
  export const TYPE_CMYK_16: number;
  export const TYPE_Lab_16: number;
  export const INTENT_PERCEPTUAL: number;
  export const INTENT_RELATIVE_COLORIMETRIC: number;
  export const INTENT_SATURATION: number;
  export const INTENT_ABSOLUTE_COLORIMETRIC: number;
  export interface Lcms {
    cmsOpenProfileFromMem(bytes: Uint8Array, length: number): number;
    cmsCloseProfile(profile: number): void;
    cmsCreate_sRGBProfile(): number;
    cmsCreateLab4Profile(): number;
    cmsGetColorSpaceASCII(profile: number): string | null;
    cmsCreateTransform(
      source: number,
      sourceFormat: number,
      target: number,
      targetFormat: number,
      intent: number,
      flags: number,
    ): number;
    cmsDoTransform(transform: number, pixels: Uint16Array, count: number): Uint16Array;
    cmsDeleteTransform(transform: number): void;
  }
  export function instantiate(options?: {
    locateFile?: (file: string, directory: string) => string;
  }): Promise<Lcms>;
}
