import type { components } from './schema.ts';

/** What the service answers where it does not do what was asked (RFC 9457). */
export type ProblemBody = components['schemas']['Problem'];

/** A refusal of the service, or that it could not be reached. */
export class Problem extends Error {
  /** HTTP; 0: there was no answer. */
  readonly status: number;
  readonly code: string;
  readonly title: string;
  readonly cure: string;
  /** What is wrong with which field of what was sent. */
  readonly faults: ProblemBody['errors'];

  constructor(status: number, body: Partial<ProblemBody>) {
    super(body.detail ?? body.title ?? String(status));
    this.name = 'Problem';
    this.status = status;
    this.code = body.code ?? 'unknown';
    this.title = body.title ?? this.message;
    this.cure = body.cure ?? '';
    this.faults = body.errors ?? [];
  }

  get isUnreachable(): boolean {
    return this.status === 0;
  }
}

/** Of whatever was thrown: a failed fetch is a `TypeError`. */
export function problemOf(error: unknown): Problem {
  if (error instanceof Problem) return error;
  return new Problem(0, { code: 'unreachable', title: 'unreachable', detail: String(error) });
}
