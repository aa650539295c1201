import { z } from 'zod';
import type { Caller } from './yard-day.ts';

const when = z.object({ at: z.string() });
const windowSchema = z.looseObject({ toTask: z.string(), closes: when.nullable() });
export const sheetSchema = z.object({
  id: z.string(),
  tasks: z.array(
    z.looseObject({
      id: z.string(),
      name: z.string(),
      partId: z.string(),
      part: z.string(),
      spaceId: z.string(),
      air: z.string(),
      material: z.string().nullable(),
      boat: z.string(),
      skill: z.string().nullable(),
      start: when,
      finish: when,
      crew: z.array(z.object({ personId: z.string(), name: z.string() })),
      windows: z.array(windowSchema),
    }),
  ),
});
export type Sheet = z.output<typeof sheetSchema>;
export type SheetTask = Sheet['tasks'][number];

const takenSchema = z.object({
  items: z.array(
    z.looseObject({
      outcome: z.string(),
      reasons: z.array(z.looseObject({ message: z.string() })),
      report: z.looseObject({ id: z.string() }).nullable(),
    }),
  ),
});

/** What a phone sends: one command of its owner, at a moment. */
export async function report(
  { call }: Caller,
  who: string,
  command: Readonly<Record<string, unknown>>,
  at: string,
): Promise<{ outcome: string; why: string; id: string | null }> {
  const body = { reports: [{ key: crypto.randomUUID(), at, command }] };
  const { items } = takenSchema.parse((await call(who, 'POST', '/reports', body)).body);
  const [{ outcome, reasons, report: kept }] = items;
  const why = reasons.map(({ message }) => message).join(' ');
  return { outcome, why, id: kept?.id ?? null };
}

export interface Worked {
  /** Ids of what was done. */
  readonly done: string[];
  /** Those that were not, each with what kept it. */
  readonly kept: { readonly task: SheetTask; readonly why: string }[];
}

/**
 * The past as the plan had it: every task that should be over by now is claimed, begun and finished
 * at its moments by the people planned for it, but those of `without`. What waits for one of them
 * is refused by the service, and left.
 */
export async function workedToPlan(
  caller: Caller,
  sheet: Sheet,
  without: ReadonlySet<string>,
  foreman: string,
): Promise<Worked> {
  const now = Date.now();
  const past = sheet.tasks.filter(
    ({ id, finish }) => Date.parse(finish.at) <= now && !without.has(id),
  );
  const moments = past
    .flatMap((task) => [
      { task, what: 'start' as const, at: task.start.at },
      { task, what: 'finish' as const, at: task.finish.at },
    ])
    .sort(
      (a, b) =>
        Date.parse(a.at) - Date.parse(b.at) ||
        (a.what === b.what
          ? 0
          : a.task === b.task
            ? a.what === 'start'
              ? -1
              : 1
            : a.what === 'finish'
              ? -1
              : 1),
    );
  const worked: Worked = { done: [], kept: [] };
  const left = new Set<string>();
  for (const { task, what, at } of moments) {
    if (left.has(task.id)) continue;
    const crew = task.crew.map(({ personId }) => personId);
    const who = crew.at(0) ?? foreman;
    const taskId = task.id;
    const commands =
      what === 'start'
        ? [
            { kind: 'claim', taskId, ...(crew.length > 0 ? { crew } : {}) },
            { kind: 'start', taskId },
          ]
        : [{ kind: 'finish', taskId }];
    for (const command of commands) {
      const { outcome, why, id } = await report(caller, who, command, at);
      if (outcome === 'done') continue;
      const note = 'It was not begun after all.';
      await caller.call(foreman, 'POST', `/reports/${id ?? ''}/settle`, { as: 'dismissed', note });
      left.add(taskId);
      worked.kept.push({ task, why });
      break;
    }
    if (what === 'finish' && !left.has(taskId)) worked.done.push(taskId);
  }
  return worked;
}

export const publishedOf = async (caller: Caller, who: string): Promise<Sheet> =>
  sheetSchema.parse((await caller.call(who, 'GET', '/published-plan')).body);
