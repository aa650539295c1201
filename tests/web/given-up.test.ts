import { expect, test } from 'vitest';
import { addDays } from '#calendar/local-date.ts';
import { toLocal } from '#calendar/local-time.ts';
import { inYard, service } from '#persistence/client.ts';
import { loadState, everything } from '#persistence/live/yard-state.ts';
import { lockWork } from '#persistence/workload/store.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import { giveUpWindow } from '../../apps/worker/src/plan-runs/replan/hopeless-window.ts';
import { axeFaults, shot, sidewaysScroll } from '../support/browser.ts';
import { buildersYard, heron, mailOf, petrel, press, rail, soon } from './builders-yard.ts';

/** On the phone: a window that no plan keeps, while it is still open. */
const yard = buildersYard(withWiped);
const { database, screens, stands } = yard;
const [wipe, coat] = ['coaming-wipe.wipe', 'coaming-wipe.coat'];

type Part = NonNullable<
  NonNullable<NonNullable<YardInput['boats']>[number]['refits']>[number]['parts']
>[number];

const part = (id: string, name: string, procedure: string): Part => ({
  ...{ id, name, space: 'hull', areaM2: 2 },
  jobs: [{ id: `${id}-wipe`, procedure }],
});

/**
 * A coaming and a locker of Petrel are wiped, and within the hour have to be coated; what the locker gets
 * is Nell's work, who is away.
 */
function withWiped(draft: YardInput): YardInput {
  const { procedures = [], boats = [], people = [], skills = [] } = draft;
  const [panel] = procedures;
  const [layUp, fair] = panel.steps;
  const effort = { fixed: 20, perM2: 0, source: 'invented' };
  const wiped = (id: string, name: string, skill: string) => ({
    ...{ ...panel, id },
    steps: [
      {
        ...fair,
        ...{ id: 'wipe', name: `wipe the ${name}`, air: 'clean' as const, tools: [], prepares: [] },
        effort,
      },
      { ...layUp, id: 'coat', name: `coat the ${name}`, skill, effort },
    ],
    links: [
      {
        ...{ id: 'next', from: 'wipe', to: 'coat' },
        opens: { kind: 'after' as const, minutes: 0 },
        closes: { kind: 'after' as const, minutes: 60 },
      },
    ],
  });
  const [petrel, ...others] = boats;
  const refits = petrel.refits?.map((refit) => ({
    ...refit,
    parts: [
      ...(refit.parts ?? []),
      part('coaming', 'Coaming', 'wiped'),
      part('locker', 'Locker', 'wiped-for-nell'),
    ],
  }));
  const bram = people.find(({ id }) => id === 'bram');
  if (bram === undefined) throw new Error('the yard has nobody "bram"');
  const today = toLocal(Math.floor(Date.now() / 60_000), 'Europe/London').date;
  const nell = {
    ...bram,
    ...{ id: 'nell', name: 'Nell', email: null },
    abilities: [{ skill: 'gelcoating', level: 2 }],
    exceptions: [-1, 0, 1, 2].map((days) => ({ date: addDays(today, days), shifts: [] })),
  };
  return {
    ...draft,
    skills: [...skills, { id: 'gelcoating', name: 'Gelcoating' }],
    people: [...people, nell],
    procedures: [
      ...procedures,
      wiped('wiped', 'coaming', layUp.skill ?? ''),
      wiped('wiped-for-nell', 'locker', 'gelcoating'),
    ],
    boats: [{ ...petrel, refits }, ...others],
  };
}

/** As the worker does once it is proved that nobody can come in time. */
const giveUp = (): Promise<void> =>
  inYard(database.service, service(yard.id), async (tx) => {
    await lockWork(tx, yard.id);
    const state = await loadState(tx, yard.id, null, everything);
    const [link] = state.workload.links.filter(({ from, to }) => from === wipe && to === coat);
    const tell = await giveUpWindow(tx, state, [link.id], new Date());
    expect(tell).not.toBeNull();
    await tell?.();
  });

test('what was given up is offered until it shuts, and whoever takes it needs no new wiping', async () => {
  // Nothing else is there to be taken up first.
  for (const task of [petrel, heron, rail, 'locker-wipe.wipe', wipe])
    await yard.finish('bram', task);
  await giveUp();
  const page = await screens.signedIn(mailOf('bram'), { width: 360 });
  await page.goto(yard.now);
  const first = page.getByRole('article').first();
  await first.getByRole('heading', { name: 'coat the coaming' }).waitFor({ timeout: 40_000 });
  await first.getByText(/^Window open until /).waitFor();
  await first
    .getByText(
      /^Still open: begun by .*, it does not need “Vacuum and wipe again just before the coat”/,
    )
    .waitFor();
  const again = page.getByRole('button', { name: /^Vacuum and wipe again/ });
  expect(await again.innerText()).toMatch(/Needed only if “coat the coaming” is not begun by /);
  expect(await axeFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);
  await shot(page, 'now-given-up');
  // Its mix is there before it is taken.
  await press(page, 'What to know about coat the coaming');
  const sheet = page.getByRole('dialog');
  await sheet.getByText('264 g').first().waitFor();
  await sheet.getByText(/^Still open: /).waitFor();
  await sheet.getByRole('button', { name: 'Claim', exact: true }).click();
  await first.getByText('claimed by you').waitFor();
  await soon(() => stands(coat)).toBe('claimed');
  await soon(() => again.count()).toBe(0);
});

test('wiping that leads nowhere is offered with a warning, where it is listed and where it is taken', async () => {
  const warning = /^Done now, it leads nowhere: “coat the locker” has to begin by .* are at work/;
  const page = await screens.signedIn(mailOf('bram'), { width: 360 });
  await page.goto(yard.now);
  await page.getByRole('heading', { level: 3 }).first().waitFor({ timeout: 40_000 });
  const row = page.getByRole('button', { name: /^wipe the locker/ });
  const all = page.getByRole('button', { name: /^Show all/ }).first();
  if ((await row.count()) === 0) await all.click();
  await row.getByText(warning).waitFor();
  const other = page.getByRole('button', { name: /^wipe the coaming/ });
  expect(await other.count()).toBe(1);
  expect(await other.innerText()).not.toContain('leads nowhere');
  await row.click();
  const sheet = page.getByRole('dialog');
  await sheet.getByText(warning).waitFor();
  expect(await axeFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);
  await shot(page, 'now-leads-nowhere');
  // It is theirs to judge.
  await sheet.getByRole('button', { name: 'Claim', exact: true }).click();
  await soon(() => stands('locker-wipe.wipe')).toBe('claimed');
});
