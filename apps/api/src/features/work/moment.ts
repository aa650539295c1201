import { DomainError, fault } from '#kernel/error.ts';

/** When something really was: `at`, or now, to the minute below; not in the future nor before `earliest`. */
export function momentOf(at: string | undefined, earliest: string | null): Date {
  const now = Date.now();
  const moment = new Date(at ?? Math.floor(now / 60_000) * 60_000);
  if (moment.getTime() > now) throw wrong(at, 'is in the future', 'Send it when it is so.');
  if (earliest === null || moment >= new Date(earliest)) return moment;
  if (at === undefined) return new Date(earliest);
  throw wrong(at, `is before the work began, ${earliest}`, 'Give the moment of the end.');
}

function wrong(value: string | undefined, message: string, cure: string): DomainError {
  const faults = [fault('input.field', 'at', message, { value, cure })];
  return new DomainError('input.field', `at: ${message}`, { cure, faults });
}
