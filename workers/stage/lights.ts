/**
 * The light on the stage. Each sample of a picture is lit from a slightly other place: averaged, the sun’s shadows are
 * soft, and the sky, one direction a sample, darkens corners as an open sky does.
 */
import type { Light, Object3D, Sphere } from 'three';
import { DirectionalLight, Group, HemisphereLight, Vector3 } from 'three';
import { isLight, isMesh } from './facts.ts';

/** Below this a sample’s own direction would show: the sky is then even and throws no shadow. */
const SKY_SAMPLES_LEAST = 8;
const SKY = 2;
const SUN = 2.2;
/** From over the left shoulder of someone who looks along −z. */
const SUN_FROM = new Vector3(-0.5, 0.9, 0.75).normalize();
/** Half the angle that the sun’s disc seems to have: softer than the real one’s 0.27°. */
const SUN_SPREAD = 0.035;
const SHADOW_PX = 1024;

type Shadowing = Light & {
  readonly shadow: DirectionalLight['shadow'];
  readonly target?: Object3D;
};

const castsShadow = (light: Light): light is Shadowing => 'shadow' in light;

/** Clear things throw no shadow: it would be as black as that of a solid one. */
const shadowsOf = (root: Object3D): void =>
  root.traverse((object) => {
    if (!isMesh(object)) return;
    const clear = [object.material]
      .flat()
      .some((one) => one.transparent || ('transmission' in one && Number(one.transmission) > 0));
    object.castShadow = !clear;
    object.receiveShadow = true;
  });

const fit = (light: DirectionalLight, from: Vector3, { center, radius }: Sphere): void => {
  light.position.copy(center).addScaledVector(from, 2 * radius);
  light.target.position.copy(center);
  light.target.updateMatrixWorld();
  const { camera } = light.shadow;
  [camera.left, camera.right, camera.top, camera.bottom] = [-radius, radius, radius, -radius];
  [camera.near, camera.far] = [0.5 * radius, 3.5 * radius];
  camera.updateProjectionMatrix();
  light.shadow.normalBias = 0.004 * radius;
  light.shadow.bias = -0.0005;
};

const withShadow = (light: DirectionalLight): DirectionalLight => {
  light.castShadow = true;
  light.shadow.mapSize.set(SHADOW_PX, SHADOW_PX);
  return light;
};

/** Evenly over the upper half of a sphere. @param u @param v 0 … 1 */
const skyDirection = (u: number, v: number): Vector3 => {
  const y = 0.02 + 0.98 * u;
  const across = Math.sqrt(1 - y * y);
  return new Vector3(across * Math.cos(2 * Math.PI * v), y, across * Math.sin(2 * Math.PI * v));
};

export interface StageLights {
  readonly group: Group;
  /** Light for one sample of many. */
  set(sample: number, samples: number, sphere: Sphere): void;
}

/** The scene’s own lights with a little sky; a sun and more sky where it has none. */
export const lightsFor = (root: Object3D): StageLights => {
  const own: Light[] = [];
  root.traverse((object) => {
    if (isLight(object)) own.push(object);
  });
  for (const light of own)
    if (castsShadow(light)) {
      light.castShadow = true;
      light.shadow.mapSize.set(SHADOW_PX, SHADOW_PX);
      light.shadow.bias = -0.0005;
    }
  shadowsOf(root);
  const group = new Group();
  const share = own.length > 0 ? 0.25 : 1;
  const even = new HemisphereLight(0xffffff, 0x000000, (share * SKY) / 2);
  const sky = withShadow(new DirectionalLight(0xffffff, share * SKY));
  const sun = own.length > 0 ? undefined : withShadow(new DirectionalLight(0xfff4e4, SUN));
  group.add(even, sky, sky.target, ...(sun === undefined ? [] : [sun, sun.target]));
  const aside = new Vector3().crossVectors(SUN_FROM, new Vector3(0, 1, 0)).normalize();
  const above = new Vector3().crossVectors(aside, SUN_FROM);
  return {
    group,
    set(sample, samples, sphere) {
      const apart = samples >= SKY_SAMPLES_LEAST;
      even.visible = !apart;
      sky.visible = apart;
      // Other multiples than those that shift the samples, so that the two are not in step.
      const u = (0.5 + (sample + 1) * 0.618033988749895) % 1;
      const v = (0.5 + (sample + 1) * 0.754877666246693) % 1;
      if (apart) fit(sky, skyDirection(u, v), sphere);
      if (sun === undefined) return;
      const spread = apart ? SUN_SPREAD * Math.sqrt(u) : 0;
      const from = SUN_FROM.clone()
        .addScaledVector(aside, spread * Math.cos(2 * Math.PI * v))
        .addScaledVector(above, spread * Math.sin(2 * Math.PI * v))
        .normalize();
      fit(sun, from, sphere);
    },
  };
};
