import type { Lane } from './lanes.ts';

/** Px of the picture. */
export const size = {
  plank: 44,
  rowGap: 4,
  film: 18,
  /** So wide that a word fits. */
  word: 42,
  /** A plank so narrow can still be hit (WCAG 2.2, 2.5.8). */
  leastPlank: 24,
  pad: 6,
  /** Names of lanes stand beside them, or above them where there is no room. */
  names: 168,
  namesNarrow: 116,
} as const;

/** Below this width lanes are stacked and a day is shown at a time. */
export const narrow = 560;

/** What the planks of a lane and their films take. */
export const workSizeOf = ({ rows, filmRows }: Pick<Lane, 'rows' | 'filmRows'>): number =>
  2 * size.pad + rows * (size.plank + size.rowGap) + filmRows * size.film;

/**
 * What is said of a lane beside its work takes room too: so much at least, and more where words need
 * more lines.
 */
export const blockSizeOf = (lane: Pick<Lane, 'rows' | 'filmRows' | 'boat' | 'room'>): number =>
  Math.max(workSizeOf(lane), lane.boat !== null || lane.room !== null ? 92 : 60);

/** How high the name stands over the work of a lane that is stacked. */
export const aboveOf = (saysMore: boolean): number => (saysMore ? 54 : 34);
