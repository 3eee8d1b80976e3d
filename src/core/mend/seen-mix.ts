/** Which slots an eye sees at each place under a rib, and their shares, faults included. */
import type { Blur } from '../lens/mix.ts';
import { mix } from '../lens/mix.ts';
import type { Faults } from './fault.ts';

/** For each step of u, the slots seen and their shares: `most` entries a step, unused ones with share 0. */
export interface MixTable {
  readonly most: number;
  readonly slot: Uint16Array;
  readonly share: Float32Array;
}

/** Steps of u in one zone. */
export const MIX_STEPS = 256;

/** The slot shown in place of each: in reverse order, or only the first and the last. */
export const slotOrder = (count: number, faults: Faults): number[] =>
  Array.from({ length: count }, (_, slot) => {
    const shown = faults.reversed ? count - 1 - slot : slot;
    if (faults.flip) return shown < count / 2 ? 0 : count - 1;
    return shown;
  });

export const mixTable = (order: readonly number[], blur: Blur, faults: Faults): MixTable => {
  const count = order.length;
  const rows = Array.from({ length: MIX_STEPS }, (_, step) => {
    const shares = new Map<number, number>();
    const add = (slot: number, share: number) => {
      const shown = order[slot]!;
      shares.set(shown, (shares.get(shown) ?? 0) + share);
    };
    const u = (step + 0.5) / MIX_STEPS;
    const seen = mix(u, count, blur);
    for (const { slot, share } of seen) {
      if (faults.deeper === 1) add(slot, share);
      else doubled(slot, count, faults.deeper).forEach((other) => add(other, share / 2));
    }
    if (faults.sharpened > 0) {
      // An unsharp mask over the woven columns: subtracts what lies one slot to each side.
      for (const [slot, share] of [...shares]) shares.set(slot, share * (1 + faults.sharpened));
      for (const { slot, share } of seen)
        for (const side of [-1, 1])
          add((slot + side + count) % count, (-share * faults.sharpened) / 2);
    }
    return [...shares];
  });
  const most = Math.max(...rows.map((row) => row.length));
  const slot = new Uint16Array(MIX_STEPS * most);
  const share = new Float32Array(MIX_STEPS * most);
  rows.forEach((row, step) => {
    row.forEach(([shown, part], i) => {
      slot[step * most + i] = shown;
      share[step * most + i] = part;
    });
  });
  return { most, slot, share };
};

/** The two views of a scene that is too deep, both visible where a rib should show one. */
const doubled = (slot: number, count: number, deeper: number): readonly [number, number] => {
  const half = Math.max(1, Math.round((deeper - 1) / 2));
  return [Math.max(0, slot - half), Math.min(count - 1, slot + half)];
};
