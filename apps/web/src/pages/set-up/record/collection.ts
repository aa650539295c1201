import type { Yard } from '../../../frame/yard.tsx';

/** What all records of a yard have. */
export interface Stored {
  readonly id: string;
  readonly name: string;
  readonly revision: number;
}

/** What a form of a record needs to know. */
export interface Named {
  readonly name: string;
}

export interface At {
  readonly yardId: string;
  readonly id: string;
}

/** Records of one kind at the service, and what of them a form holds. */
export interface Collection<R extends Stored, V extends Named> {
  /** As the yard's log calls one. */
  readonly subject: string;
  readonly list: (yardId: string, signal: AbortSignal) => Promise<readonly R[]>;
  readonly get: (at: At, signal: AbortSignal) => Promise<R>;
  /** `key`: under it, it is made once. */
  readonly create: (at: At, values: V, key: string) => Promise<R>;
  readonly update: (at: At, revision: number, values: V) => Promise<R>;
  readonly remove: (at: At, revision: number) => Promise<unknown>;
  readonly valuesOf: (record: R) => V;
  readonly blank: (yard: Yard) => V;
}

/** A record without some of its fields. */
export function without<T extends object, K extends keyof T & string>(
  record: T,
  ...keys: readonly K[]
): Omit<T, K> {
  const left = { ...record };
  for (const key of keys) Reflect.deleteProperty(left, key);
  return left;
}
