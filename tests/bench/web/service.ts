import type { BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { type Api, startApi } from '../../../apps/api/src/main.ts';
import { startChromium } from '../../support/chromium.ts';
import { publishPlan } from '../../support/published-plan.ts';
import { signedIn, storeYard } from '../../support/crowd.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { Browser } from 'playwright-core';
import { onStage } from '../access/stage.ts';

export interface Scene {
  readonly browser: Browser;
  readonly url: string;
  /** A window of a fresh profile, with a session of the member. */
  readonly open: (memberId: string, look?: BrowserContextOptions) => Promise<Page>;
}

/** The yard with a published plan, served by the api of this process, and a browser. */
export function onScene<T>(
  yard: Yard,
  members: readonly string[],
  use: (scene: Scene) => Promise<T>,
): Promise<T> {
  return onStage(async (stage) => {
    const database = await stage.database('screens');
    await storeYard(database, yard);
    await publishPlan(database, yard.id);
    const hands = await signedIn(database, yard.id, members);
    const api: Api = await startApi({ databaseUrl: database.serviceUrl, port: 0 });
    const browser = await startChromium();
    const url = api.url.replace('127.0.0.1', 'localhost');
    try {
      return await use({
        browser,
        url,
        open: async (memberId, look) => {
          const context = await browser.newContext({ baseURL: url, ...look });
          await enter(context, url, hands.find(({ id }) => id === memberId)?.token ?? '');
          return context.newPage();
        },
      });
    } finally {
      await browser.close();
      await api.close();
    }
  });
}

const enter = (context: BrowserContext, url: string, value: string): Promise<void> =>
  context.addCookies([{ name: 'curewright_session', value, url, httpOnly: true, sameSite: 'Lax' }]);
