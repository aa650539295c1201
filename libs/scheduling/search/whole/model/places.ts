import type { Interval } from '../../../model/problem.ts';
import { endOf, type Spans } from '../../crew/compiled/spans.ts';
import type { Pieces } from '../rules/pieces.ts';

/** A piece as it is made: starts from `low` to `high`, finishing `offset` later. */
interface Piece {
  readonly low: number;
  readonly high: number;
  readonly offset: number;
}

/** Work in one piece: anywhere, or within one of the spans together with its clean-down. */
export function inOnePiece(
  spans: Spans | null,
  minutes: number,
  cleanDown: number,
  horizon: number,
): Piece[] {
  const length = minutes + cleanDown;
  if (spans === null || length === 0) return [{ low: 0, high: horizon - length, offset: minutes }];
  return Array.from({ length: spans.count }, (_, i) => ({
    low: spans.starts[i],
    high: spans.ends[i] - length,
    offset: minutes,
  }));
}

/** Work that pauses outside the spans: wherever the end passes into another span a new piece begins. */
export function withPauses(spans: Spans, minutes: number): Piece[] {
  const pieces: Piece[] = [];
  for (let i = 0; i < spans.count; i += 1) {
    let s = spans.starts[i];
    while (s < spans.ends[i]) {
      const e = endOf(spans, s, minutes);
      if (e < 0) return pieces;
      let j = i;
      while (spans.ends[j] < e) j += 1;
      const high = Math.min(spans.ends[i] - 1, s + spans.ends[j] - e);
      pieces.push({ low: s, high, offset: e - s });
      s = high + 1;
    }
  }
  return pieces;
}

/** What may keep an activity from some of its places. */
export interface Limits {
  readonly from: number;
  /** Start and finish that are set. */
  readonly start: number | null;
  readonly finish: number | null;
  /** By when it is finished and cleaned down. */
  readonly by: number;
  readonly cleanDown: number;
  readonly startHoles: readonly Interval[];
  readonly finishHoles: readonly Interval[];
  /** One of them holds the work and its clean-down; null where none is asked for. */
  readonly slots: readonly Interval[] | null;
}

const without = (piece: Piece, from: number, to: number): Piece[] =>
  [
    { ...piece, high: Math.min(piece.high, from - 1) },
    { ...piece, low: Math.max(piece.low, to) },
  ].filter(({ low, high }) => low <= high);

function within(piece: Piece, slots: readonly Interval[], cleanDown: number): Piece[] {
  const spans = slots
    .map(({ start, end }) => ({ low: start, high: end - cleanDown - piece.offset }))
    .filter(({ low, high }) => low <= high)
    .sort((a, b) => a.low - b.low);
  const kept: Piece[] = [];
  let next = piece.low;
  for (const span of spans) {
    const low = Math.max(span.low, next);
    const high = Math.min(span.high, piece.high);
    if (low > high) continue;
    kept.push({ ...piece, low, high });
    next = high + 1;
  }
  return kept;
}

export function limited(pieces: readonly Piece[], limits: Limits): Pieces {
  const { from, start, finish, by, cleanDown, startHoles, finishHoles, slots } = limits;
  let left = pieces.flatMap((piece): Piece[] => {
    const { offset } = piece;
    const low = Math.max(piece.low, from, start ?? from, finish === null ? from : finish - offset);
    const high = Math.min(
      piece.high,
      by - cleanDown - offset,
      start ?? piece.high,
      finish === null ? piece.high : finish - offset,
    );
    return low <= high ? [{ low, high, offset }] : [];
  });
  for (const hole of startHoles)
    left = left.flatMap((piece) => without(piece, hole.start, hole.end));
  for (const hole of finishHoles)
    left = left.flatMap((piece) =>
      without(piece, hole.start - piece.offset, hole.end - piece.offset),
    );
  if (slots !== null) left = left.flatMap((piece) => within(piece, slots, cleanDown));
  return {
    low: Int32Array.from(left, ({ low }) => low),
    high: Int32Array.from(left, ({ high }) => high),
    offset: Int32Array.from(left, ({ offset }) => offset),
  };
}
