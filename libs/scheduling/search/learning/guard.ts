import type { Literals } from '../../propagation/literal.ts';
import type { ClauseObserver } from './search.ts';

/**
 * For debugging: an observer that throws when a learned clause cuts off a solution known to be
 * one, `known` holding the value of each variable. No plan checker sees a wrong clause; only a
 * known optimum does. `isWithin` tells whether the target still allows the known solution.
 */
export const guard =
  (known: ArrayLike<number>, isWithin: () => boolean): ClauseObserver =>
  (clause) => {
    if (isWithin() && !isMet(clause, known)) {
      throw new Error(`a learned clause cuts off a known solution: ${inWords(clause, known)}`);
    }
  };

function isMet(clause: Literals, known: ArrayLike<number>): boolean {
  for (let k = 0; k < clause.size; k++) {
    const b = clause.bounds[k];
    if (((b & 1) === 0 ? known[b >> 1] : -known[b >> 1]) >= clause.values[k]) return true;
  }
  return false;
}

function inWords(clause: Literals, known: ArrayLike<number>): string {
  const parts: string[] = [];
  for (let k = 0; k < clause.size; k++) {
    const b = clause.bounds[k];
    const v = clause.values[k];
    const asked = (b & 1) === 0 ? `>= ${v}` : `<= ${-v}`;
    parts.push(`x${b >> 1} ${asked} (it is ${known[b >> 1]})`);
  }
  return parts.join(' or ');
}
