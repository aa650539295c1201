import { SetMetadata } from '@nestjs/common';

export const secretFieldsKey = 'curewright:secret-fields';

/**
 * Fields of a command's answer that are shown once. What is kept of the answer for a repetition
 * under its `Idempotency-Key` has null in their place, so the shape has to allow for it.
 */
export const ShownOnce = (...fields: readonly [string, ...string[]]): MethodDecorator =>
  SetMetadata(secretFieldsKey, fields);

/** The answer as it may be kept. */
export function withoutSecrets(answer: unknown, fields: readonly string[]): unknown {
  if (fields.length === 0 || typeof answer !== 'object' || answer === null) return answer;
  return { ...answer, ...Object.fromEntries(fields.map((field) => [field, null])) };
}
