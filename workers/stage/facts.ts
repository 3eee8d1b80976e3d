/** What a loaded scene holds, for the page; and how much of it there may be. */
import type { Light, Mesh, Object3D } from 'three';
import { Box3, PerspectiveCamera, Quaternion, Vector3 } from 'three';
import type { SceneCamera, SceneFacts } from '../../src/contract/stage.ts';
import type { Place } from '../../src/core/stage/turn.ts';
import type { LoadedScene } from './loaded.ts';
import { refuseScene } from './refuse.ts';

const TRIANGLES_AT_MOST = 20e6;

export const isMesh = (object: Object3D): object is Mesh =>
  'isMesh' in object && object.isMesh === true;
export const isLight = (object: Object3D): object is Light =>
  'isLight' in object && object.isLight === true;

const trianglesOf = ({ geometry }: Mesh): number =>
  Math.floor((geometry.index ?? geometry.getAttribute('position')).count / 3);

const cameraOf = (camera: PerspectiveCamera, index: number): SceneCamera => {
  const [place, turn, size] = [new Vector3(), new Quaternion(), new Vector3()];
  camera.matrixWorld.decompose(place, turn, size);
  const high = 2 * Math.tan((camera.fov * Math.PI) / 360);
  return {
    name: camera.name === '' ? `Camera ${index + 1}` : camera.name,
    place: [place.x, place.y, place.z],
    turn: [turn.x, turn.y, turn.z, turn.w],
    wide: high * camera.aspect,
    high,
  };
};

const picturesOf = (mesh: Mesh, found: Set<unknown>): void => {
  for (const material of [mesh.material].flat())
    for (const value of Object.values(material))
      if (typeof value === 'object' && value !== null && 'isTexture' in value) found.add(value);
};

export const boxOf = (root: Object3D): Box3 => {
  root.updateWorldMatrix(true, true);
  return new Box3().setFromObject(root);
};

const inNumbers = ({ x, y, z }: Vector3): Place => [x, y, z];

/** @throws StudioError where there is nothing to see, too much, or places that are no numbers */
export const factsOf = (scene: LoadedScene, name: string): SceneFacts => {
  const { root, clips, kind, unitMm, notes } = scene;
  const box = boxOf(root);
  let [triangles, lights] = [0, 0];
  const pictures = new Set<unknown>();
  const cameras: SceneCamera[] = [];
  root.traverse((object) => {
    if (isMesh(object)) {
      triangles += trianglesOf(object);
      picturesOf(object, pictures);
    } else if (isLight(object)) lights += 1;
    else if (object instanceof PerspectiveCamera) cameras.push(cameraOf(object, cameras.length));
  });
  if (triangles > TRIANGLES_AT_MOST)
    throw refuseScene(
      name,
      `has ${Math.round(triangles / 1e6)} million triangles; the stage takes ${TRIANGLES_AT_MOST / 1e6} million.`,
      'too-large',
    );
  if (box.isEmpty()) throw refuseScene(name, 'holds nothing that can be seen: no mesh is in it.');
  const size = box.getSize(new Vector3()).length();
  if (!Number.isFinite(size) || size > 1e9 || size < 1e-6)
    throw refuseScene(name, 'has places that are no numbers, or far too large or small.');
  return {
    kind,
    unitMm,
    triangles,
    pictures: pictures.size,
    lights,
    cameras,
    clips: clips.map((clip, index) => ({
      name: clip.name === '' ? `Animation ${index + 1}` : clip.name,
      seconds: clip.duration,
    })),
    box: [inNumbers(box.min), inNumbers(box.max)],
    notes,
  };
};

/** Lets go of what lies on the graphics card. */
export const letGo = (root: Object3D): void => {
  const textures = new Set<unknown>();
  root.traverse((object) => {
    if (!isMesh(object)) return;
    picturesOf(object, textures);
    object.geometry.dispose();
    for (const material of [object.material].flat()) material.dispose();
  });
  for (const texture of textures) (texture as { dispose(): void }).dispose();
};
