/** The rig, drawn over the picture that is on the canvas. */
import {
  BufferGeometry,
  Float32BufferAttribute,
  LineBasicMaterial,
  LineSegments,
  Scene,
} from 'three';
import type { RigLine } from '../../src/core/stage/outside.ts';
import type { StagePainter } from './painter.ts';

const colours = { key: 0xffffff, camera: 0x2f6fdd, limit: 0xd98c00 } as const;

export const drawLines = ({ renderer, camera }: StagePainter, lines: readonly RigLine[]): void => {
  if (lines.length === 0) return;
  const scene = new Scene();
  const shapes: BufferGeometry[] = [];
  for (const of of ['limit', 'camera', 'key'] as const) {
    const places = lines.flatMap((line) => (line.of === of ? [...line.from, ...line.to] : []));
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new Float32BufferAttribute(places, 3));
    const material = new LineBasicMaterial({ color: colours[of], depthTest: false });
    shapes.push(geometry);
    scene.add(new LineSegments(geometry, material));
  }
  renderer.setRenderTarget(null);
  renderer.autoClear = false;
  renderer.render(scene, camera);
  renderer.autoClear = true;
  for (const shape of shapes) shape.dispose();
};
