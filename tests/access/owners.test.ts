import { beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { addDays, weekStart } from '#calendar/local-date.ts';
import { toLocal } from '#calendar/local-time.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import { testApi } from '#tests/support/api.ts';
import { testDatabase } from '#tests/support/database.ts';
import { publishPlan } from '#tests/support/published-plan.ts';
import { twoBoats } from '#tests/support/two-boats.ts';

/** What an owner reads of a yard in which another owner's boat shares the bay. */
const database = testDatabase();
const api = testApi(database);
const zone = 'Europe/London';
const monday = weekStart(toLocal(Math.floor(Date.now() / 60_000), zone).date);

const tokens = { ines: '', odile: '', otto: '' };
let sheet: PlanSheet | undefined;

beforeAll(async () => {
  for (const name of ['ines', 'odile', 'otto'] as const) {
    await api.addAccount(`${name}@yard.test`);
    tokens[name] = await api.signIn(`${name}@yard.test`);
  }
  // A week on from this one, so that the plan begins with this week's Monday.
  const yard = twoBoats(addDays(monday, 7));
  for (const { refits = [] } of yard.boats ?? []) {
    for (const { parts = [] } of refits) for (const part of parts) part.space = 'bay';
  }
  const made = await api.rest('POST', '/yards', { token: tokens.ines, body: yard });
  if (made.status !== 201) throw new Error(JSON.stringify(made.body));
  await api.join('small');
  sheet = await publishPlan(database, 'small');
});

const boatSchema = z.object({
  refits: z.array(
    z.object({ thisWeek: z.array(z.object({ crew: z.array(z.string()).nullable() })) }),
  ),
  spaces: z.array(
    z.object({
      id: z.string(),
      taken: z.array(
        z.object({
          from: z.object({ at: z.string() }),
          until: z.object({ at: z.string() }),
          taskId: z.string().nullable(),
          words: z.string(),
        }),
      ),
    }),
  ),
});

async function boatOf(who: 'odile' | 'otto', boat: string) {
  const path = `/yards/small/my-boats/${boat}`;
  const { status, body } = await api.rest('GET', path, { token: tokens[who] });
  expect(status).toBe(200);
  return { text: JSON.stringify(body), ...boatSchema.parse(body) };
}

const inWeek = ({ start, finish }: PlanSheet['tasks'][number]): boolean =>
  start.local < addDays(monday, 7) && finish.local > monday;

describe('spaces', () => {
  test('the bay is taken by own work by its name, and by the other boat as "occupied"', async () => {
    const bay = sheet?.tasks.filter((task) => task.spaceId === 'bay' && inWeek(task)) ?? [];
    const own = bay.filter(({ boatId }) => boatId === 'petrel');
    const others = bay.filter(({ boatId }) => boatId === 'heron');
    expect([own.length > 0, others.length > 0]).toEqual([true, true]);

    const { spaces } = await boatOf('odile', 'petrel');
    expect(spaces.map(({ id }) => id)).toEqual(['bay']);
    const { taken } = spaces[0];
    expect(taken.filter(({ taskId }) => taskId !== null).map(({ taskId }) => taskId)).toEqual(
      own.sort((a, b) => (a.start.at < b.start.at ? -1 : 1)).map(({ id }) => id),
    );
    const occupied = taken.filter(({ taskId }) => taskId === null);
    expect(occupied.length).toBeGreaterThan(0);
    for (const { words } of occupied) expect(words).toMatch(/: occupied\.$/);
    for (const { start, finish } of others) {
      expect(occupied.some(({ from, until }) => from.at <= start.at && finish.at <= until.at)).toBe(
        true,
      );
    }
  });

  test('nothing tells that there is another boat, or whose', async () => {
    for (const [who, boat, other] of [
      ['odile', 'petrel', /heron|otto/i],
      ['otto', 'heron', /petrel|odile/i],
    ] as const) {
      expect((await boatOf(who, boat)).text).not.toMatch(other);
      const list = await api.rest('GET', '/yards/small/boats', { token: tokens[who] });
      expect(JSON.stringify(list.body)).not.toMatch(other);
    }
  });
});

describe('crew', () => {
  const crewOf = ({ refits }: z.output<typeof boatSchema>): (readonly string[] | null)[] =>
    refits.flatMap(({ thisWeek }) => thisWeek.map(({ crew }) => crew));

  async function showCrew(ownersSeeCrew: boolean): Promise<void> {
    const path = '/yards/small/access-settings';
    const { headers } = await api.rest('GET', path, { token: tokens.ines });
    const { status } = await api.rest('PATCH', path, {
      token: tokens.ines,
      body: { ownersSeeCrew },
      headers: { 'if-match': headers.get('etag') ?? '' },
    });
    expect(status).toBe(200);
  }

  test('no names, until the foreman lets owners see them, and never a wage', async () => {
    const names = new Set(sheet?.tasks.flatMap(({ crew }) => crew.map(({ name }) => name)));
    expect(names.size).toBeGreaterThan(0);
    const hidden = await boatOf('odile', 'petrel');
    expect(crewOf(hidden).length).toBeGreaterThan(0);
    expect(crewOf(hidden).every((crew) => crew === null)).toBe(true);
    for (const name of names) expect(hidden.text).not.toContain(name);

    await showCrew(true);
    const shown = await boatOf('odile', 'petrel');
    for (const crew of crewOf(shown)) {
      expect(crew?.length).toBeGreaterThan(0);
      for (const name of crew ?? []) expect(names).toContain(name);
    }
    expect(shown.text).not.toMatch(/hourlyCost|overtime/i);
    await showCrew(false);
    expect(crewOf(await boatOf('odile', 'petrel')).every((crew) => crew === null)).toBe(true);
  });
});
