import { z } from 'zod';
import { alarmKindSchema } from '#live/alarms/kinds.ts';
import type { Event } from '#persistence/generated/client.ts';
import type { RungAlarm } from './alarms.contract.ts';

/** The event's kind. */
export const rungKind = 'alarm-rung';

const payloadSchema = z.object({
  kind: alarmKindSchema,
  taskId: z.string().nullable(),
  audience: z.array(z.string()),
  words: z.string(),
  at: z.iso.datetime(),
});

/** What an event tells `memberId` of; null: another sort of event, or not for them. */
export function rungFor(
  { id, kind, subjectId, payload }: Pick<Event, 'id' | 'kind' | 'subjectId' | 'payload'>,
  memberId: string,
): RungAlarm | null {
  if (kind !== rungKind) return null;
  const read = payloadSchema.safeParse(payload);
  if (!read.success || !read.data.audience.includes(memberId)) return null;
  const { kind: what, taskId, words, at } = read.data;
  return { eventId: String(id), id: subjectId, kind: what, taskId, words, rungAt: at };
}
