import type { Hours } from './hours.ts';
import type { Work } from './model.ts';
import { size } from './size.ts';
import { type Span, within } from './spans.ts';

/** How much nearer than a whole week that fits. */
export const closeness = [1, 2, 4] as const;
export type Closeness = (typeof closeness)[number];

/** Nearer, a week would be seen a day at a time: that is for whoever asks for it. */
const opensAtMost = 2;

/** As near as it takes until half of the planks have room for a word; by the hours as they are at 1. */
export function closenessOf(
  works: readonly Pick<Work, 'spans'>[],
  whole: Span,
  { at }: Pick<Hours, 'at'>,
): Closeness {
  const wide = works
    .flatMap(({ spans }) => within(spans, whole))
    .map(({ from, until }) => at(until) - at(from))
    .sort((a, b) => a - b);
  const median = wide.at(Math.floor(wide.length / 2));
  if (median === undefined) return 1;
  return median < size.word ? opensAtMost : 1;
}
