import { inYard, service } from '#persistence/client.ts';
import { saveTasks } from '#persistence/workload/store.ts';
import { saveYard } from '#persistence/yard/store.ts';
import { jobOf, smallYard } from '#planning/testing/small-yard.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { yardSchema, type Yard } from '#planning/yard/yard.ts';
import type { TestDatabase } from './database.ts';
import { planted } from './planted.ts';

/**
 * The small yard. Of the resin, at 20 °C: bonds from 120 to 360 min, may be sanded after 960. Coat one was
 * finished on Monday at 10:00 and begun an hour before, so its window shuts at 15:00; coat two takes an
 * hour.
 */
export function yardNamed(id: string, change: (draft: Yard) => void): Yard {
  const yard = smallYard(change);
  return yardSchema.parse({
    ...yard,
    id,
    people: yard.people.map((one) => ({ ...one, email: null })),
  });
}

/** No other way than the bond. */
export function bondOnly(draft: Yard): void {
  const [procedure] = draft.procedures;
  procedure.choices = [];
  procedure.steps = procedure.steps.filter((step) => step.id !== 'key');
  procedure.links = procedure.links.filter(({ id }) => id === 'sand-one' || id === 'bond');
  draft.boats[0].refits[0].parts[0].jobs = [jobOf('lid')];
}

/** Stores the yard, with its first coat done in each of the jobs. */
export async function coatOneDone(
  database: TestDatabase,
  yard: Yard,
  jobs: readonly string[] = ['lid'],
): Promise<void> {
  await inYard(
    database.service,
    service(yard.id),
    async (tx) => {
      await saveYard(tx, yard);
      await saveTasks(tx, yard.id, makeWorkload(yard));
    },
    { timeout: 60_000 },
  );
  const day = '2026-11-02T';
  const begun = jobs.flatMap((job): [string, string, string][] => [
    [`${job}.sand`, `${day}08:00:00Z`, `${day}08:50:00Z`],
    [`${job}.one`, `${day}09:00:00Z`, `${day}10:00:00Z`],
  ]);
  for (const [id, startedAt, finishedAt] of begun)
    await database.owner.task.update({
      where: { yardId_id: { yardId: yard.id, id } },
      data: { state: 'done', startedAt, finishedAt },
    });
  await planted(database, yard.id);
}
