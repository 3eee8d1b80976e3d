/** The wall's pictures of faults, and that its words say what they show. */
import { describe, expect, test } from 'vitest';
import type { Faults } from '../../../src/core/mend/fault.ts';
import { noFaults, phaseTerms } from '../../../src/core/mend/fault.ts';
import { drawSeen, seenFrames, seenScene } from '../../../src/core/mend/seen.ts';
import { SYMPTOMS } from '../../../src/core/mend/symptoms.ts';
import { faulty, gapMm, lying, setup } from './setup.ts';

describe('pictures of faults', () => {
  /** Each frame a plain grey of its own, brighter to the right: what is seen tells the view. */
  const greys = Array.from({ length: 12 }, (_, v) => ({
    columns: 2,
    rows: 2,
    pixels: new Uint8Array(16).fill(20 + 20 * v),
  }));
  const frames = seenFrames(greys, setup.sheet, 40, 50);
  const seen = (faults: Partial<Faults>, eyeMm: number) => {
    const scene = seenScene(setup, faulty(faults), frames, { spot: 0, dot: 0 });
    const pixels = drawSeen(scene, eyeMm);
    return (x: number, y: number) => (pixels[(y * 40 + x) * 4]! - 20) / 20;
  };
  const zone = (setup.sheet.viewingPitchMm * 400) / gapMm;

  test('the eye goes right, the view goes towards the right camera; reversed, towards the left', () => {
    expect(seen({}, zone / 4)(20, 25)).toBeGreaterThan(seen({}, -zone / 4)(20, 25));
    const reversed = { reversed: true };
    expect(seen(reversed, zone / 4)(20, 25)).toBeLessThan(seen(reversed, -zone / 4)(20, 25));
  });

  test('too coarse: an eye straight ahead sees right cameras on the right, left ones on the left', () => {
    // u falls to the right (relation 1), and v = (1 − u) N.
    const view = seen({ pitchScale: 1.0005 }, 0);
    expect(view(38, 25)).toBeGreaterThan(view(1, 25));
    const fine = seen({ pitchScale: 0.9995 }, 0);
    expect(fine(38, 25)).toBeLessThan(fine(1, 25));
  });

  test('crossed ribs show all frames at once, wherever the eye is', () => {
    const crossed = seen({ ribsCrossed: true }, 0);
    const aside = seen({ ribsCrossed: true }, zone / 3);
    expect(Math.abs(crossed(20, 25) - aside(20, 25))).toBeLessThan(0.2);
  });

  test('a page drawn small leaves paper beside the picture', () => {
    const scene = seenScene(setup, faulty({ driverScaleAcross: 0.9 }), frames, { spot: 0, dot: 0 });
    const pixels = drawSeen(scene, 0);
    expect(pixels[(25 * 40 + 0) * 4]).toBe(255);
    expect(pixels[(25 * 40 + 20) * 4]).toBeLessThan(255);
  });

  test('lying ribs: the same picture on its side', () => {
    const sideways = seenFrames(greys, lying.sheet, 50, 40);
    const faults = faulty({ pitchScale: 1.001 });
    const upright = drawSeen(seenScene(setup, faults, frames, { spot: 0, dot: 0 }), 10);
    const turned = drawSeen(seenScene(lying, faults, sideways, { spot: 0, dot: 0 }), 10);
    for (let y = 0; y < 50; y += 7)
      for (let x = 0; x < 40; x += 3)
        expect(turned[(x * 50 + y) * 4]).toBe(upright[(y * 40 + x) * 4]);
  });

  test.each(SYMPTOMS.map((symptom) => [symptom.id, symptom] as const))(
    '%s is drawn otherwise than a right print',
    (_, symptom) => {
      const blur = { spot: 0.1, dot: 0.08 };
      const right = seenScene(setup, noFaults, frames, blur);
      const wrong = seenScene(setup, symptom.sample(setup), frames, blur);
      const differs = [-0.3, 0, 0.3].map((share) => {
        const [a, b] = [drawSeen(right, share * zone), drawSeen(wrong, share * zone)];
        return a.reduce((sum, value, i) => sum + Math.abs(value - b[i]!), 0) / a.length;
      });
      expect(Math.max(...differs)).toBeGreaterThan(0.5);
    },
  );
});

describe('what the wall says agrees with what its pictures do', () => {
  const goesAcross = (faults: Faults, of: typeof setup | typeof lying) =>
    // A band is where u is whole: as the eye goes on, it goes on where u rises across.
    Math.sign(phaseTerms(of, faults).across);
  const goesAlong = (faults: Faults, of: typeof setup | typeof lying) =>
    Math.sign(phaseTerms(of, faults).along);
  const symptom = (id: (typeof SYMPTOMS)[number]['id']) => SYMPTOMS.find((one) => one.id === id)!;

  test('against and with the head', () => {
    expect(symptom('too-coarse').look).toContain('against');
    expect(goesAcross(symptom('too-coarse').sample(setup), setup)).toBe(-1);
    expect(symptom('too-fine').look).toContain('with the head');
    expect(goesAcross(symptom('too-fine').sample(setup), setup)).toBe(1);
  });

  test('climbing and sinking; under lying ribs right and left', () => {
    for (const [id, upright, down, sideways] of [
      ['skewed-left', -1, 'climb', 'go right'],
      ['skewed-right', 1, 'sink', 'go left'],
    ] as const) {
      const { look, lookLying, sample } = symptom(id);
      expect(look).toContain(down);
      expect(goesAlong(sample(setup), setup)).toBe(upright);
      expect(lookLying).toContain(sideways);
      expect(goesAlong(sample(lying), lying)).toBe(sideways === 'go right' ? 1 : -1);
    }
  });
});
