import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import axe, { type AxeResults } from 'axe-core';
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect } from 'vitest';
import type { TestApi } from './api.ts';
import { startChromium } from './chromium.ts';

export interface Look {
  /** Of the window, px; 360 (a phone, with touch), 768 and 1440 are what every page is made for. */
  readonly width?: number;
  readonly height?: number;
  readonly theme?: 'light' | 'dark';
  readonly locale?: string;
  readonly reducedMotion?: boolean;
  /** What may stand in the console, besides what `isExpected` knows: a test of a failure. */
  readonly allow?: RegExp;
  /** Anything else of Playwright's, `serviceWorkers: 'block'` say. */
  readonly more?: BrowserContextOptions;
}

export interface TestScreens {
  /** `http://localhost:port`, the name that passkeys belong to. */
  readonly url: string;
  readonly browser: Browser;
  /** A page of a fresh browser profile in which nobody is signed in. Addresses are below `url`. */
  page(look?: Look): Promise<Page>;
  /** The same, with a session of whoever has the e-mail, opened at the service. */
  signedIn(email: string, look?: Look): Promise<Page>;
  /** Another page of the same profile. */
  beside(page: Page): Promise<Page>;
  /** Gives the profile a session of somebody (else), as a sign-in does. */
  signIn(context: BrowserContext, email: string): Promise<void>;
}

const screens = fileURLToPath(new URL('../../.curewright/screens/', import.meta.url));
const usualLook = { width: 1440, height: 900, theme: 'light' } as const;
const phone = { hasTouch: true, isMobile: true, deviceScaleFactor: 2 } as const;
const phoneHeight = 780;
/** Far from any yard of the tests: a moment that is shown in the browser's zone is seen to be wrong. */
const elsewhere = 'America/St_Johns';

/**
 * A browser for the tests of a file. What is opened in a test is closed after it, what is opened in
 * `beforeAll` after the last. Each fault of a script and each thing that the content policy had to
 * refuse fails the test in which it came.
 */
export function testScreens(api: TestApi): TestScreens {
  let browser: Browser | undefined;
  let isInTest = false;
  const opened = new Set<BrowserContext>();
  const complaints: string[] = [];
  const assertNone = (): void => {
    const said = complaints.splice(0);
    expect(said, 'what the pages complained of').toEqual([]);
  };
  const close = async (contexts: readonly BrowserContext[]): Promise<void> => {
    await Promise.all(contexts.map((context) => context.close()));
  };

  beforeAll(async () => {
    browser = await startChromium();
  });
  beforeEach(() => {
    isInTest = true;
  });
  afterEach(async () => {
    isInTest = false;
    await close([...opened]);
    opened.clear();
    assertNone();
  });
  afterAll(async () => {
    await browser?.close();
    assertNone();
  });

  const running = (): Browser => {
    if (!browser) throw new Error('the browser is started before the first test, not earlier');
    return browser;
  };
  const address = (): string => api.url.replace('127.0.0.1', 'localhost');

  const page: TestScreens['page'] = async (look = {}) => {
    const { width = usualLook.width, theme = usualLook.theme } = look;
    const isPhone = width < 600;
    const { height = isPhone ? phoneHeight : usualLook.height } = look;
    const context = await running().newContext({
      baseURL: address(),
      viewport: { width, height },
      colorScheme: theme,
      locale: look.locale ?? 'en-GB',
      timezoneId: elsewhere,
      reducedMotion: look.reducedMotion === true ? 'reduce' : 'no-preference',
      ...(isPhone ? phone : {}),
      ...look.more,
    });
    if (isInTest) opened.add(context);
    context.setDefaultTimeout(30_000);
    listen(context, complaints, look.allow);
    return context.newPage();
  };
  const signIn: TestScreens['signIn'] = async (context, email) => {
    const value = await api.signIn(email);
    const cookie = { name: 'curewright_session', value, url: address() };
    await context.addCookies([{ ...cookie, httpOnly: true, sameSite: 'Lax' }]);
  };

  return {
    get url() {
      return address();
    },
    get browser() {
      return running();
    },
    page,
    signedIn: async (email, look) => {
      const opening = await page(look);
      await signIn(opening.context(), email);
      return opening;
    },
    beside: (one) => one.context().newPage(),
    signIn,
  };
}

/** Refusals of the service are answers, and a page may be out of its reach: not faults of the page. */
function isExpected(text: string, url: string): boolean {
  if (/ERR_INTERNET_DISCONNECTED|ERR_CONNECTION_REFUSED|ERR_NETWORK_CHANGED/.test(text))
    return true;
  if (/^WebSocket connection to .* failed/.test(text)) return true;
  // Said by Playwright itself, where a test keeps it away.
  if (/^Service Worker registration blocked by Playwright/.test(text)) return true;
  // Chromium reads a preloaded script that came through a service worker a second time, from its
  // cache; without one, on the first visit, the preload saves a way to the service.
  if (/^A preload .* cross-world service worker resource mismatch/.test(text)) return true;
  const refused = /^Failed to load resource: .* status of (\d+)/.exec(text)?.[1];
  return refused !== undefined && Number(refused) < 500 && /\/(api|graphql)\b/.test(url);
}

function listen(context: BrowserContext, complaints: string[], allow?: RegExp): void {
  const complain = (text: string): void => {
    if (allow?.test(text) !== true) complaints.push(text);
  };
  context.on('weberror', (error) => {
    complain(`thrown: ${String(error.error().stack ?? error.error())}`);
  });
  context.on('console', (message) => {
    if (message.type() !== 'error' && message.type() !== 'warning') return;
    const { url } = message.location();
    if (!isExpected(message.text(), url)) complain(`${message.text()} (${url})`);
  });
}

const drawAll = `if (document.adoptedStyleSheets.length === 0) {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync('* { content-visibility: visible !important; }');
  document.adoptedStyleSheets = [sheet];
}`;

/** A picture of the whole page in `.curewright/screens/NAME-WIDTH-THEME.png`: its path. */
export async function shot(page: Page, name: string): Promise<string> {
  const width = page.viewportSize()?.width ?? 0;
  const isDark = await page.evaluate<boolean>(`matchMedia('(prefers-color-scheme: dark)').matches`);
  await mkdir(screens, { recursive: true });
  // The picture is of more than the window: what is drawn only within it is to be drawn.
  await page.evaluate(drawAll);
  const path = join(screens, `${name}-${String(width)}-${isDark ? 'dark' : 'light'}.png`);
  // A pixel of the page is a pixel of the picture: small files, and nobody looks for hairlines in them.
  await page.screenshot({ path, fullPage: true, scale: 'css', animations: 'disabled' });
  return path;
}

const standards = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/**
 * What axe finds against WCAG 2.2 (A, AA) and its own best practices, or against the rules `only`, a
 * line each; none is right.
 */
export async function axeFaults(page: Page, only?: readonly string[]): Promise<string[]> {
  if (!(await page.evaluate<boolean>(`'axe' in globalThis`))) await page.evaluate(axe.source);
  const runOnly =
    only === undefined ? { type: 'tag', values: standards } : { type: 'rule', values: only };
  const { violations } = await page.evaluate<AxeResults>(
    `axe.run(document, ${JSON.stringify({ runOnly, resultTypes: ['violations'] })})`,
  );
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ target, failureSummary = '' }) => {
      const why = failureSummary.replace(/\s+/g, ' ');
      return `${id}: ${help} — ${target.join(' ')} (${why})`;
    }),
  );
}

/** By how many pixels the page is wider than its window; 0 is right. */
export const sidewaysScroll = (page: Page): Promise<number> =>
  page.evaluate<number>(
    `Math.max(0, document.documentElement.scrollWidth - document.documentElement.clientWidth)`,
  );
