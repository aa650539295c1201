/**
 * A clock that may stand still: `at(t)` is what it shows at moment t, non-decreasing, and `back(v)`
 * the last moment at which it shows no more than v. Somebody's working time is one: work that takes
 * so many of its minutes takes so much of the clock, whatever the hour.
 */
export interface Clock {
  at(t: number): number;
  back(v: number): number;
}

/** The same in negated time. */
export const mirrored = (clock: Clock): Clock => ({
  at: (t) => -clock.at(-t),
  back: (v) => -clock.back(-v - 1) - 1,
});

/** The first moment at which it shows at least `v`. */
export const firstAt = (clock: Clock, v: number): number => clock.back(v - 1) + 1;
