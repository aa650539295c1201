import { minuteAt, minutesBefore, type Spans } from '../../crew/compiled/spans.ts';

/** Stands for any number beyond every moment: two of them can be added without overflow. */
export const BEYOND = 0x1fffffff;

/** A non-decreasing function of a moment, between -BEYOND and BEYOND. */
export interface Monotone {
  at(t: number): number;
  /** The greatest t with at(t) <= v; -BEYOND if there is none. */
  back(v: number): number;
}

const clipped = (v: number): number => Math.min(BEYOND, Math.max(-BEYOND, v));

export const shift = (minutes: number): Monotone => ({
  at: (t) => t + minutes,
  back: (v) => v - minutes,
});

export const scaled = (weight: number): Monotone => ({
  at: (t) => weight * t,
  back: (v) => clipped(Math.floor(v / weight)),
});

/** From a function and its inverse, either of which may be infinite. */
export const monotone = (at: (t: number) => number, back: (v: number) => number): Monotone => ({
  at: (t) => clipped(at(t)),
  back: (v) => clipped(back(v)),
});

/** With the inverse found by halving between `low` and `high`. */
export function bisected(at: (t: number) => number, low: number, high: number): Monotone {
  return {
    at: (t) => clipped(at(t)),
    back(v) {
      if (at(high) <= v) return BEYOND;
      if (at(low) > v) return -BEYOND;
      let under = low;
      let over = high;
      while (over - under > 1) {
        const middle = Math.floor((under + over) / 2);
        if (at(middle) <= v) under = middle;
        else over = middle;
      }
      return under;
    },
  };
}

/** Minutes of the spans before a moment; before minute 0 and after the last span it stands still. */
export const minutesOf = (spans: Spans): Monotone => ({
  at: (t) => (t <= 0 ? 0 : minutesBefore(spans, t)),
  back(v) {
    if (v < 0) return -BEYOND;
    const t = minuteAt(spans, v);
    return t < 0 ? BEYOND : t;
  },
});
