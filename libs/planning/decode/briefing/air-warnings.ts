import { intersect } from '#calendar/intervals.ts';
import { mouldingShopReasons } from '#cure/air/moulding-shop.ts';
import { airVerdict } from '#cure/air/verdict.ts';
import { hardenerWarning } from '#cure/batch/weigh.ts';
import { celsiusAt } from '#cure/clock/series.ts';
import type { Task } from '../../workload/workload.ts';
import { turns } from '../reading/extremes.ts';
import type { MixSite } from './mix.ts';

const MOULDING_SHOP_SOURCE =
  'Iranian Classification Society, Rules for FRP Ships (2014), ch. 3, 102 (read); the material’s own sheet comes first';

/** Why the air or the surface is not as the material asks, each reason once, with the first time of it. */
function damp(task: Task, start: number, finish: number, { films, at }: MixSite): string[] {
  if (task.material === null) return [];
  const { name, limits } = films.material(task.material);
  const { air, surface, humidity } = films.climate(task.space);
  const found = new Map<string, string>();
  for (const minute of turns(surface.expected, start, finish)) {
    const place = Math.round((minute - surface.expected.start) / surface.expected.step);
    const { reasons } = airVerdict(limits, {
      surfaceC: celsiusAt(surface.expected, minute),
      airC: celsiusAt(air.expected, minute),
      humidity: humidity === null ? null : humidity[Math.min(place, humidity.length - 1)],
    });
    for (const reason of reasons) {
      // The same fault an hour later differs in its figures only.
      const kind = reason.replace(/-?\d+(\.\d+)?/g, '#');
      if (!found.has(kind)) found.set(kind, `${name}, ${at.words(minute)}: ${reason}`);
    }
  }
  return [...found.values()];
}

/** Where a laminate of polyester is laid in less than class rules ask of a moulding shop. */
function mouldingShop(task: Task, start: number, { films }: MixSite): string[] {
  if (task.material === null) return [];
  const { base, use } = films.material(task.material);
  if (use !== 'laminating' || base === 'epoxy') return [];
  const climate = films.climate(task.space);
  const reasons = mouldingShopReasons(climate, start, false);
  // That nobody measures its humidity is the material's business, which asks for it or does not.
  if (reasons.length <= (climate.humidity === null ? 1 : 0)) return [];
  return [
    `Class rules ask more of a moulding shop: ${reasons.join('; ')} [${MOULDING_SHOP_SOURCE}]`,
  ];
}

/**
 * What to look at before a wet task: cold, damp or unknown air, weather that was assumed until
 * `until`, an unusual percentage of hardener.
 */
export function airWarnings(
  task: Task,
  start: number,
  finish: number,
  until: number,
  site: MixSite,
): string[] {
  if (task.material === null) return [];
  const { films } = site;
  const { assumed } = films.climate(task.space);
  const guessed = intersect(assumed, [{ start, end: Math.max(until, finish) }]).length > 0;
  const unusual = hardenerWarning(films.material(task.material));
  return [
    ...damp(task, start, finish, site),
    ...mouldingShop(task, start, site),
    ...(guessed
      ? ['The outdoor table does not cover its cure: the same hours of the nearest day stand in']
      : []),
    ...(unusual === null ? [] : [unusual]),
  ];
}
