import type { Problem } from '#scheduling/model/problem.ts';
import { rows, type Table, type Value } from '../dzn.ts';

export type Data = Record<string, Value | Table>;

/** The first minute that anything can be at. */
export const firstMinute = ({ activities }: Problem): number =>
  Math.min(0, ...activities.map(({ fixed }) => fixed?.start ?? 0));

/** A list by way, from 0 on: way 0 is not at all. */
export const byWay = (none: Value, values: readonly Value[]): Table => ({
  ranges: [[0, values.length]],
  values: [none, ...values],
});

/** A table by way and index; way 0 has `none` everywhere. */
export const byWayAnd = (
  none: Value,
  width: number,
  values: readonly (readonly Value[])[],
  from = 1,
): Table => rows([Array.from({ length: width }, () => none), ...values], width, 0, from);
