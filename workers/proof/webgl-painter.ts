/**
 * The tilt proof with WebGL2. Frames are layers of a texture array with sRGB texels, so filtering, mixing and
 * mipmaps use linear light; the shader encodes the result.
 */
import type { Painter } from './painter.ts';
import { fragmentShader, vertexShader } from './proof-shader.ts';
import { fitPicture } from '../../src/core/proof/fit-picture.ts';
import type { Drift, Picture, ProofScene, ProofView } from '../../src/core/proof/scene.ts';
import {
  DRIFT_STEPS,
  SURROUND,
  lenticulesPerPixel,
  printBox,
  slotsReady,
} from '../../src/core/proof/scene.ts';

/** Most texture memory for the frames, mipmaps included. */
const TEXTURE_BYTES = 256 * 2 ** 20;

interface Loaded {
  readonly scene: ProofScene;
  readonly size: { readonly columns: number; readonly rows: number; readonly layers: number };
  /** What lies in each layer. */
  readonly layers: (Picture | undefined)[];
  readonly slotFrames: readonly number[];
}

interface Machine {
  readonly program: WebGLProgram;
  readonly place: (name: string) => WebGLUniformLocation | null;
  frames: WebGLTexture;
  readonly slots: WebGLTexture;
}

/** What may befall its context: the browser takes it away when the graphics card is lost, and may give it back. */
export interface ContextTold {
  readonly onLost: () => void;
  /** It draws again, once a scene is loaded anew. */
  readonly onRestored: () => void;
}

/** Undefined where the browser has no WebGL2, or it does not take the shaders. */
export const createWebglPainter = (
  canvas: OffscreenCanvas,
  { onLost, onRestored }: ContextTold,
): Painter | undefined => {
  const gl = canvas.getContext('webgl2', {
    alpha: false,
    antialias: false,
    depth: false,
    stencil: false,
    powerPreference: 'low-power',
  });
  if (gl === null) return undefined;
  let machine = buildMachine(gl);
  if (machine === undefined) return undefined;
  let loaded: Loaded | undefined;

  canvas.addEventListener('webglcontextlost', (event) => {
    // Without this the browser never gives the context back.
    event.preventDefault();
    machine = undefined;
    loaded = undefined;
    onLost();
  });
  canvas.addEventListener('webglcontextrestored', () => {
    machine = buildMachine(gl);
    if (machine !== undefined) onRestored();
  });

  return {
    load(scene) {
      if (machine !== undefined) loaded = loadScene(gl, machine, scene, loaded);
    },
    paint(view, { width, height }) {
      if (machine === undefined || gl.isContextLost()) return undefined;
      // Setting the size clears the canvas, so only when it changes.
      if (canvas.width !== width) canvas.width = width;
      if (canvas.height !== height) canvas.height = height;
      const grey = SURROUND / 255;
      gl.viewport(0, 0, width, height);
      gl.clearColor(grey, grey, grey, 1);
      gl.clear(gl.COLOR_BUFFER_BIT);
      if (loaded !== undefined && loaded.slotFrames.length > 0)
        drawPrint(gl, machine, loaded, view);
      return undefined;
    },
  };
};

const buildMachine = (gl: WebGL2RenderingContext): Machine | undefined => {
  const program = gl.createProgram();
  for (const [kind, source] of [
    [gl.VERTEX_SHADER, vertexShader],
    [gl.FRAGMENT_SHADER, fragmentShader],
  ] as const) {
    const shader = gl.createShader(kind);
    if (shader === null) return undefined;
    gl.shaderSource(shader, source);
    gl.compileShader(shader);
    gl.attachShader(program, shader);
    gl.deleteShader(shader);
  }
  gl.linkProgram(program);
  if (!gl.getProgramParameter(program, gl.LINK_STATUS)) {
    if (!gl.isContextLost())
      console.warn(`Tilt proof: WebGL2 is not used. ${gl.getProgramInfoLog(program) ?? ''}`);
    return undefined;
  }
  return {
    program,
    place: (name) => gl.getUniformLocation(program, name),
    frames: gl.createTexture(),
    slots: gl.createTexture(),
  };
};

/** The size of all layers: that of the largest picture, or less if memory or the graphics limit it. */
const textureSize = (gl: WebGL2RenderingContext, scene: ProofScene) => {
  let columns = 1;
  let rows = 1;
  for (const picture of scene.frames) {
    columns = Math.max(columns, picture?.columns ?? 1);
    rows = Math.max(rows, picture?.rows ?? 1);
  }
  const layers = scene.frames.length;
  const bytes = (columns * rows * layers * 4 * 4) / 3;
  const most = gl.getParameter(gl.MAX_TEXTURE_SIZE) as number;
  const shrink = Math.min(1, Math.sqrt(TEXTURE_BYTES / bytes), most / columns, most / rows);
  const whole = (length: number) => Math.max(1, Math.floor(length * shrink));
  return { columns: whole(columns), rows: whole(rows), layers };
};

const loadScene = (
  gl: WebGL2RenderingContext,
  machine: Machine,
  scene: ProofScene,
  before: Loaded | undefined,
): Loaded => {
  const size = textureSize(gl, scene);
  const fits =
    before !== undefined &&
    before.size.columns === size.columns &&
    before.size.rows === size.rows &&
    before.size.layers === size.layers;
  if (!fits) allocate(gl, machine, size);
  const layers = fits ? before.layers : [];
  gl.activeTexture(gl.TEXTURE0);
  gl.bindTexture(gl.TEXTURE_2D_ARRAY, machine.frames);
  const { columns, rows } = size;
  const kind = [gl.RGBA, gl.UNSIGNED_BYTE] as const;
  let changed = false;
  for (const [layer, picture] of scene.frames.entries()) {
    if (picture === undefined || layers[layer] === picture) continue;
    const { pixels } = fitPicture(picture, columns, rows);
    gl.texSubImage3D(gl.TEXTURE_2D_ARRAY, 0, 0, 0, layer, columns, rows, 1, ...kind, pixels);
    layers[layer] = picture;
    changed = true;
  }
  if (changed) gl.generateMipmap(gl.TEXTURE_2D_ARRAY);
  const slotFrames = slotsReady(scene);
  if (slotFrames.length > 0) loadSlots(gl, machine, slotFrames);
  return { scene, size, layers, slotFrames };
};

const allocate = (gl: WebGL2RenderingContext, machine: Machine, size: Loaded['size']) => {
  gl.deleteTexture(machine.frames);
  machine.frames = gl.createTexture();
  gl.activeTexture(gl.TEXTURE0);
  gl.bindTexture(gl.TEXTURE_2D_ARRAY, machine.frames);
  const levels = 1 + Math.floor(Math.log2(Math.max(size.columns, size.rows)));
  const { columns, rows, layers } = size;
  gl.texStorage3D(gl.TEXTURE_2D_ARRAY, levels, gl.SRGB8_ALPHA8, columns, rows, layers);
  gl.texParameteri(gl.TEXTURE_2D_ARRAY, gl.TEXTURE_MIN_FILTER, gl.LINEAR_MIPMAP_LINEAR);
  gl.texParameteri(gl.TEXTURE_2D_ARRAY, gl.TEXTURE_MAG_FILTER, gl.LINEAR);
  gl.texParameteri(gl.TEXTURE_2D_ARRAY, gl.TEXTURE_WRAP_S, gl.CLAMP_TO_EDGE);
  gl.texParameteri(gl.TEXTURE_2D_ARRAY, gl.TEXTURE_WRAP_T, gl.CLAMP_TO_EDGE);
  // A print is often shrunk much more along the ribs than across them; without this both ways would blur.
  const anisotropy = gl.getExtension('EXT_texture_filter_anisotropic');
  if (anisotropy !== null)
    gl.texParameterf(gl.TEXTURE_2D_ARRAY, anisotropy.TEXTURE_MAX_ANISOTROPY_EXT, 8);
};

const loadSlots = (gl: WebGL2RenderingContext, machine: Machine, slots: readonly number[]) => {
  gl.activeTexture(gl.TEXTURE1);
  gl.bindTexture(gl.TEXTURE_2D, machine.slots);
  gl.pixelStorei(gl.UNPACK_ALIGNMENT, 2);
  const kind = [gl.RED_INTEGER, gl.UNSIGNED_SHORT] as const;
  const data = Uint16Array.from(slots);
  gl.texImage2D(gl.TEXTURE_2D, 0, gl.R16UI, slots.length, 1, 0, ...kind, data);
  gl.pixelStorei(gl.UNPACK_ALIGNMENT, 4);
  gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MIN_FILTER, gl.NEAREST);
  gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MAG_FILTER, gl.NEAREST);
};

const driftPairs = (drift: Drift | undefined): number[] =>
  Array.from({ length: DRIFT_STEPS + 1 }, (_, step) => [
    drift?.across[step] ?? 0,
    drift?.ends[step] ?? 0,
  ]).flat();

const drawPrint = (
  gl: WebGL2RenderingContext,
  { program, place, frames, slots }: Machine,
  { scene, slotFrames }: Loaded,
  view: ProofView,
) => {
  const { drawingBufferWidth: width, drawingBufferHeight: height } = gl;
  const box = printBox(scene, width, height);
  gl.viewport(box.left, height - box.top - box.height, box.width, box.height);
  gl.useProgram(program);
  gl.activeTexture(gl.TEXTURE0);
  gl.bindTexture(gl.TEXTURE_2D_ARRAY, frames);
  gl.activeTexture(gl.TEXTURE1);
  gl.bindTexture(gl.TEXTURE_2D, slots);
  gl.uniform1i(place('frames'), 0);
  gl.uniform1i(place('slotFrames'), 1);
  gl.uniform1i(place('viewSlots'), slotFrames.length);
  gl.uniform1i(place('lying'), scene.ribs === 'lying' ? 1 : 0);
  gl.uniform1f(place('lenticules'), scene.lenticules);
  gl.uniform2f(place('across'), scene.acrossStart, scene.acrossSpan);
  gl.uniform1f(place('perPixel'), lenticulesPerPixel(scene, box));
  gl.uniform1f(place('alongPerPixel'), 1 / (scene.ribs === 'lying' ? box.width : box.height));
  gl.uniform2f(place('places'), view.place, view.rightPlace ?? view.place);
  gl.uniform1i(place('bothEyes'), view.rightPlace === undefined ? 0 : 1);
  gl.uniform3f(place('slide'), view.slide.offset, view.slide.across, view.slide.along);
  gl.uniform2fv(place('drift'), [view.drift, view.rightDrift].flatMap(driftPairs));
  gl.uniform2f(place('blur'), view.blur.spot, view.blur.dot);
  gl.drawArrays(gl.TRIANGLES, 0, 3);
};
