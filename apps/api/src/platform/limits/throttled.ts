import { DomainError } from '#kernel/error.ts';

/** Too often: when the same may be tried again goes out as Retry-After (RFC 9110, 10.2.3). */
export class Throttled extends DomainError {
  readonly retryAfterSeconds: number;

  /** `what` there was too much of, e.g. `attempts to sign in`. */
  constructor(what: string, waitMs: number) {
    const seconds = Math.max(1, Math.ceil(waitMs / 1000));
    super('access.often', `There were too many ${what}.`, {
      cure: `Wait ${inWords(seconds)}, then try again.`,
    });
    this.retryAfterSeconds = seconds;
  }
}

function inWords(seconds: number): string {
  const [count, unit] = seconds < 120 ? [seconds, 'second'] : [Math.ceil(seconds / 60), 'minute'];
  return `${String(count)} ${unit}${count === 1 ? '' : 's'}`;
}
