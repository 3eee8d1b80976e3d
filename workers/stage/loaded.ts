/** A scene in memory, whichever file it came from. */
import type { AnimationClip, Object3D } from 'three';

export interface LoadedScene {
  readonly kind: string;
  readonly root: Object3D;
  readonly clips: readonly AnimationClip[];
  readonly unitMm: number | undefined;
  readonly notes: readonly string[];
}
