import { SetMetadata } from '@nestjs/common';

export const secretFieldsKey = 'curewright:secret-fields';

/**
 * Fields of a command's answer that are shown once. What is kept of the answer for a repetition
 * under its `Idempotency-Key` has null in their place, so the shape has to allow for it.
 */
export const ShownOnce = (...fields: readonly [string, ...string[]]): MethodDecorator =>
  SetMetadata(secretFieldsKey, fields);

/**
 * The answer as it may be kept, as JSON: null in place of the named fields, however deep they stand.
 * Null where there is no answer.
 */
export function keptAnswer(answer: unknown, secrets: readonly string[]): string | null {
  if (answer === undefined) return null;
  return JSON.stringify(answer, (key, value: unknown) => {
    if (secrets.includes(key)) return null;
    return typeof value === 'bigint' ? String(value) : value;
  });
}
