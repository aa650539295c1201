import type { ErrorCode } from '#kernel/codes.ts';
import { DomainError, fault, type Fault } from '#kernel/error.ts';
import type { ChangeInput } from '#live/change/change-input.ts';
import { show, valueAt } from '#planning/yard/path.ts';

interface Told {
  readonly message: string;
  readonly cure: string;
}

/**
 * What is wrong, told to somebody who sees own boats only: the field and the value that they sent
 * themselves, and nothing of what the yard has. Of a job of another boat they hear the same as of one
 * that there is not.
 */
export function asOwnerReads(error: DomainError, change: ChangeInput): DomainError {
  const faults = distinct(error.faults.map((one) => ofOwner(one, change)));
  const [first] = faults;
  if (faults.length === 0) {
    const { message, cure } = told(error.code, undefined);
    const whole = fault(error.code, 'change', message, { cure });
    return new DomainError(error.code, `change: ${message}`, { cure, faults: [whole] });
  }
  const { code, path, message, cure } = first;
  return new DomainError(code, `${path}: ${message}`, { cure, faults });
}

function ofOwner({ code, path }: Fault, change: ChangeInput): Fault {
  const value = valueAt({ change }, path.match(/[^.[\]]+/g) ?? []);
  return fault(code, path, ...toldOf(code, value));
}

function toldOf(code: ErrorCode, value: unknown): [string, { value?: unknown; cure: string }] {
  const { message, cure } = told(code, value);
  return [message, value === undefined ? { cure } : { value, cure }];
}

function told(code: ErrorCode, value: unknown): Told {
  switch (code) {
    case 'yard.reference':
      return typeof value === 'string'
        ? {
            message: `there is no ${show(value)} for this`,
            cure: 'Ask the yard what to name here.',
          }
        : { message: 'what the work needs here is not said', cure: 'Ask the yard what it is.' };
    case 'yard.duplicate':
    case 'record.exists':
      return {
        message: value === undefined ? 'an id is taken' : `the id ${show(value)} is taken`,
        cure: 'Choose another id, or ask the yard for one.',
      };
    case 'yard.cycle':
      return {
        message: 'the jobs would wait for each other in a circle',
        cure: 'Leave one of them out, or ask the yard for the order.',
      };
    default:
      return {
        message:
          value === undefined
            ? 'it cannot be done so'
            : `${show(value)} does not go with what is to be done on the part`,
        cure: 'Correct it, or ask the yard what fits.',
      };
  }
}

/** Two faults of one field may read the same now. */
function distinct(faults: readonly Fault[]): Fault[] {
  const seen = new Map(faults.map((one) => [`${one.code} ${one.path}`, one]));
  return [...seen.values()];
}
