import { z } from 'zod';
import { alarmsOf } from '#live/alarms/alarms.ts';
import type { AddedPreparation } from '#live/alarms/site.ts';
import { armAlarms as arm, voidMissed } from '#persistence/live/alarms.ts';
import { standingReworks } from '#persistence/live/reworks.ts';
import { scheduleAlarms } from '#persistence/queue/alarms.ts';
import { alarmsInput } from '../alarms/input.ts';
import type { FollowerStep, Following } from './following.ts';

const preparationSchema = z.object({
  reworkId: z.string(),
  cause: z.literal('missed-window'),
  taskId: z.string(),
  words: z.string(),
});

/** Preparations that the events tell of. */
function addedBy(events: Following['events']): AddedPreparation[] {
  return events.flatMap(({ kind, payload }) => {
    if (kind !== 'rework-made') return [];
    const read = preparationSchema.safeParse(payload);
    return read.success ? [read.data] : [];
  });
}

const withdrawnSchema = preparationSchema.pick({ cause: true, taskId: true });

/** Tasks whose preparations, as the events tell, were taken back since their windows had been kept. */
function keptBy(events: Following['events']): string[] {
  return events.flatMap(({ kind, payload }) =>
    kind === 'rework-undone' ? (withdrawnSchema.safeParse(payload).data?.taskId ?? []) : [],
  );
}

/** Of such records nothing follows that somebody is to be told at another moment. */
const beside: ReadonlySet<string> = new Set([
  'alarm',
  'plan-run',
  'candidate',
  'proposal',
  'calendar',
]);

/**
 * Arms what the work, as it stands now, asks to be told of; moves what is told at another moment
 * since clocks run differently, and takes back what will not be.
 */
export const armAlarms: FollowerStep = async ({ tx, yardId, now, events, states, boss }) => {
  if (events.length > 0 && events.every(({ subject }) => beside.has(subject))) return;
  const state = await states.at(tx, yardId);
  const made = addedBy(events);
  const still = await standingReworks(
    tx,
    yardId,
    made.map(({ reworkId }) => reworkId),
  );
  const added = made.filter(({ reworkId }) => still.has(reworkId));
  await voidMissed(tx, yardId, keptBy(events));
  const wanted = alarmsOf({ ...(await alarmsInput(tx, yardId, state, now)), added });
  const due = await arm(tx, { yardId, now, wanted });
  await scheduleAlarms(boss, tx, yardId, due, now);
};
