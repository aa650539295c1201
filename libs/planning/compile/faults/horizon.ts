import { fault, type Fault } from '#kernel/error.ts';
import type { Task } from '../../workload/workload.ts';
import { pathOf } from '../../yard/path.ts';
import type { Yard } from '../../yard/yard.ts';
import type { Begun } from '../work/frozen.ts';
import type { Frame } from '../frame/time.ts';

/** Refits, deliveries and words that work waits for and that come after the plan's horizon. */
export function horizonFaults(
  yard: Yard,
  tasks: readonly Task[],
  begun: ReadonlyMap<string, Begun>,
  frame: Frame,
): Fault[] {
  const waiting = tasks.filter(({ id }) => !begun.has(id));
  const refits = new Set(waiting.map(({ refitId }) => refitId));
  const jobs = new Set(waiting.map(({ jobId }) => jobId));
  const late = (instant: string): boolean => frame.minuteOf(instant) >= frame.horizon;
  const found: Fault[] = [];
  const add = (path: readonly PropertyKey[], value: string, what: string, cure: string): void => {
    const end = `the plan ends ${String(yard.horizonDays)} days after ${frame.origin.replace('.000Z', 'Z')}`;
    found.push(
      fault('yard.horizon', pathOf(path), `${what} ${value}, and ${end}`, { value, cure }),
    );
  };
  const sooner = 'or raise horizonDays.';
  const deliveries = new Set<string>();
  yard.boats.forEach(({ refits: list }, b) => {
    list.forEach((refit, r) => {
      const path = ['boats', b, 'refits', r];
      if (refits.has(refit.id) && late(refit.release)) {
        const what = `${refit.name} is only released on`;
        add([...path, 'release'], refit.release, what, `Release it earlier, ${sooner}`);
      }
      refit.parts.forEach((part, p) => {
        part.jobs.forEach((job, j) => {
          if (!jobs.has(job.id)) return;
          for (const { delivery } of job.waitsFor) deliveries.add(delivery);
          job.words.forEach(({ step, expected }, w) => {
            const given = begun.has(`${job.id}.${step}`);
            if (given || !late(expected)) return;
            const at = [...path, 'parts', p, 'jobs', j, 'words', w, 'expected'];
            add(
              at,
              expected,
              `the word that ${job.id}.${step} waits for is expected on`,
              `Ask sooner, ${sooner}`,
            );
          });
        });
      });
    });
  });
  yard.deliveries.forEach(({ id, name, expected }, d) => {
    if (!deliveries.has(id) || !late(expected)) return;
    add(
      ['deliveries', d, 'expected'],
      expected,
      `${name} is expected on`,
      `Order sooner, ${sooner}`,
    );
  });
  return found;
}
