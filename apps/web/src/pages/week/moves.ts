import type { Lane, Piece } from './lanes.ts';

/** Where somebody stands who goes by keyboard: a lane and one of its planks. */
export interface Stand {
  readonly lane: number;
  readonly piece: number;
}

const firsts = (lane: Lane): readonly Piece[] => lane.pieces.filter(({ isFirst }) => isFirst);

/** The plank of a lane that is nearest in time. */
function nearest(lane: Lane, moment: number): number {
  let best = 0;
  firsts(lane).forEach((piece, k, all) => {
    if (Math.abs(piece.from - moment) < Math.abs(all[best].from - moment)) best = k;
  });
  return best;
}

/** The next lane that way which has a plank; the same where there is none. */
function otherLane(lanes: readonly Lane[], { lane, piece }: Stand, step: 1 | -1): Stand {
  const moment = firsts(lanes[lane])[piece]?.from ?? 0;
  for (let k = lane + step; k >= 0 && k < lanes.length; k += step) {
    if (firsts(lanes[k]).length > 0) return { lane: k, piece: nearest(lanes[k], moment) };
  }
  return { lane, piece };
}

/** Where a key leads from a plank; null: it is no key of the picture. */
export function moved(lanes: readonly Lane[], stand: Stand, key: string): Stand | null {
  const count = firsts(lanes[stand.lane]).length;
  const along = (piece: number): Stand => ({
    ...stand,
    piece: Math.min(Math.max(piece, 0), count - 1),
  });
  switch (key) {
    case 'ArrowLeft':
      return along(stand.piece - 1);
    case 'ArrowRight':
      return along(stand.piece + 1);
    case 'ArrowUp':
      return otherLane(lanes, stand, -1);
    case 'ArrowDown':
      return otherLane(lanes, stand, 1);
    case 'Home':
      return along(0);
    case 'End':
      return along(count - 1);
    default:
      return null;
  }
}

/** The plank that a task has in a lane. */
export const standOf = (lanes: readonly Lane[], laneId: string, taskId: string): Stand | null => {
  const lane = lanes.findIndex(({ id }) => id === laneId);
  if (lane === -1) return null;
  const piece = firsts(lanes[lane]).findIndex(({ work }) => work.task.id === taskId);
  return piece === -1 ? null : { lane, piece };
};

export const pieceAt = (lanes: readonly Lane[], { lane, piece }: Stand): Piece | undefined =>
  firsts(lanes[lane])[piece];
