/**
 * Something that is made in small pieces: each `next` does one, and the last gives what was made.
 * A number says for how many pieces the one just made counts.
 */
export type Steps<T> = Generator<number | undefined, T, undefined>;

/** Pieces in an iteration: 4 take 1 to 10 ms at 300 activities. */
export const PIECES = 4;

/** Work of a network, as it counts it, that takes the place of so many pieces: 2 to 5 ms. */
export const SLICE = 40_000;

/** Makes a few pieces more; true when that was the last. */
export function isMade(steps: Steps<void>): boolean {
  for (let k = 0; k < PIECES;) {
    const { done, value } = steps.next();
    if (done === true) return true;
    k += value ?? 1;
  }
  return false;
}

/** All pieces at once. */
export function finished<T>(steps: Steps<T>): T {
  for (;;) {
    const { done, value } = steps.next();
    if (done === true) return value;
  }
}
