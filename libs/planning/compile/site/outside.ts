import type { Activity, Release, SlotList, Stock } from '#scheduling/model/problem.ts';
import type { Task } from '../../workload/workload.ts';
import type { Job } from '../../yard/boats.ts';
import type { Slot } from '../../yard/outside.ts';
import type { Yard } from '../../yard/yard.ts';
import { endsOf } from '../../workload/ends.ts';
import { PER_CENT } from '../frame/money.ts';
import type { Frame } from '../frame/time.ts';

/** Parts of a stock's unit in which the engine counts. */
const FINENESS = 1000;

/** What a task takes of a stock, rounded up, and what there is, rounded down: whole thousandths. */
export const taken = (amount: number): number => Math.ceil(amount * FINENESS - 1e-6);

export const stocksOf = (yard: Yard): Stock[] =>
  yard.stocks.map(({ id, total }) => ({
    id,
    total: Math.floor(total * FINENESS + 1e-6),
    source: `stock:${id}`,
  }));

/** The engine's slots of a list, with the place of each in the yard's list. */
export interface Slots {
  readonly lists: readonly SlotList[];
  readonly places: readonly (readonly number[])[];
}

/** Slots that lie in the plan's time, by start; what is booked costs no more and needs no notice. */
export function slotsOf(yard: Yard, frame: Frame): Slots {
  const found = yard.slotLists.map(({ slots }) =>
    slots
      .map((slot, place) => ({
        place,
        slot,
        start: Math.max(0, frame.minuteOf(slot.from)),
        end: Math.min(frame.horizon, frame.minuteOf(slot.to)),
      }))
      .filter(({ start, end }) => start < end)
      .sort((a, b) => a.start - b.start || a.end - b.end || a.place - b.place),
  );
  const bookBy = ({ from, noticeHours, booked }: Slot): number =>
    booked ? frame.horizon : frame.minuteOf(from) - noticeHours * 60;
  return {
    lists: yard.slotLists.map(({ id }, k) => ({
      id,
      slots: found[k].map(({ slot, start, end }) => ({
        start,
        end,
        cost: slot.booked ? 0 : slot.price * PER_CENT,
        bookBy: bookBy(slot),
      })),
      source: `slot-list:${id}`,
    })),
    places: found.map((list) => list.map(({ place }) => place)),
  };
}

/** What holds tasks back until a moment, from the yard's refits, deliveries and words. */
export function releases(yard: Yard, frame: Frame): (task: Task) => Release[] {
  const jobs = new Map<string, { readonly job: Job; readonly first: ReadonlySet<string> }>();
  const boats = new Map<string, number>();
  for (const refit of yard.boats.flatMap((boat) => boat.refits)) {
    boats.set(refit.id, frame.minuteOf(refit.release));
    for (const job of refit.parts.flatMap((part) => part.jobs)) {
      const procedure = yard.procedures.find(({ id }) => id === job.procedure);
      const first = procedure === undefined ? [] : endsOf(procedure).first;
      jobs.set(job.id, { job, first: new Set(first) });
    }
  }
  const arrives = new Map(
    yard.deliveries.map(({ id, expected }) => [id, frame.minuteOf(expected)]),
  );
  return (task) => {
    const found: Release[] = [
      { at: boats.get(task.refitId) ?? 0, kind: 'boat', source: `refit:${task.refitId}` },
      { at: frame.now, kind: 'now', source: 'now' },
    ];
    const known = jobs.get(task.jobId);
    for (const { delivery, step } of known?.job.waitsFor ?? []) {
      if (step === null ? known?.first.has(task.stepId) !== true : step !== task.stepId) continue;
      const at = arrives.get(delivery) ?? 0;
      found.push({ at, kind: 'delivery', source: `delivery:${delivery}` });
    }
    for (const { step, expected } of known?.job.words ?? []) {
      if (step !== task.stepId) continue;
      found.push({ at: frame.minuteOf(expected), kind: 'word', source: `word:${task.id}` });
    }
    return found.filter(({ at }) => at > 0);
  };
}

/** The last of what holds an activity back. */
export const releasedAt = (activity: Activity): number =>
  activity.releases.reduce((latest, { at }) => Math.max(latest, at), 0);
