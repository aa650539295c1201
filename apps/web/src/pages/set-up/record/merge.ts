import { same } from '../../../form/same.ts';

/** The fields that somebody changed. */
export function changedFields<V extends object>(begun: V, values: V): (keyof V & string)[] {
  const keys = Object.keys(values) as (keyof V & string)[];
  return keys.filter((key) => !same(begun[key], values[key]));
}

/**
 * What a form holds after somebody else has saved: what was typed here where something was, what
 * is there now everywhere else.
 */
export function merged<V extends object>(begun: V, values: V, now: V): V {
  const mine = changedFields(begun, values);
  const kept = Object.fromEntries(mine.map((key) => [key, values[key]]));
  return { ...now, ...kept };
}
