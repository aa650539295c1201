/** What is free over time, while a pass takes and gives back. Nothing here allocates. */
export interface Profile {
  /** Nothing is taken any more. */
  reset(): void;
  /** The first moment from `from` on at which `i` fits. */
  earliest(i: number, from: number): number;
  /** Takes what `i` asks from `at` on, where it fits. */
  take(i: number, at: number): void;
  /** Gives back what was taken so. */
  give(i: number, at: number): void;
}
