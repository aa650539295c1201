import { beforeAll } from 'vitest';
import { addDays, weekStart } from '#calendar/local-date.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { testApi, type TestApiOptions } from './api.ts';
import { testDatabase } from './database.ts';
import { makeYard } from './plan-runs.ts';
import { people, type SmallYardApi } from './small-yard-api.ts';
import { smallYard } from './small-yard.ts';

/** The Monday after next: whatever the day of the test, the yard's time has not come. */
export const comingMonday = addDays(weekStart(new Date().toISOString().slice(0, 10)), 14);

/** A day of the yard's weeks, 0 the first Monday, and a time of it in UTC. */
export const comingDay = (day: number, time = '10:00'): string =>
  `${addDays(comingMonday, day)}T${time}:00Z`;

/** The small yard, planned from the Monday after next on: what the foreman sets lies ahead. */
function comingYard(): YardInput {
  const yard = smallYard();
  const release = comingDay(0, '07:00');
  const later = <T extends { readonly refits?: readonly object[] | undefined }>(boat: T): T => ({
    ...boat,
    refits: boat.refits?.map((refit) => ({ ...refit, release, promised: comingDay(18, '16:00') })),
  });
  return {
    ...yard,
    // No summer time comes between.
    timeZone: 'Etc/UTC',
    planFrom: release,
    outdoor: yard.outdoor && { ...yard.outdoor, from: comingDay(0, '00:00') },
    boats: yard.boats?.map(later),
  };
}

/** The service with it, as `smallYardApi` gives it. */
export function comingYardApi(options: TestApiOptions = {}): SmallYardApi {
  const database = testDatabase();
  const api = testApi(database, options);
  const tokens = { foreman: '', builder: '', owner: '', stranger: '' };
  beforeAll(async () => {
    for (const who of ['foreman', 'builder', 'owner', 'stranger'] as const) {
      await api.addAccount(people[who]);
      tokens[who] = await api.signIn(people[who]);
    }
    await makeYard(api, comingYard(), tokens.foreman);
  });
  return { api, database, tokens };
}
