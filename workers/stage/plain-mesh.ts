/** A mesh without materials of its own. */
import type { BufferGeometry } from 'three';
import { DoubleSide, Mesh, MeshStandardMaterial } from 'three';

export const plainMesh = (geometry: BufferGeometry): Mesh => {
  if (!geometry.hasAttribute('normal')) geometry.computeVertexNormals();
  const vertexColors = geometry.hasAttribute('color');
  const color = vertexColors ? 0xffffff : 0xb9b4aa;
  const look = { color, vertexColors, roughness: 0.75, metalness: 0, side: DoubleSide };
  return new Mesh(geometry, new MeshStandardMaterial(look));
};

/** Such a file says nothing of its materials. */
export const NO_MATERIALS =
  'The file says nothing of materials, so it is shown in a plain stone grey.';
