import type { Problem } from '../../../model/problem.ts';
import type { Spans } from '../../crew/compiled/spans.ts';
import type { Pieces } from '../rules/pieces.ts';
import type { Classes } from './crews.ts';
import type { Draft } from './draft.ts';
import type { Focus } from './focus.ts';
import { hoursOf, type Hours } from './hours.ts';

/** What is worth keeping between networks of the same problem. */
export interface Stock {
  readonly hours: Hours;
  /** Places by activity, mode, minutes, slot and hours. */
  readonly places: Map<string, Pieces>;
  readonly ids: Map<Spans | null, number>;
}

export const stockOf = (problem: Problem): Stock => ({
  hours: hoursOf(problem),
  places: new Map(),
  ids: new Map(),
});

/** A number for each set of hours. */
export function idOf({ ids }: Stock, spans: Spans | null): number {
  const id = ids.get(spans) ?? ids.size;
  ids.set(spans, id);
  return id;
}

export interface Ground {
  readonly problem: Problem;
  readonly draft: Draft;
  readonly classes: Classes;
  readonly stock: Stock;
  readonly hours: Hours;
  readonly focus: Focus | null;
}
