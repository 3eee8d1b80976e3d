/** Placing single pictures, step by step to undo. */
import { describe, expect, test } from 'vitest';
import { setPlace } from '../../../src/job/edits/set-place.ts';
import { placeOthersLike, placePicture, setLight } from '../../../src/job/edits/place.ts';
import type { Frame, Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { createDocumentStore } from '../../../src/state/document.ts';
import { photograph } from '../photograph.ts';

const jobOf = (...frames: Frame[]): Job => ({ ...newJob(), frames });

describe('edits', () => {
  const job = jobOf(
    photograph('a', 900, 600),
    photograph('b', 900, 600),
    photograph('c', 400, 600),
  );

  test('one press is one step to undo, named after the picture', () => {
    const store = createDocumentStore();
    store.getState().open(job);
    const place = { zoom: 1.5, right: 0, down: 0, turnDeg: 2 };
    store.getState().change(...placePicture(job.frames[0]!, place, 'zoom'));
    expect(store.getState().job.frames[0]?.place).toEqual(place);
    expect(store.getState().past.map(({ label }) => label)).toEqual(['placing a.jpg']);
    store.getState().undo();
    expect(store.getState().job).toEqual(job);
  });

  test('a zoom that comes back leaves no step', () => {
    const store = createDocumentStore();
    store.getState().open(job);
    const place = { zoom: 1.5, right: 0, down: 0, turnDeg: 2 };
    for (const next of [place, undefined])
      store.getState().change(...placePicture(job.frames[0]!, next, 'zoom'));
    expect(store.getState().past).toEqual([]);
  });

  test('a zoom beyond what is allowed is refused with its limit', () => {
    const store = createDocumentStore();
    store.getState().open(job);
    const refused = (zoom: number) =>
      store
        .getState()
        .change(...placePicture(job.frames[0]!, { zoom, right: 0, down: 0, turnDeg: 0 }, 'zoom'));
    expect(refused(21)).toBe('Zoom must be at most 20 times.');
    expect(refused(0.01)).toBe('Zoom must be at least 0.05 times.');
    expect(store.getState().job).toEqual(job);
  });

  test('all others of the same size are laid alike, those of another are left', () => {
    const place = { zoom: 1.5, right: 0, down: 0, turnDeg: 2 };
    const light = { stops: 0.5, warmth: 0, tint: 0 };
    const one = setLight(setPlace(job, 'a', place), 'a', light);
    const [, edit] = placeOthersLike(one.frames[0]!);
    const [, b, c] = edit(one).frames;
    expect(b).toMatchObject({ place, light });
    expect(c).toEqual(job.frames[2]);
  });

  test('light that changes nothing is left out', () => {
    expect(setLight(job, 'a', { stops: 0, warmth: 0, tint: 0 })).toBe(job);
    const lit = setLight(job, 'a', { stops: 1, warmth: 0, tint: 0 });
    expect(setLight(lit, 'a', undefined)).toEqual(job);
  });
});
