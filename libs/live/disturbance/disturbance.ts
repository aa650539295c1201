import { workEventKindSchema, workPayloadSchema } from '../life/life.ts';
import { type DisturbanceReason, reasonOf } from './kinds.ts';
import { offPlan } from './off-plan.ts';
import {
  type DisturbedYard,
  type Happened,
  nameIn,
  otherWords,
  recordWords,
  taskWords,
  weatherWords,
} from './words.ts';

export interface Disturbance {
  readonly reason: DisturbanceReason;
  /** A sentence of its own. */
  readonly words: string;
}

/**
 * What an event disturbs of the plans, in words; null where they go on as they are: it happened as
 * planned, give or take the tolerance, or concerns no plan. Whether a plan really has to change,
 * of `records` and `weather`, only planning anew can tell.
 */
export function disturbanceOf(event: Happened, yard: DisturbedYard): Disturbance | null {
  const reason = reasonOf(event.kind);
  if (reason === null) return null;
  const report = workEventKindSchema.safeParse(event.kind);
  if (event.subject === 'task' && report.success) {
    const payload = workPayloadSchema.safeParse(event.payload);
    if (!payload.success) return null;
    const nameOf = (person: string): string => nameIn(yard, 'person', person);
    const words = offPlan(report.data, event.subjectId, payload.data, yard.plans, nameOf);
    return words === null
      ? null
      : { reason, words: `${taskWords(yard, event.subjectId)} ${words}.` };
  }
  const words =
    reason === 'weather'
      ? weatherWords(yard, event)
      : (recordWords(yard, event) ?? otherWords(yard, event));
  return words === null ? null : { reason, words };
}
