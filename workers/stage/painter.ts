/** Draws a stage through a window: samples, averaged in linear light. */
import type { Material } from 'three';
import {
  GLSL3,
  Mesh,
  OrthographicCamera,
  PCFShadowMap,
  PMREMGenerator,
  PerspectiveCamera,
  PlaneGeometry,
  RawShaderMaterial,
  Scene,
  Vector2,
  Vector3,
  WebGLRenderer,
} from 'three';
import { RoomEnvironment } from 'three/addons/environments/RoomEnvironment.js';
import { StudioError } from '../../src/contract/errors.ts';
import type { DepthTint, SceneLook } from '../../src/contract/stage.ts';
import type { StageCamera } from '../../src/core/stage/pose.ts';
import { linearOfCode8 } from './ground.ts';
import type { Checkpoint } from '../answer.ts';
import type { FramePx, PixelRect } from '../../src/core/stage/window.ts';
import { partOfWindow, projectionOf, sampleShifts } from '../../src/core/stage/window.ts';
import { depthFragment, meanFragment, shownFragment, wholeVertex } from './glsl.ts';
import type { StageSet } from './set.ts';
import type { Targets } from './targets.ts';
import { makeTargets } from './targets.ts';

export interface Shot {
  readonly look: SceneLook;
  readonly camera: StageCamera;
  readonly samples: number;
  readonly frame: FramePx;
  /** The pixels of the frame that are drawn. */
  readonly rect: PixelRect;
  /** Where the near plane stands; left out: before everything there is. Depth is the finer, the farther it stands. */
  readonly near?: number;
}

const noCard =
  'This browser gives the studio no 3D drawing (WebGL 2), so scenes cannot be shown or rendered here. Everything else on this bench works without. Switch hardware acceleration on in the browser’s settings, or use another browser.';

const whole = (fragmentShader: string, uniforms: Record<string, { value: unknown }>) =>
  new RawShaderMaterial({
    glslVersion: GLSL3,
    vertexShader: `in vec3 position;\n${wholeVertex}`,
    fragmentShader: `precision highp float;\nprecision highp sampler2D;\n${fragmentShader}`,
    uniforms,
    depthTest: false,
    depthWrite: false,
  });

/** Where light comes from that is only mirrored: shine needs something to show. */
const MIRRORED = 0.35;

const openRenderer = (canvas: OffscreenCanvas): WebGLRenderer => {
  const context = canvas.getContext('webgl2', { antialias: false, alpha: true, depth: true });
  if (context === null) throw new StudioError('internal', noCard);
  const renderer = new WebGLRenderer({ canvas, context, antialias: false });
  renderer.shadowMap.enabled = true;
  renderer.shadowMap.type = PCFShadowMap;
  renderer.setClearColor(0x000000, 0);
  renderer.autoClear = true;
  return renderer;
};

export class StagePainter {
  readonly canvas = new OffscreenCanvas(16, 16);
  readonly renderer = openRenderer(this.canvas);
  readonly camera = new PerspectiveCamera();
  readonly #eye = new OrthographicCamera();
  readonly #quad = new Mesh(new PlaneGeometry(2, 2));
  readonly #wall = new Scene().add(this.#quad);
  readonly #mean = whole(meanFragment, {
    before: { value: null },
    fresh: { value: null },
    count: { value: 1 },
  });
  readonly #reach = new Vector2(1, 2);
  readonly #depth = whole(depthFragment, {
    depth: { value: null },
    reach: { value: this.#reach },
  });
  readonly #shown = whole(shownFragment, {
    mean: { value: null },
    depth: { value: null },
    reach: { value: this.#reach },
    ground: { value: new Vector3() },
    light: { value: 1 },
    ribsFar: { value: -1 },
    keyDistance: { value: 1 },
  });
  readonly #room = new PMREMGenerator(this.renderer).fromScene(new RoomEnvironment(), 0.04).texture;
  #targets: Targets | undefined;

  get lost(): boolean {
    return this.renderer.getContext().isContextLost();
  }

  targets({ widthPx, heightPx }: FramePx): Targets {
    if (this.#targets?.widthPx === widthPx && this.#targets.heightPx === heightPx)
      return this.#targets;
    this.#targets?.dispose();
    return (this.#targets = makeTargets(widthPx, heightPx));
  }

  /** @param target null: the canvas */
  pass(material: Material, target: Targets['fresh'] | null): void {
    this.#quad.material = material;
    this.renderer.setRenderTarget(target);
    this.renderer.render(this.#wall, this.#eye);
  }

  #aim(
    { camera, frame, rect, near: wanted }: Shot,
    shift: readonly [number, number],
    set: StageSet,
  ): void {
    const { place, turn, window } = camera;
    this.camera.position.set(...place);
    this.camera.quaternion.set(...turn);
    this.camera.updateMatrixWorld(true);
    const ahead = set.sphere.center.clone().applyMatrix4(this.camera.matrixWorldInverse);
    const { radius } = set.sphere;
    const far = Math.max(-ahead.z + 1.01 * radius, 1e-3 * radius);
    const near = wanted ?? Math.max(-ahead.z - 1.01 * radius, 5e-5 * far);
    this.#reach.set(near, far);
    const part = partOfWindow(window, frame, rect, shift);
    const { left, right, bottom, top } = part;
    const onNear = {
      left: left * near,
      right: right * near,
      bottom: bottom * near,
      top: top * near,
    };
    this.camera.projectionMatrix.fromArray(projectionOf(onNear, near, far));
    this.camera.projectionMatrixInverse.copy(this.camera.projectionMatrix).invert();
  }

  /** @returns the targets, with the mean of the samples in the first of `means` and the last sample’s depth */
  async draw(
    set: StageSet,
    shot: Shot,
    checkpoint: Checkpoint,
    onSample: (done: number) => void = () => undefined,
  ): Promise<Targets> {
    const targets = this.targets(shot.rect);
    const { scene, lights, sphere } = set;
    set.moveTo(shot.look.moment);
    scene.environment = this.#room;
    scene.environmentIntensity = MIRRORED;
    const pixel = new Float32Array(4);
    for (const [index, shift] of sampleShifts(shot.samples).entries()) {
      lights.set(index, shot.samples, sphere);
      this.#aim(shot, shift, set);
      this.renderer.setRenderTarget(targets.fresh);
      this.renderer.render(scene, this.camera);
      const [before, next] = targets.means;
      Object.assign(this.#mean.uniforms, {
        before: { value: before.texture },
        fresh: { value: targets.fresh.texture },
        count: { value: index + 1 },
      });
      this.pass(this.#mean, next);
      targets.means.reverse();
      // Waits for the card: else all samples would be queued at once, and a stop would come too late.
      this.renderer.readRenderTargetPixels(next, 0, 0, 1, 1, pixel);
      onSample(index + 1);
      await checkpoint();
    }
    return targets;
  }

  /** The picture as codes. @param target null: the canvas */
  show(
    targets: Targets,
    look: SceneLook,
    tint: DepthTint | undefined,
    target: Targets['fresh'] | null,
  ) {
    Object.assign(this.#shown.uniforms, {
      mean: { value: targets.means[0].texture },
      depth: { value: targets.depth },
      ground: { value: new Vector3(...linearOfCode8(look.ground)) },
      light: { value: 2 ** look.stops },
      ribsFar: { value: tint?.ribsFar ?? -1 },
      keyDistance: { value: tint?.keyDistance ?? 1 },
    });
    this.pass(this.#shown, target);
  }

  /** Distances as the first of four numbers a pixel, bottom row first; below 0 where nothing is. */
  depths(targets: Targets, target: Targets['fresh']): void {
    Object.assign(this.#depth.uniforms, { depth: { value: targets.depth } });
    this.pass(this.#depth, target);
  }
}
