import { CAUTION_RULES, CLOSING } from './caution-list.ts';
import type { Caution, Hazards } from './caution.ts';

/**
 * The cautions that go with a piece of work, in a fixed order, and last the one that says who
 * knows better; none at all for work without a hazard. Nothing takes one away.
 */
export function cautionsOf(hazards: Hazards): Caution[] {
  const found = CAUTION_RULES.filter((rule) => rule.when(hazards)).map(
    ({ id, trust, source, text }): Caution => ({ id, trust, source, text }),
  );
  return found.length === 0 ? [] : [...found, CLOSING];
}
