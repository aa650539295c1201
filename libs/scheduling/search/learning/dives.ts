import { lowerOf, upperOf } from '../../propagation/literal.ts';
import type { Network } from '../../propagation/network.ts';

/**
 * A dive by time: the variable with the least lower bound, of those the one with least room, gets
 * that bound; false if all are fixed. O(variables) a decision.
 */
export function earliestFirst(network: Network, variables: Int32Array): () => boolean {
  const { bound } = network.trail;
  return () => {
    let chosen = -1;
    let early = 0;
    let late = 0;
    for (let k = 0; k < variables.length; k++) {
      const x = variables[k];
      const lower = bound[lowerOf(x)];
      const upper = -bound[upperOf(x)];
      if (lower === upper) continue;
      if (chosen < 0 || lower < early || (lower === early && upper < late)) {
        chosen = x;
        early = lower;
        late = upper;
      }
    }
    if (chosen < 0) return false;
    network.decide(upperOf(chosen), -early);
    return true;
  };
}

/** A dive in the order given: the first variable that is open gets its lower bound. */
export function inOrder(network: Network, variables: Int32Array): () => boolean {
  const { bound } = network.trail;
  return () => {
    for (let k = 0; k < variables.length; k++) {
      const lower = bound[lowerOf(variables[k])];
      if (lower === -bound[upperOf(variables[k])]) continue;
      network.decide(upperOf(variables[k]), -lower);
      return true;
    }
    return false;
  };
}
