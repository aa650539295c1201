import type { Page } from 'playwright-core';
import { beforeAll, beforeEach, expect } from 'vitest';
import { toLocal } from '#calendar/local-time.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { type Answer, testApi, type TestApi } from '../support/api.ts';
import { type TestScreens, testScreens } from '../support/browser.ts';
import { cureYard } from '../support/cure-yard.ts';
import { testDatabase, type TestDatabase } from '../support/database.ts';
import { publishPlan } from '../support/published-plan.ts';
import { roundTheClock } from '../support/round-the-clock.ts';
import { twoBoats } from '../support/two-boats.ts';

const crew = ['ines', 'bram', 'anke', 'cato'] as const;
type Name = (typeof crew)[number];
export const mailOf = (name: Name): string => `${name}@yard.test`;

/** The wet work that the boats need first, the same of the other boat, and dry work. */
export const [petrel, heron, rail] = ['petrel-panel.lay-up', 'heron-panel.lay-up', 'rail-rub.rub'];

export interface BuildersYard {
  readonly api: TestApi;
  readonly database: TestDatabase;
  readonly screens: TestScreens;
  /** Of the yard of the test that runs. */
  readonly id: string;
  /** The builder's page of that yard. */
  readonly now: string;
  /** Somebody's call of the service, below the yard. */
  readonly call: (who: Name, method: string, path: string, body?: unknown) => Promise<Answer>;
  /** How a task stands. */
  readonly stands: (task: string) => Promise<unknown>;
  /** Somebody takes a task at the service; the claim's id. */
  readonly claim: (who: Name, task: string, at?: string) => Promise<string>;
  /** Somebody takes a task at the service and is through with it. */
  readonly finish: (who: Name, task: string) => Promise<void>;
}

/** What a test needs besides. */
type Change = (yard: YardInput) => YardInput;

/**
 * For each test a yard of its own in which there is work at every hour: on two boats a panel is to
 * be laid up, of an epoxy that is reckoned by hand, and then faired, and a rail to be rubbed down;
 * Cato is foreman and builder. Its plan is published.
 */
export function buildersYard(change: Change = (yard) => yard): BuildersYard {
  const database = testDatabase();
  const api = testApi(database);
  const screens = testScreens(api);
  const tokens = new Map<Name, string>();
  let number = 0;
  const idNow = (): string => `yard-${String(number)}`;
  const call: BuildersYard['call'] = (who, method, path, body) =>
    api.rest(method, `/yards/${idNow()}${path}`, {
      token: tokens.get(who) ?? '',
      ...(body === undefined ? {} : { body }),
    });
  beforeAll(async () => {
    for (const name of crew) await api.addAccount(mailOf(name));
    for (const name of crew) tokens.set(name, await api.signIn(mailOf(name)));
  });
  beforeEach(async () => {
    number += 1;
    const token = tokens.get('ines') ?? '';
    const made = await api.rest('POST', '/yards', { token, body: change(yardOf(idNow())) });
    expect(made).toMatchObject({ status: 201 });
    await api.join(idNow());
    await publishPlan(database, idNow());
  });
  const claim: BuildersYard['claim'] = async (who, task, at) => {
    const times = at === undefined ? {} : { at };
    const { status, body } = await call(who, 'POST', `/tasks/${task}/claims`, times);
    expect([status, body]).toMatchObject([201, { id: expect.any(String) as string }]);
    return String(body.id);
  };
  return {
    api,
    database,
    screens,
    get id() {
      return idNow();
    },
    get now() {
      return `/yards/${idNow()}/now`;
    },
    call,
    stands: async (task) => (await call('ines', 'GET', `/tasks/${task}`)).body.stands,
    claim,
    finish: async (who, task) => {
      const id = await claim(who, task);
      for (const step of ['start', 'finish']) {
        expect(await call(who, 'POST', `/claims/${id}/${step}`)).toMatchObject({ status: 200 });
      }
    },
  };
}

function yardOf(id: string): YardInput {
  const today = toLocal(Math.floor(Date.now() / 60_000), 'Europe/London').date;
  const yard = twoBoats(today);
  const { materials, fabrics, procedures = [], spaces } = cureYard();
  const [panel] = procedures;
  const [, fair] = panel.steps;
  const rub = {
    ...panel,
    id: 'rub',
    name: 'Rub down',
    steps: [{ ...fair, id: 'rub', name: 'rub down', prepares: [] }],
    links: [],
  };
  const people = (yard.people ?? []).map((person) =>
    person.id === 'cato' ? { ...person, roles: ['foreman' as const, 'builder' as const] } : person,
  );
  const boats = (yard.boats ?? []).map((boat) => (boat.id === 'heron' ? withRail(boat) : boat));
  const all = { ...yard, id, people, materials, fabrics, spaces, boats };
  return roundTheClock({ ...all, procedures: [...procedures, rub] });
}

type Boat = NonNullable<YardInput['boats']>[number];

function withRail({ refits = [], ...boat }: Boat): Boat {
  const [winter] = refits;
  const jobs = [{ id: 'rail-rub', procedure: 'rub' }];
  const part = { id: 'rail', name: 'Toe rail', space: 'hull', areaM2: 1, jobs };
  return { ...boat, refits: [{ ...winter, parts: [...(winter.parts ?? []), part] }] };
}

export const press = (page: Page, name: string | RegExp): Promise<void> =>
  page
    .getByRole('button', { name, exact: typeof name === 'string' })
    .first()
    .click();

/** Asked again and again until it is so: the machine may be busy. */
export const soon = <T>(ask: () => T | Promise<T>) => expect.poll(ask, { timeout: 20_000 });
