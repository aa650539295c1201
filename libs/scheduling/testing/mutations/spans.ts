import { any, bound, modeOf, placing, replaced, type Mutation } from './edit.ts';

/** One minute more or less from start to finish; the work was rounded up to the minute already. */
export const duration: Mutation = (source, rng) => {
  const placement = any(rng, bound(source));
  if (!placement) return null;
  const { start, finish, segments } = placement;
  const last = segments.at(-1);
  const shorter = last !== undefined && last.end - last.start > 1 && rng.below(2) === 0;
  // Splittable work may only grow by a minute that its crew works; take one away instead.
  if (!shorter && modeOf(source.problem, placement).splittable) return null;
  const minutes = shorter ? -1 : 1;
  const pieces =
    last === undefined
      ? [{ start, end: finish + 1 }]
      : replaced(segments, segments.length - 1, { ...last, end: last.end + minutes });
  const wrong = { ...placement, finish: finish + minutes, segments: pieces };
  return { before: source, after: placing(source, wrong) };
};

/**
 * A minute cut out of a segment, a pause shortened by a minute, a piece cut in two, or a
 * start or finish one minute away from the work.
 */
export const segments: Mutation = (source, rng) => {
  const placement = any(
    rng,
    source.plan.placements.filter((one) => one.segments.length > 0),
  );
  if (!placement) return null;
  const way = rng.below(5);
  if (way >= 3) {
    const { start, finish } = placement;
    const wide = way === 3 ? { start: start - 1 } : { finish: finish + 1 };
    return { before: source, after: placing(source, { ...placement, ...wide }) };
  }
  const index = rng.below(placement.segments.length);
  const span = placement.segments[index];
  const next = placement.segments.at(index + 1);
  let pieces = placement.segments.filter((_, i) => i !== index);
  if (way === 0 && next)
    pieces = replaced(placement.segments, index, { ...span, end: span.end + 1 });
  else if (way === 1 && span.end - span.start > 1)
    pieces = placement.segments.flatMap((old, i) =>
      i === index
        ? [
            { start: old.start, end: old.start + 1 },
            { start: old.start + 1, end: old.end },
          ]
        : [old],
    );
  else if (span.end - span.start > 1)
    pieces = replaced(placement.segments, index, { ...span, end: span.end - 1 });
  return { before: source, after: placing(source, { ...placement, segments: pieces }) };
};
