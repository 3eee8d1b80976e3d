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

/** The part of Google's Draco decoder (as three 0.187 brings it) that is used here; a plugin of the build exports it. */
declare module 'three/addons/libs/draco/gltf/draco_wasm_wrapper.js' {
  export interface DracoAttribute {
    num_components(): number;
  }
  export interface DracoMesh {
    num_points(): number;
    num_faces(): number;
  }
  export interface DracoDecoder {
    DecodeArrayToMesh(
      bytes: Int8Array,
      length: number,
      mesh: DracoMesh,
    ): { ok(): boolean; error_msg(): string };
    GetAttributeByUniqueId(mesh: DracoMesh, id: number): DracoAttribute;
    GetAttributeDataArrayForAllPoints(
      mesh: DracoMesh,
      attribute: DracoAttribute,
      type: number,
      byteLength: number,
      at: number,
    ): boolean;
    GetTrianglesUInt32Array(mesh: DracoMesh, byteLength: number, at: number): boolean;
  }
  type DataType =
    'DT_INT8' | 'DT_UINT8' | 'DT_INT16' | 'DT_UINT16' | 'DT_INT32' | 'DT_UINT32' | 'DT_FLOAT32';
  export interface Draco extends Readonly<Record<DataType, number>> {
    readonly Decoder: new () => DracoDecoder;
    readonly Mesh: new () => DracoMesh;
    readonly HEAPF32: Float32Array<ArrayBuffer>;
    _malloc(bytes: number): number;
    _free(at: number): void;
    destroy(made: unknown): void;
  }
  export default function open(options: {
    readonly wasmBinary: ArrayBuffer;
    readonly onModuleLoaded: (draco: Draco) => void;
  }): unknown;
}
