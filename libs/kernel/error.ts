import { catalogue, type ErrorCode, type ErrorKind } from './codes.ts';

/** One thing wrong with an input: where, what was found, what to do. */
export interface Fault {
  readonly code: ErrorCode;
  /** Path into the input, e.g. `boats[1].parts[0].areaM2`; empty for the whole. */
  readonly path: string;
  /** The offending value, as JSON would show it; left out where there is none. */
  readonly value?: unknown;
  /** What is wrong, in words. */
  readonly message: string;
  /** What to do about it. */
  readonly cure: string;
}

/** The one error that libraries and services throw on purpose. */
export class DomainError extends Error {
  readonly code: ErrorCode;
  readonly cure: string;
  readonly faults: readonly Fault[];

  constructor(
    code: ErrorCode,
    message?: string,
    options: { cure?: string; faults?: readonly Fault[] } = {},
  ) {
    super(message ?? catalogue[code].title);
    this.name = 'DomainError';
    this.code = code;
    this.cure = options.cure ?? catalogue[code].cure;
    this.faults = options.faults ?? [];
  }

  get kind(): ErrorKind {
    return catalogue[this.code].kind;
  }
}

/** A fault with the catalogue's cure unless a better one is given. */
export function fault(
  code: ErrorCode,
  path: string,
  message: string,
  more: { value?: unknown; cure?: string } = {},
): Fault {
  return {
    code,
    path,
    message,
    cure: more.cure ?? catalogue[code].cure,
    ...('value' in more ? { value: more.value } : {}),
  };
}
