/**
 * Puts the stage of the tilt proof alone on a page, for tests that look at its pixels. `tilt-shots.ts` bundles this
 * file and drives it through `window.proofBench`.
 */
import type { ProofScene, ProofView } from '../../../src/core/proof/scene.ts';
import { loadKernels } from '../../../workers/kernels.ts';
import { mixGlsl } from '../../../workers/proof/mix-glsl.ts';
import type { ProofStage } from '../../../workers/proof/stage.ts';
import { createProofStage } from '../../../workers/proof/stage.ts';

/** Pixels cross between test and page as Base64 of their bytes: lists of numbers are very slow. */
export interface PlainScene extends Omit<ProofScene, 'frames'> {
  readonly frames: readonly ({ columns: number; rows: number; base64: string } | null)[];
}

export interface Shot {
  readonly kind: string;
  readonly width: number;
  readonly height: number;
  readonly base64: string;
}

export type PainterKind = ProofStage['drawnBy'];

interface Stage {
  readonly canvas: OffscreenCanvas;
  readonly stage: ProofStage;
  readonly size: { readonly width: number; readonly height: number };
}

const stages = new Map<string, Stage>();

/** One stage for each painter and size: the processor's keeps its pictures in memory that all stages share. */
const stageFor = (use: PainterKind, width: number, height: number): Stage => {
  const key = `${use} ${width} ${height}`;
  const canvas = new OffscreenCanvas(width, height);
  const found = stages.get(key) ?? {
    canvas,
    stage: createProofStage(canvas, use),
    size: { width, height },
  };
  stages.set(key, found);
  return found;
};

const bytesOf = (base64: string) => Uint8Array.from(atob(base64), (one) => one.charCodeAt(0));

const settle = () => new Promise((done) => setTimeout(done, 300));

const readBack = ({ canvas, stage, size }: Stage, view: ProofView): Shot => {
  const { width, height } = size;
  const copy = document.createElement('canvas');
  copy.width = width;
  copy.height = height;
  const context = copy.getContext('2d');
  if (context === null) throw new Error('no 2D context to read back with');
  stage.paint(view, size);
  context.drawImage(canvas, 0, 0);
  const { data } = context.getImageData(0, 0, width, height);
  let text = '';
  for (let at = 0; at < data.length; at += 8192)
    text += String.fromCharCode(...data.subarray(at, at + 8192));
  return { kind: stage.drawnBy, width, height, base64: btoa(text) };
};

let last: { readonly stage: Stage; readonly view: ProofView } | undefined;

const bench = {
  /** Loads the scene and returns what each view shows. */
  async show(
    use: PainterKind,
    scene: PlainScene,
    views: readonly ProofView[],
    width: number,
    height: number,
  ): Promise<Shot[]> {
    await loadKernels();
    const stage = stageFor(use, width, height);
    stage.stage.load({
      ...scene,
      frames: scene.frames.map((frame) =>
        frame === null ? undefined : { ...frame, pixels: bytesOf(frame.base64) },
      ),
    });
    return views.map((view) => {
      last = { stage, view };
      return readBack(stage, view);
    });
  },

  /** Takes the last drawing context away and gives it back; what is shown afterwards, with no new scene. */
  async loseContext(): Promise<Shot> {
    if (last === undefined) throw new Error('nothing was shown yet');
    const lose = last.stage.canvas.getContext('webgl2')?.getExtension('WEBGL_lose_context');
    lose?.loseContext();
    await settle();
    lose?.restoreContext();
    await settle();
    return readBack(last.stage, last.view);
  },

  /** Shares that the shader's own functions give: for each case [u, N, spot, dot], by cell from the first. */
  glslShares(cases: readonly (readonly number[])[], cells: number): number[][] {
    const gl = document.createElement('canvas').getContext('webgl2');
    if (gl === null) throw new Error('no WebGL2');
    const source = `#version 300 es
      precision highp float;
      in vec4 given; in float cellIndex; out vec3 found;
      ${mixGlsl}
      void main() {
        int viewSlots = int(given.y);
        ivec2 cells = cellsSeen(given.x, viewSlots, given.zw);
        int cell = cells.x + int(cellIndex);
        ivec2 whose = ribAndSlot(cell, viewSlots);
        float share = cell > cells.y ? 0.0 : shareOfCell(cell, cells, given.x, viewSlots, given.zw);
        found = vec3(share, float(whose.x), float(whose.y));
        gl_Position = vec4(0.0);
      }`;
    const program = gl.createProgram();
    for (const [kind, text] of [
      [gl.VERTEX_SHADER, source],
      [gl.FRAGMENT_SHADER, '#version 300 es\nvoid main() {}'],
    ] as const) {
      const shader = gl.createShader(kind) as WebGLShader;
      gl.shaderSource(shader, text);
      gl.compileShader(shader);
      gl.attachShader(program, shader);
    }
    gl.transformFeedbackVaryings(program, ['found'], gl.INTERLEAVED_ATTRIBS);
    gl.linkProgram(program);
    if (!gl.getProgramParameter(program, gl.LINK_STATUS))
      throw new Error(gl.getProgramInfoLog(program) ?? 'does not link');
    gl.useProgram(program);
    const count = cases.length * cells;
    const vertices = cases.flatMap((one) =>
      Array.from({ length: cells }, (_, cell) => [...one, cell]).flat(),
    );
    gl.bindBuffer(gl.ARRAY_BUFFER, gl.createBuffer());
    gl.bufferData(gl.ARRAY_BUFFER, Float32Array.from(vertices), gl.STATIC_DRAW);
    for (const [name, size, offset] of [
      ['given', 4, 0],
      ['cellIndex', 1, 16],
    ] as const) {
      const place = gl.getAttribLocation(program, name);
      gl.enableVertexAttribArray(place);
      gl.vertexAttribPointer(place, size, gl.FLOAT, false, 20, offset);
    }
    const result = new Float32Array(count * 3);
    const buffer = gl.createBuffer();
    gl.bindBufferBase(gl.TRANSFORM_FEEDBACK_BUFFER, 0, buffer);
    gl.bufferData(gl.TRANSFORM_FEEDBACK_BUFFER, result.byteLength, gl.STREAM_READ);
    gl.enable(gl.RASTERIZER_DISCARD);
    gl.beginTransformFeedback(gl.POINTS);
    gl.drawArrays(gl.POINTS, 0, count);
    gl.endTransformFeedback();
    gl.getBufferSubData(gl.TRANSFORM_FEEDBACK_BUFFER, 0, result);
    return cases.map((_, index) =>
      Array.from(result.subarray(index * cells * 3, (index + 1) * cells * 3)),
    );
  },
};

declare global {
  interface Window {
    proofBench: typeof bench;
  }
}
window.proofBench = bench;
