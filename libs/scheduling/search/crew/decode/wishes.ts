import type { Compiled } from '../compiled/compiled.ts';

/** Work that the foreman has set. */
export interface Wish {
  readonly activity: number;
  /**
   * It waits its turn: something that has to be placed before it moves one of its parts, so that
   * where they will be is not known until then.
   */
  readonly waits: boolean;
}

/** Everything that has to be placed before `a`. */
function ancestors({ order }: Compiled, a: number): Set<number> {
  const found = new Set<number>();
  const stack = [...order.before[a]];
  for (let b = stack.pop(); b !== undefined; b = stack.pop()) {
    if (found.has(b)) continue;
    found.add(b);
    stack.push(...order.before[b]);
  }
  return found;
}

/** What the foreman has set, predecessors first. */
export function wishesOf(compiled: Compiled): Wish[] {
  const { activities, order } = compiled;
  return order.topological.flatMap((activity): Wish[] => {
    const { setStart, setFinish, parts } = activities[activity];
    if (setStart < 0 && setFinish < 0) return [];
    const waits = [...ancestors(compiled, activity)].some((b) => {
      const moves = activities[b].modes.some(({ movesTo }) => movesTo >= 0);
      return moves && activities[b].parts.some((part) => parts.includes(part));
    });
    return [{ activity, waits }];
  });
}
