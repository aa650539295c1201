import type { Page, Request } from 'playwright-core';

/** Streams never end. */
const lasting: ReadonlySet<string> = new Set(['eventsource', 'websocket']);
const quietMs = 150;
const longestMs = 20_000;
const underWay = new WeakMap<Page, Set<Request>>();

/** From now on it is known what the page waits for. */
export function watchRequests(page: Page): void {
  const open = new Set<Request>();
  underWay.set(page, open);
  page.on('request', (request) => {
    if (!lasting.has(request.resourceType())) open.add(request);
  });
  page.on('requestfinished', (request) => open.delete(request));
  page.on('requestfailed', (request) => open.delete(request));
}

/** Goes to the address, and waits until the page has a heading and asks for nothing more. */
export async function goTo(page: Page, path: string): Promise<void> {
  underWay.get(page)?.clear();
  await page.goto(path);
  await page.locator('h1').first().waitFor();
  await settled(page);
}

export async function settled(page: Page): Promise<void> {
  const open = underWay.get(page);
  if (open === undefined) throw new Error('call watchRequests before the page is used');
  const deadline = Date.now() + longestMs;
  for (let quietSince = Date.now(); Date.now() - quietSince < quietMs;) {
    await page.waitForTimeout(30);
    if (open.size > 0) quietSince = Date.now();
    if (Date.now() > deadline) {
      const asked = [...open].map((request) => request.url());
      throw new Error(`${page.url()} still waits for ${asked.join(', ')}`);
    }
  }
}
