import { signal } from '@preact/signals';

/** What hangs on the pointer, and what the service says of it. */
interface Ghost {
  readonly taskId: string;
  readonly left: number;
  readonly top: number;
  readonly start: number;
  /** Who does it where it is dropped. */
  readonly crew: readonly string[];
  readonly who: string;
  readonly isHeld: boolean;
  readonly verdict: Verdict | 'asking' | null;
}

export interface Verdict {
  readonly isPossible: boolean;
  readonly words: readonly string[];
}

export const ghost = signal<Ghost | null>(null);
