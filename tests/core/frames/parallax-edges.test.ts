/**
 * Measured parallax beside depth edges and behind fences, in made scenes whose parallax is exact at every pixel. Nothing
 * here was used to choose the limits of the measurement: they were chosen on scenes of other seeds.
 */
import { expect, test } from 'vitest';
import { parallaxScene } from './parallax-scene.ts';
import { shareTold, shareWrong, toldOf } from './parallax-told.ts';

test('beside edges and behind a fence little of what is told is wrong', () => {
  const { edge, fence, elsewhere } = toldOf(
    [parallaxScene(53, { width: 256, height: 176, contrast: 0.6 })],
    [5],
  );
  console.log(JSON.stringify({ edge, fence, elsewhere }));
  expect(shareWrong(edge)).toBeLessThan(0.15);
  expect(shareWrong(fence)).toBeLessThan(0.15);
  expect(shareWrong(elsewhere)).toBeLessThan(0.01);
});
