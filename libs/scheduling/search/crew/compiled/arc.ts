import type { LagFunctions } from '../../../model/problem.ts';

/** A lag seen from one of its ends. `branch` is -1 where it always holds. */
export interface Arc {
  readonly lag: number;
  readonly from: number;
  readonly to: number;
  readonly fromFinish: boolean;
  readonly toFinish: boolean;
  readonly open: boolean;
  /** One function, or one for each mode of `from`. */
  readonly fns: LagFunctions;
  readonly choice: number;
  readonly branch: number;
}

/** A constant lag of negative length is the opposite bound the other way round; this way it points forwards in time. */
export function forwards(arc: Arc): Arc {
  const [fn] = arc.fns;
  if (arc.fns.length > 1 || fn.kind === 'table' || fn.minutes >= 0) return arc;
  return {
    ...arc,
    from: arc.to,
    to: arc.from,
    fromFinish: arc.toFinish,
    toFinish: arc.fromFinish,
    open: !arc.open,
    fns: [{ kind: 'constant', minutes: -fn.minutes }],
  };
}
