import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, test } from 'vitest';
import { testScreens } from '../support/browser.ts';
import { type Look, lookedAt, moving, type Seat } from './looks/faults.ts';
import { emailOf, livelyYard, type Named } from './looks/lively-yard.ts';
import { patternsOfRoutes } from './looks/routes.ts';
import { goTo, watchRequests } from './looks/settled.ts';

/**
 * Every page of a yard in the middle of its work, at 360 and 1440 px (LONG_TESTS=1: 768 too), in
 * light and dark: a picture of each in `.curewright/screens`, to be looked at, and what a machine can
 * say of it: axe, the width, headings, targets for thumbs, motion, and a walk by keyboard.
 */
const { api, named } = livelyYard();
const screens = testScreens(api);

type Who = 'nobody' | 'maelle' | 'tugdual' | 'odile';

/** A telephone and a desk of each, used for all of their pages. */
const seats = new Map<Who, readonly Seat[]>();
const phoneWidth = 360;
const deskWidths = process.env['LONG_TESTS'] === '1' ? [768, 1440] : [1440];

const open = async (who: Who, width: number, reducedMotion = true): Promise<Page> => {
  const look = {
    width,
    reducedMotion,
    // Of the page that says so.
    allow: /status of 404 .*\/no-such-page\)/,
    more: { serviceWorkers: 'block' },
  } as const;
  const page = await (who === 'nobody' ? screens.page(look) : screens.signedIn(emailOf(who), look));
  watchRequests(page);
  return page;
};

beforeAll(async () => {
  for (const who of ['nobody', 'maelle', 'tugdual', 'odile'] as const) {
    seats.set(who, [
      { page: await open(who, phoneWidth), widths: [phoneWidth], hasKeys: false },
      { page: await open(who, 1440), widths: deskWidths, hasKeys: true },
    ]);
  }
});

const seatsOf = (who: Who): readonly Seat[] => {
  const found = seats.get(who);
  if (found === undefined) throw new Error(`${who} has no seat`);
  return found;
};

/** Of each person: names of pictures and addresses. What is listed by a page is found there. */
const pages: Readonly<Record<Who, (at: Named) => readonly Look[]>> = {
  nobody: ({ invitation }) => [
    { name: 'sign-in', path: '/sign-in' },
    { name: 'password', path: '/password' },
    { name: 'password-link', path: `/password#${'x'.repeat(43)}` },
    { name: 'invitation', path: `/invitation${invitation}` },
    { name: 'invitation-without-link', path: '/invitation' },
  ],
  maelle: ({ yardId, planId, otherPlanId, runId }) => [
    { name: 'account', path: '/account' },
    { name: 'begin', path: '/begin' },
    { name: 'week', path: `/yards/${yardId}/week` },
    { name: 'week-of-spaces', path: `/yards/${yardId}/week?by=spaces` },
    { name: 'week-of-boats', path: `/yards/${yardId}/week?by=boats` },
    { name: 'week-as-table', path: `/yards/${yardId}/week?as=table` },
    { name: 'plans', path: `/yards/${yardId}/plans` },
    { name: 'run', path: `/yards/${yardId}/plans/runs/${runId}` },
    { name: 'comparison', path: `/yards/${yardId}/plans/${otherPlanId}/against/${planId}` },
    { name: 'sheet', path: `/yards/${yardId}/plans/${planId}/sheet` },
    { name: 'desk', path: `/yards/${yardId}/desk` },
    { name: 'set-up', path: `/yards/${yardId}/set-up` },
    { name: 'nothing', path: '/no-such-page' },
  ],
  tugdual: ({ yardId }) => [
    { name: 'now', path: `/yards/${yardId}/now` },
    { name: 'refused', path: `/yards/${yardId}/week` },
  ],
  odile: ({ yardId }) => [{ name: 'my-boat', path: `/yards/${yardId}/my-boat` }],
};
const everybody = Object.keys(pages) as Who[];

/** Pages below the one that is open to which it leads, one of each kind: `desk/snag/…`, `set-up/people`. */
async function below(page: Page, { name, path }: Look): Promise<Look[]> {
  const links = await page
    .locator(`a[href^="${path}/"]`)
    .evaluateAll((all) => all.map((one) => one.getAttribute('href') ?? ''));
  const kinds = new Map<string, Look>();
  for (const link of links) {
    const [kind] = link.slice(path.length + 1).split('/');
    if (kind !== '' && !kinds.has(kind)) {
      kinds.set(kind, { name: `${name}-${kind}`, path: link });
    }
  }
  return [...kinds.values()];
}

test('every address of the screens is among them', async () => {
  const paths = everybody.flatMap((who) => pages[who](named()).map(({ path }) => path));
  const patterns = await patternsOfRoutes();
  expect(patterns.length).toBeGreaterThan(10);
  const unseen = patterns.filter((pattern) => {
    // What hangs below these pages is found by them; `/` leads on to the page of one's own.
    if (/\/(desk|set-up)\/:/.test(pattern) || pattern === '/') return false;
    const regex = new RegExp(
      `^${pattern.replace(/\/:\w+\?/, '(/[^/]+)?').replaceAll(/:\w+/g, '[^/]+')}([#?].*)?$`,
    );
    return !paths.some((path) => regex.test(path));
  });
  expect(unseen).toEqual([]);
});

describe('looked at and gone through by keyboard, nothing is wrong with', () => {
  test.each(everybody)(
    'the pages of %s',
    async (who) => {
      const faults: string[] = [];
      for (const look of pages[who](named())) faults.push(...(await lookedAt(seatsOf(who), look)));
      expect(faults).toEqual([]);
    },
    240_000,
  );

  test.each(['desk', 'set-up'])(
    'what hangs below the foreman’s %s',
    async (name) => {
      const mine = seatsOf('maelle');
      const [, { page: desk }] = mine;
      const path = `/yards/${named().yardId}/${name}`;
      await goTo(desk, path);
      const looks = await below(desk, { name, path });
      expect(looks.length).toBeGreaterThan(2);
      const faults: string[] = [];
      for (const look of looks) {
        faults.push(...(await lookedAt(mine, look)));
        for (const { path: detail } of (await below(desk, look)).slice(0, 1)) {
          faults.push(...(await lookedAt(mine, { name: `${look.name}-one`, path: detail })));
        }
      }
      expect(faults).toEqual([]);
    },
    400_000,
  );
});

test('nothing moves by itself, and what ever should stands still for who wants no motion', async () => {
  const page = await open('maelle', 1440, false);
  const { yardId, workedOn } = named();
  // What is worked on is drawn where it was planned, in whichever week.
  await goTo(page, `/yards/${yardId}/week?from=${workedOn}`);
  expect(await page.locator('button[data-state="working"]').count()).toBeGreaterThan(0);
  expect(await moving(page)).toEqual([]);
  await page.evaluate(() => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(
      '@keyframes fade { to { opacity: 0.5; } } h1 { animation: fade 1s infinite; }',
    );
    document.adoptedStyleSheets.push(sheet);
  });
  expect(await moving(page)).toEqual(['H1 moves']);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await expect.poll(() => moving(page)).toEqual([]);
});
