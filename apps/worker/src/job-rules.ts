import { byFace } from '#access/by-face.ts';
import type { Rule } from '#access/rule.ts';
import { table } from '#access/table.ts';

/**
 * The rows of the jobs that this worker does. Throws where nobody decided who may ask for one, and
 * where a row has no queue: both are found at start, before any job is taken.
 */
export function jobRules<Q extends string>(
  queues: readonly Q[],
  rules: readonly Rule[] = table,
): Readonly<Record<Q, Rule>> {
  const rows = byFace(rules);
  const done = queues.map((queue) => `job ${queue}`);
  const open = done.filter((face) => !rows.has(face)).map((face) => `no row for "${face}"`);
  const empty = [...rows.keys()]
    .filter((face) => face.startsWith('job ') && !done.includes(face))
    .map((face) => `no handler for "${face}"`);
  const wrong = [...open, ...empty];
  if (wrong.length > 0) throw new Error(`The table of access and the queues: ${wrong.join(', ')}`);
  const found = queues.flatMap((queue) => {
    const rule = rows.get(`job ${queue}`);
    return rule ? [[queue, rule] as const] : [];
  });
  return Object.fromEntries(found) as Record<Q, Rule>;
}
