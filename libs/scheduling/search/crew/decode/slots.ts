import type { OpenSlot } from '../compiled/mode.ts';

/**
 * `s` where some slot holds [s, e); else the start of the next slot, Infinity after the last. A
 * later start only makes the end later, so that slots begun by `s` are past.
 */
export function slotStart(slots: readonly OpenSlot[], s: number, e: number): number {
  let next = Infinity;
  for (const { start, end } of slots) {
    if (start <= s && e <= end) return s;
    if (start > s) next = Math.min(next, start);
  }
  return next;
}

/** The cheapest slot that holds [s, e), one in `used` being free; its index in the problem's list, -1 if none. */
export function slotFor(
  slots: readonly OpenSlot[],
  s: number,
  e: number,
  used: (slot: number) => boolean,
): number {
  let best = -1;
  let least = Infinity;
  for (const { slot, start, end, cost } of slots) {
    if (start > s || e > end) continue;
    const price = used(slot) ? 0 : cost;
    if (price >= least) continue;
    least = price;
    best = slot;
  }
  return best;
}
