import type { Rule } from './rule.ts';

/** The rows by face; throws where two rows dispute one, for then neither is the answer. */
export function byFace(rules: readonly Rule[]): ReadonlyMap<string, Rule> {
  const found = new Map<string, Rule>();
  for (const rule of rules) {
    for (const face of rule.faces) {
      const other = found.get(face);
      if (other) throw new Error(`"${face}" is of ${other.operation} and of ${rule.operation}`);
      found.set(face, rule);
    }
  }
  return found;
}
