/** Something that is made in small pieces: each `next` does one, and the last gives what was made. */
export type Steps<T> = Generator<undefined, T, undefined>;

/** Pieces in an iteration: 4 take 1 to 10 ms at 300 activities. */
const PIECES = 4;

/** Makes a few pieces more; true when that was the last. */
export function isMade(steps: Steps<void>): boolean {
  for (let k = 0; k < PIECES; k += 1) if (steps.next().done === true) return true;
  return false;
}

/** All pieces at once. */
export function finished<T>(steps: Steps<T>): T {
  for (;;) {
    const { done, value } = steps.next();
    if (done === true) return value;
  }
}
