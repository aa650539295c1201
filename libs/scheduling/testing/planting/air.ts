import type { Interval } from '../../model/problem.ts';
import type { Draft, Ground, Place } from './ground.ts';

interface Reach extends Interval {
  readonly space: number;
}

/** Where a film that is open until `end` may not be met by dust, as its part is moved about. */
function exposure(g: Ground, draft: Draft, place: Place, end: number): Reach[] {
  const stays: { space: number | null; start: number; end: number }[] = [];
  let { space } = draft.mode;
  let from = place.start;
  const carrier = draft.parts.at(0);
  for (const move of carrier === undefined ? [] : g.moves[carrier]) {
    if (move.start < place.finish) continue;
    stays.push({ space, start: from, end: Math.min(end, move.end) });
    space = move.to;
    from = move.start;
  }
  stays.push({ space, start: from, end });
  return stays.flatMap((stay) =>
    stay.space === null || stay.start >= stay.end ? [] : [{ ...stay, space: stay.space }],
  );
}

/** The spans in which nothing closes the barrier. */
function openSpans(g: Ground, barrier: number, { start, end }: Interval): Interval[] {
  const spans: { start: number; end: number }[] = [];
  for (let m = start; m < end; m++) {
    if (g.closed[barrier][g.lead + m] === 1) continue;
    const last = spans.at(-1);
    if (last?.end === m) last.end++;
    else spans.push({ start: m, end: m + 1 });
  }
  return spans;
}

function dustOf(g: Ground, draft: Draft, place: Place): Reach[] {
  const { space, air } = draft.mode;
  if (air !== 'dusty' || space === null) return [];
  const { settling, dustReaches } = g.world.spaces[space];
  const hanging = place.segments.map(({ start, end }) => ({ start, end: end + settling }));
  return dustReaches.flatMap((reach) =>
    hanging
      .flatMap((span) => (reach.barrier === null ? [span] : openSpans(g, reach.barrier, span)))
      .map((span) => ({ ...span, space: reach.space })),
  );
}

/** What dust may not reach: wet work while it is done, and a film for as long as it is to be kept. */
function filmOf(g: Ground, draft: Draft, place: Place): Reach[] {
  const { air, space } = draft.mode;
  const wet =
    air === 'wet' && space !== null ? [{ space, start: place.start, end: place.finish }] : [];
  if (draft.film === null) return wet;
  return [...wet, ...exposure(g, draft, place, place.finish + draft.film)];
}

/** A minute in which dust meets what it may not, were the draft in that place; null where none does. */
export function dustMeets(g: Ground, draft: Draft, place: Place): number | null {
  const first = (air: readonly Uint8Array[], reaches: readonly Reach[]): number | null => {
    for (const { space, start, end } of reaches) {
      const from = Math.max(0, g.lead + start);
      const met = air[space].subarray(from, Math.max(0, g.lead + end)).indexOf(1);
      if (met >= 0) return from + met - g.lead;
    }
    return null;
  };
  return first(g.open, dustOf(g, draft, place)) ?? first(g.dust, filmOf(g, draft, place));
}

export function fill(g: Ground, draft: Draft, place: Place): void {
  const mark = (air: readonly Uint8Array[], reaches: readonly Reach[]): void => {
    for (const { space, start, end } of reaches)
      air[space].fill(1, Math.max(0, g.lead + start), Math.max(0, g.lead + end));
  };
  mark(g.dust, dustOf(g, draft, place));
  mark(g.open, filmOf(g, draft, place));
}
