import { DomainError } from '#kernel/error.ts';
import type { Workload } from '#planning/workload/workload.ts';
import { circles } from '#planning/yard/circle.ts';

/** Throws `record.exists`, `record.missing` or `yard.cycle`; of circles only where something new takes part. */
export function assertSound(before: Workload, { tasks, links, choices }: Workload): void {
  assertUnique('task', tasks);
  assertUnique('link', links);
  assertUnique('choice', choices);
  const index = new Map(tasks.map(({ id }, k) => [id, k]));
  for (const { id, from, to } of links) {
    const missing = [from, to].find((end) => !index.has(end));
    if (missing === undefined) continue;
    throw new DomainError(
      'record.missing',
      `"${id}" links the task "${missing}", which is not there.`,
    );
  }
  const known = new Set(before.links.map(({ id }) => id));
  const isNew = new Set(
    links.filter(({ id }) => !known.has(id)).map(({ from, to }) => `${from} ${to}`),
  );
  if (isNew.size === 0) return;
  const arcs = links.flatMap(({ from, to, opens }) => {
    const [a, b] = [index.get(from), index.get(to)];
    return opens === null || a === undefined || b === undefined ? [] : [[a, b] as const];
  });
  for (const circle of circles(tasks.length, arcs)) {
    const ids = circle.map((k) => tasks[k].id);
    const hasNew = ids.some((id, k) => isNew.has(`${id} ${ids[(k + 1) % ids.length]}`));
    if (!hasNew) continue;
    const names = [...circle, circle[0]].map((k) => `"${tasks[k].name}" (${tasks[k].id})`);
    throw new DomainError('yard.cycle', `they wait for each other: ${names.join(' before ')}`);
  }
}

function assertUnique(kind: string, records: readonly { readonly id: string }[]): void {
  const seen = new Set<string>();
  for (const { id } of records) {
    if (seen.has(id)) throw new DomainError('record.exists', `There is a ${kind} "${id}" already.`);
    seen.add(id);
  }
}
