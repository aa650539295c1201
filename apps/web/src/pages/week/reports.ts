import type { YardEvent } from '../../api/live.ts';
import { isOfNow, type Model, type PictureTask } from './model.ts';
import { isDuring } from './spans.ts';

/** What an event of work tells of the task after it, as much of it as shows. */
export interface Life {
  readonly state: Exclude<PictureTask['now']['state'], 'claimed'>;
  readonly startedAt: string | null;
  readonly finishedAt: string | null;
  readonly crew: readonly string[];
  readonly claim: { readonly status: string; readonly crew: readonly string[] } | null;
}

/** Of an event of work its payload holds the life after it (`libs/live/life`). */
export function lifeIn({ subject, payload }: YardEvent): Life | undefined {
  if (subject !== 'task') return undefined;
  const { after } = JSON.parse(payload) as { readonly after?: Life };
  return after !== undefined && 'state' in after ? after : undefined;
}

/** What can happen in a yard without a change to the picture. */
const elsewhere = /^(plan-run|alarm|reading|proposal|candidate|observation|push|report)/;

/**
 * Whether the picture has to be read again. A report of work says all that it changes of a task that
 * is drawn; one of another week may come into the days of now. No model: it is just being read.
 */
export function changesPicture(event: YardEvent, model: Model | undefined): boolean {
  if (elsewhere.test(event.kind)) return false;
  if (lifeIn(event) === undefined || model === undefined) return true;
  return isOfNow(model, Date.parse(model.picture.at)) && !model.byId.has(event.subjectId);
}

/** Whether its days have come or are over since it was read: what is drawn of other weeks is different then. */
export const isOutlived = ({ picture, whole }: Model, moment: number): boolean =>
  isDuring(whole, moment) !== isDuring(whole, Date.parse(picture.at));
