import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, test } from 'vitest';
import { testScreens } from '../support/browser.ts';
import { type Look, lookedAt, type Sheet } from './looks/faults.ts';
import { walk } from './looks/keyboard.ts';
import { emailOf, livelyYard, type Named } from './looks/lively-yard.ts';
import { patternsOfRoutes } from './looks/routes.ts';
import { goTo, watchRequests } from './looks/settled.ts';

/**
 * Every page of a yard in the middle of its work, at 360 and 1440 px (LONG_TESTS=1: 768 too), in
 * light and dark: a picture of each in `.curewright/screens`, to be looked at, and what a machine can say of it.
 */
const { api, named } = livelyYard();
const screens = testScreens(api);

type Who = 'nobody' | 'maelle' | 'tugdual' | 'odile';

/** A telephone and a desk of one person, used for all of their pages. */
interface Seats {
  readonly phone: Page;
  readonly desk: Page;
}
const seats = new Map<Who, Seats>();
const phoneWidth = 360;
const deskWidths = process.env['LONG_TESTS'] === '1' ? [768, 1440] : [1440];

beforeAll(async () => {
  for (const who of ['nobody', 'maelle', 'tugdual', 'odile'] as const) {
    const open = async (width: number): Promise<Page> => {
      const look = {
        width,
        reducedMotion: true,
        // Of the page that says so.
        allow: /status of 404 .*\/no-such-page\)/,
        more: { serviceWorkers: 'block' },
      } as const;
      const page = await (who === 'nobody'
        ? screens.page(look)
        : screens.signedIn(emailOf(who), look));
      watchRequests(page);
      return page;
    };
    seats.set(who, { phone: await open(phoneWidth), desk: await open(1440) });
  }
});

const seatsOf = (who: Who): Seats => {
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

/** Pages below `path` that it leads to, one of each kind: `desk/snag/…`, `set-up/people`. */
async function below(page: Page, { name, path }: Look): Promise<Look[]> {
  await goTo(page, path);
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

describe('looked at, nothing is wrong with', () => {
  test.each(everybody)(
    'the pages of %s',
    async (who) => {
      const { phone, desk } = seatsOf(who);
      const sheets: Sheet[] = [
        { page: phone, widths: [phoneWidth] },
        { page: desk, widths: deskWidths },
      ];
      const faults: string[] = [];
      for (const look of pages[who](named())) faults.push(...(await lookedAt(sheets, look)));
      expect(faults).toEqual([]);
    },
    240_000,
  );

  test.each(['desk', 'set-up'])(
    'what hangs below the foreman’s %s',
    async (name) => {
      const { phone, desk } = seatsOf('maelle');
      const path = `/yards/${named().yardId}/${name}`;
      const looks = await below(desk, { name, path });
      expect(looks.length).toBeGreaterThan(2);
      const faults: string[] = [];
      for (const look of looks) {
        const details = await below(desk, look);
        for (const one of [look, ...details.slice(0, 1)]) {
          const sheets = [
            { page: phone, widths: [phoneWidth] },
            { page: desk, widths: deskWidths },
          ];
          faults.push(
            ...(await lookedAt(sheets, {
              ...one,
              name: one === look ? look.name : `${look.name}-one`,
            })),
          );
        }
      }
      expect(faults).toEqual([]);
    },
    400_000,
  );
});

describe('by keyboard alone', () => {
  test.each(everybody)(
    'everything of the pages of %s is reached, and one sees where one is',
    async (who) => {
      const { desk } = seatsOf(who);
      await desk.setViewportSize({ width: 1440, height: 900 });
      const faults: string[] = [];
      for (const { name, path } of pages[who](named())) {
        await goTo(desk, path);
        const { missed, unseen, reached } = await walk(desk);
        expect(reached, name).toBeGreaterThan(0);
        faults.push(
          ...missed.map((one) => `${name}: not reached: ${one}`),
          ...unseen.map((one) => `${name}: not seen: ${one}`),
        );
      }
      expect(faults).toEqual([]);
    },
    240_000,
  );
});

test('who wants no motion sees none', async () => {
  const moving: string[] = [];
  for (const who of everybody) {
    const { desk } = seatsOf(who);
    for (const { name, path } of pages[who](named())) {
      await goTo(desk, path);
      const running = await desk.evaluate(
        () => document.getAnimations().filter((one) => one.playState === 'running').length,
      );
      if (running > 0) moving.push(`${name}: ${running}`);
    }
  }
  expect(moving).toEqual([]);
}, 120_000);
