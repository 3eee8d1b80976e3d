/** A loaded scene with the light on it, at one moment. */
import { AnimationMixer, LoopOnce, Scene, Sphere } from 'three';
import type { SceneFacts, SceneLook } from '../../src/contract/stage.ts';
import { boxOf, factsOf, letGo } from './facts.ts';
import type { StageLights } from './lights.ts';
import { lightsFor } from './lights.ts';
import type { LoadedScene } from './loaded.ts';

export interface StageSet {
  readonly facts: SceneFacts;
  readonly scene: Scene;
  readonly lights: StageLights;
  /** Around everything, as it is now. */
  readonly sphere: Sphere;
  moveTo(moment: SceneLook['moment']): void;
  dispose(): void;
}

/** @throws StudioError */
export const setStage = (loaded: LoadedScene, name: string): StageSet => {
  const { root, clips } = loaded;
  const facts = factsOf(loaded, name);
  const scene = new Scene();
  scene.add(root);
  const lights = lightsFor(root);
  scene.add(lights.group);
  const sphere = boxOf(root).getBoundingSphere(new Sphere());
  const mixer = new AnimationMixer(root);
  let shown = '';
  return {
    facts,
    scene,
    lights,
    sphere,
    moveTo(moment) {
      const wanted = JSON.stringify(moment ?? null);
      if (wanted === shown || (moment === undefined && shown === '')) return;
      shown = wanted;
      mixer.stopAllAction();
      const clip = clips[moment?.clip ?? -1];
      if (moment !== undefined && clip !== undefined) {
        const action = mixer.clipAction(clip).reset();
        // So that the last moment is the clip’s end, not its beginning again.
        action.setLoop(LoopOnce, 1);
        action.clampWhenFinished = true;
        action.play();
        mixer.setTime(moment.seconds);
      }
      boxOf(root).getBoundingSphere(sphere);
    },
    dispose: () => letGo(root),
  };
};
