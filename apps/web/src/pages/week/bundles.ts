import type { Hours } from './hours.ts';
import type { Piece } from './lanes.ts';
import { size } from './size.ts';

interface Place {
  /** Px from where the days begin. */
  readonly start: number;
  readonly width: number;
}

/** Where a piece is drawn: so wide at least that it can be hit, and within the days. */
function placeOf(piece: Piece, hours: Hours): Place {
  const begins = hours.at(piece.from);
  const width = Math.max(piece.isFirst ? size.leastPlank : 5, hours.at(piece.until) - begins - 1);
  return { start: Math.max(0, Math.min(begins, hours.width - width)), width };
}

/** Planks that lie near each other. */
export interface Bundle extends Place {
  readonly pieces: readonly { readonly piece: Piece; readonly place: Place }[];
}

const widestPx = 1000;

/**
 * The planks of a lane, which come in order of time, in bundles: the browser leaves out of a frame
 * what is out of sight, but only as wholes.
 */
export function bundlesOf(pieces: readonly Piece[], hours: Hours): Bundle[] {
  const bundles: { start: number; end: number; pieces: Bundle['pieces'][number][] }[] = [];
  for (const piece of pieces) {
    const place = placeOf(piece, hours);
    const end = place.start + place.width;
    const last = bundles.at(-1);
    if (last !== undefined && place.start >= last.start && end - last.start <= widestPx) {
      last.pieces.push({ piece, place });
      last.end = Math.max(last.end, end);
    } else bundles.push({ start: place.start, end, pieces: [{ piece, place }] });
  }
  return bundles.map(({ start, end, pieces: within }) => ({
    start,
    width: end - start,
    pieces: within,
  }));
}
