import type { Page } from 'playwright-core';

/**
 * The next call of the page to an address that ends so reaches the service, which does it; its answer
 * is lost on the way.
 */
export async function loseAnswer(page: Page, end: string, method = 'POST'): Promise<void> {
  let isLost = false;
  await page.route(
    (url) => url.pathname.endsWith(end),
    async (route) => {
      if (isLost || route.request().method() !== method) {
        await route.fallback();
        return;
      }
      isLost = true;
      const answer = await route.fetch();
      // One that was refused has done nothing, and the test would be of something else.
      if (!answer.ok()) throw new Error(`${method} ${end}: ${String(answer.status())}`);
      await route.abort('connectionrefused');
    },
  );
}
