import type { Search } from '#scheduling/search/search.ts';

interface Counts {
  readonly conflicts: number;
  /** Bounds raised. */
  readonly propagations: number;
}

/** A search that tells what it did; without, an iteration is a conflict. */
export type CountedSearch = Search & { readonly counts?: () => Counts };

/** Processor milliseconds of this process since a moment of `process.cpuUsage()`. */
export function cpuSince(from: NodeJS.CpuUsage): number {
  const { user, system } = process.cpuUsage(from);
  return (user + system) / 1000;
}

/** A search that is timed in slices, on the clock of this process's processor time. */
export class Timed {
  conflicts = 0;
  propagations = 0;
  milliseconds = 0;
  done = false;
  private readonly search: CountedSearch;

  constructor(search: CountedSearch) {
    this.search = search;
  }

  /** Works about so many milliseconds more. */
  run(milliseconds: number): void {
    const from = process.cpuUsage();
    let batch = 1;
    for (let gone = 0; !this.done && gone < milliseconds;) {
      const { iterations, done } = this.search.step(batch);
      const counts = this.search.counts?.();
      this.conflicts = counts?.conflicts ?? iterations;
      this.propagations = counts?.propagations ?? NaN;
      this.done = done;
      const now = cpuSince(from);
      if (now - gone < milliseconds / 50) batch *= 2;
      gone = now;
    }
    this.milliseconds += cpuSince(from);
  }

  /** Conflicts a second; NaN before anything has run. */
  get rate(): number {
    return (1000 * this.conflicts) / this.milliseconds;
  }

  /** Bounds raised a second; NaN where they are not counted. */
  get bounds(): number {
    return (1000 * this.propagations) / this.milliseconds;
  }
}
