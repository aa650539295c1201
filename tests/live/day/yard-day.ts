import { z } from 'zod';
import { addDays, dayNumber } from '#calendar/local-date.ts';
import { instantOf, isoOf, toInstant, toLocal } from '#calendar/local-time.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { readYard } from '#planning/yard/read.ts';
import { demoYard } from '#seeds/demo-yard.ts';
import type { Answer, TestApi } from '../../support/api.ts';

export const yardId = 'demo-yard';

/** Prices of so large a yard take their time; here it is told what they are of, not how good they are. */
export const demoWorker = { WORKER_PRICE_EFFORT: '48' } as const;

/** An hour of the day, in the yard, within which nobody comes or goes, or has a break. */
const HOUR = 11;

/** The zone in which it is that hour now, whatever it is elsewhere. */
const zone = ((): string => {
  const ahead = ((HOUR - new Date().getUTCHours() + 36) % 24) - 12;
  return ahead === 0 ? 'Etc/UTC' : `Etc/GMT${ahead > 0 ? '-' : '+'}${String(Math.abs(ahead))}`;
})();

const today = (): string => toLocal(Math.floor(Date.now() / 60_000), zone).date;

/**
 * The demo yard as if it were a certain day of its plan now, between eleven and noon. Wall times
 * stay what they are; dates, weekdays and the zone are moved, so that what is under way does not
 * hang on the day and the hour at which a test runs.
 */
export function demoYardOn(date: string): YardInput {
  const days = dayNumber(today()) - dayNumber(date);
  const weekday = (day: number): number => ((((day - 1 + days) % 7) + 7) % 7) + 1;
  const instant = (at: string): string => {
    const wall = toLocal(instantOf(at), demoYard.timeZone);
    return isoOf(toInstant(addDays(wall.date, days), wall.time, zone));
  };
  const moved = (key: string, value: unknown): unknown => {
    if (key === 'timeZone') return zone;
    if (key === 'weekday') return weekday(z.number().parse(value));
    if (key === 'weekdays') return z.array(z.number()).parse(value).map(weekday);
    if (typeof value !== 'string') return value;
    if (/^\d{4}-\d\d-\d\dT/.test(value)) return instant(value);
    return /^\d{4}-\d\d-\d\d$/.test(value) ? addDays(value, days) : value;
  };
  return readYard(JSON.parse(JSON.stringify(demoYard, moved)), 'the demo yard');
}

/** `Thu 14:20`, in the yard's zone. */
export function clock(at: string): string {
  const { date, time } = toLocal(instantOf(at), zone);
  const weekday = new Date(`${date}T00:00:00Z`).toUTCString().slice(0, 3);
  return `${weekday} ${time}`;
}

/** Local dates from today on. */
export function datesFrom(count: number): string[] {
  const date = today();
  return Array.from({ length: count }, (_, k) => addDays(date, k));
}

/** Whole minutes from now, UTC; negative: ago. */
export const fromNow = (minutes: number): string =>
  new Date((Math.floor(Date.now() / 60_000) + minutes) * 60_000).toISOString();

export interface Caller {
  /** Throws what the service says where it is not as `expected`. */
  readonly call: (
    who: string,
    method: string,
    path: string,
    body?: unknown,
    expected?: number,
  ) => Promise<Answer>;
  /** Sends a picture. */
  picture(who: string, path: string, png: Buffer): Promise<void>;
  /** A change of a record with the revision it has now. */
  change(who: string, path: string, body: unknown): Promise<Answer>;
}

/** People of the yard by their ids, over HTTP; `path` is below the yard. */
export function callers(api: TestApi, tokens: ReadonlyMap<string, string>): Caller {
  const tokenOf = (who: string): string => tokens.get(who) ?? '';
  const call: Caller['call'] = async (who, method, path, body, expected) => {
    const sending = { token: tokenOf(who), ...(body === undefined ? {} : { body }) };
    const answer = await api.rest(method, `/yards/${yardId}${path}`, sending);
    if (expected === undefined ? answer.status >= 300 : answer.status !== expected) {
      throw new Error(`${who} ${method} ${path}: ${JSON.stringify(answer.body)}`);
    }
    return answer;
  };
  return {
    call,
    picture: async (who, path, png) => {
      const answer = await fetch(`${api.url}/api/v1/yards/${yardId}${path}`, {
        method: 'POST',
        headers: { authorization: `Bearer ${tokenOf(who)}`, 'content-type': 'image/png' },
        body: Uint8Array.from(png),
      });
      if (answer.status !== 201) throw new Error(`${who} POST ${path}: ${await answer.text()}`);
    },
    change: async (who, path, body) => {
      const { headers } = await call(who, 'GET', path);
      const answer = await api.rest('PATCH', `/yards/${yardId}${path}`, {
        token: tokenOf(who),
        body,
        headers: { 'if-match': headers.get('etag') ?? '' },
      });
      if (answer.status !== 200)
        throw new Error(`${who} PATCH ${path}: ${JSON.stringify(answer.body)}`);
      return answer;
    },
  };
}

export const idOf = ({ body }: Answer): string => z.string().parse(body.id);
