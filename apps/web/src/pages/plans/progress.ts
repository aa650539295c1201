import type { Schema } from '../../api/client.ts';

export type Progress = Pick<
  Schema<'RunProgress'>,
  | 'eventId'
  | 'at'
  | 'status'
  | 'stopRequested'
  | 'iterations'
  | 'bestFinish'
  | 'bestLateness'
  | 'bestFinishes'
  | 'boundLateness'
  | 'boundFinishes'
  | 'bestMoney'
  | 'bestDisturbance'
  | 'gap'
  | 'planId'
  | 'error'
>;

/** How it stood at a second of the search, in days; null: nothing found, nothing proved. */
export interface Standing {
  readonly second: number;
  readonly best: number | null;
  readonly bound: number | null;
}

export type Rank = 'finishes' | 'lateness';

const minutesADay = 1440;
const inDays = (minutes: number | null): number | null =>
  minutes === null ? null : minutes / minutesADay;

/**
 * What was told of a search, step by step from its beginning; what changes nothing is left out, but
 * for the last, so that the line goes on for as long as the search does.
 */
export function standings(told: readonly Progress[], rank: Rank): Standing[] {
  const running = told.filter(({ status }) => status !== 'queued');
  if (running.length === 0) return [];
  const begin = Date.parse(running[0].at);
  const all = running.map((one): Standing => ({
    second: (Date.parse(one.at) - begin) / 1000,
    best: inDays(rank === 'finishes' ? one.bestFinishes : one.bestLateness),
    bound: inDays(rank === 'finishes' ? one.boundFinishes : one.boundLateness),
  }));
  return all.filter(
    ({ best, bound }, k) =>
      k === 0 || k === all.length - 1 || best !== all[k - 1].best || bound !== all[k - 1].bound,
  );
}

/**
 * `M x y H … V …`: a value holds until the next one takes its place; it begins where there is one.
 * What came with the end goes on a little beyond it, to be seen.
 */
export function steps(
  list: readonly Standing[],
  value: (one: Standing) => number | null,
  x: (second: number) => number,
  y: (value: number) => number,
): string {
  let path = '';
  let before: number | null = null;
  let isNew = false;
  for (const one of list) {
    const at = value(one);
    if (at === null) continue;
    const [px, py] = [x(one.second).toFixed(1), y(at).toFixed(1)];
    isNew = at !== before;
    before = at;
    path += path === '' ? `M ${px} ${py}` : ` H ${px} V ${py}`;
  }
  return isNew ? `${path} h ${String(beyondPx)}` : path;
}

const beyondPx = 10;
