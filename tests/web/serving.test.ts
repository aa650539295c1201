import { get, type IncomingHttpHeaders } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { brotliDecompressSync, gunzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { axeFaults, shot, sidewaysScroll, testScreens } from '../support/browser.ts';
import { people, smallYardApi } from '../support/small-yard-api.ts';
import { strictApi } from '../access/limits/ask.ts';
import { patternsOfRoutes } from './looks/routes.ts';

const { api, database } = smallYardApi();
const bare = strictApi(database, { screensFolder: join(tmpdir(), 'no-screens-here') });
const screens = testScreens(api);

interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: Buffer;
}

/** As it comes over the wire: `fetch` would unpack it. */
function ask(
  path: string,
  headers: Readonly<Record<string, string>> = {},
  { method = 'GET', base = api.url } = {},
): Promise<Answer> {
  return new Promise((resolve, reject) => {
    // Not through URL, which would tidy up the paths that a test makes untidy.
    const { hostname, port } = new URL(base);
    const asking = get({ hostname, port, path, method, headers }, (answer) => {
      const chunks: Buffer[] = [];
      answer.on('data', (chunk: Buffer) => chunks.push(chunk));
      answer.on('end', () => {
        const { statusCode: status = 0 } = answer;
        resolve({ status, headers: answer.headers, body: Buffer.concat(chunks) });
      });
    });
    asking.on('error', reject).end();
  });
}

const problem = 'application/problem+json; charset=utf-8';
const html = { accept: 'text/html,application/xhtml+xml,*/*;q=0.8' };
const pageText = async (): Promise<string> => (await ask('/')).body.toString();
const scriptOf = (page: string): string => /src="(\/assets\/[^"]+\.js)"/.exec(page)?.[1] ?? '';

describe('the page', () => {
  test('stands at every address of the screens, and at those of mailed links', async () => {
    const patterns = await patternsOfRoutes();
    expect(patterns.length).toBeGreaterThan(15);
    expect(patterns).toEqual(expect.arrayContaining(['/', '/password', '/invitation']));
    const text = await pageText();
    for (const pattern of patterns) {
      const full = pattern.replaceAll(/:\w+\??/g, 'x');
      const short = pattern.replace(/\/:\w+\?$/, '').replaceAll(/:\w+/g, 'x');
      for (const address of [full, short, `${full}?from=2026-11-30`]) {
        const { status, headers, body } = await ask(address);
        expect([address, status]).toEqual([address, 200]);
        expect(headers).toMatchObject({
          'content-type': 'text/html; charset=utf-8',
          'cache-control': 'no-cache',
        });
        expect(body.toString()).toBe(text);
      }
    }
  });

  test('has a policy that lets nothing inline and nothing of elsewhere in', async () => {
    const { headers } = await ask('/');
    const directives = String(headers['content-security-policy']).split(';');
    expect(directives).toEqual([
      "default-src 'none'",
      "base-uri 'none'",
      "form-action 'self'",
      "frame-ancestors 'none'",
      "script-src 'self'",
      "style-src 'self'",
      "img-src 'self' blob:",
      "connect-src 'self'",
      "worker-src 'self'",
      "manifest-src 'self'",
      "require-trusted-types-for 'script'",
      'trusted-types service-worker',
    ]);
    expect(headers).toMatchObject({
      'x-content-type-options': 'nosniff',
      'x-frame-options': 'DENY',
      'referrer-policy': 'no-referrer',
    });
    // Nothing that it would refuse to run.
    const text = await pageText();
    expect(text).not.toMatch(/<script(?![^>]*\ssrc=)|<style|\son\w+=|\sstyle=|javascript:|data:/i);
  });

  test('says at any other address that there is nothing; a program gets a problem', async () => {
    for (const address of ['/nothing', '/yards/small', '/password/x', '/assets/gone.js']) {
      const { status, body } = await ask(address, html);
      expect([address, status]).toEqual([address, 404]);
      expect(body.toString()).toBe(await pageText());
      const told = await ask(address, { accept: '*/*' });
      expect([address, told.status, told.headers['content-type']]).toEqual([address, 404, problem]);
    }
    for (const address of ['/api/v1/nothing', '/api', '/graphql/x']) {
      const { status, headers } = await ask(address, html);
      expect([address, status, headers['content-type']]).toEqual([address, 404, problem]);
    }
  });

  test('gives nothing out that is not of the screens', async () => {
    const untidy = ['/../package.json', '/assets/..%2f..%2fpackage.json', '/assets/../sw.ts'];
    for (const address of [...untidy, '/.made-from.sha256', '/index.html', '/sw.js.br']) {
      const { status, body } = await ask(address);
      expect([address, status]).toEqual([address, 404]);
      expect(body.toString()).not.toContain('"private"');
    }
  });
});

describe('a file', () => {
  test('that is named by a hash comes compressed, and is kept for good', async () => {
    const script = scriptOf(await pageText());
    const plain = await ask(script, { 'accept-encoding': 'identity' });
    expect(plain.headers).toMatchObject({
      'content-type': 'text/javascript; charset=utf-8',
      'cache-control': 'public, max-age=31536000, immutable',
      vary: 'accept-encoding',
    });
    expect(plain.headers['content-encoding']).toBeUndefined();
    const brotli = await ask(script, { 'accept-encoding': 'gzip, deflate, br, zstd' });
    expect(brotli.headers['content-encoding']).toBe('br');
    expect(brotliDecompressSync(brotli.body)).toEqual(plain.body);
    expect(brotli.body.length).toBeLessThan(plain.body.length / 2);
    const gzip = await ask(script, { 'accept-encoding': 'gzip, br;q=0' });
    expect(gzip.headers['content-encoding']).toBe('gzip');
    expect(gunzipSync(gzip.body)).toEqual(plain.body);
    expect(new Set([plain, brotli, gzip].map(({ headers }) => headers.etag)).size).toBe(3);
  });

  test('is not sent again to whoever has it', async () => {
    const { headers } = await ask('/sw.js');
    const etag = headers.etag ?? '';
    expect(headers).toMatchObject({ 'cache-control': 'no-cache' });
    for (const known of [etag, `"x", W/${etag}`, '*']) {
      const again = await ask('/sw.js', { 'if-none-match': known });
      expect([again.status, again.body.length, again.headers.etag]).toEqual([304, 0, etag]);
    }
    expect((await ask('/sw.js', { 'if-none-match': '"x"' })).status).toBe(200);
    const head = await ask('/sw.js', {}, { method: 'HEAD' });
    expect([head.status, head.body.length]).toEqual([200, 0]);
  });

  test('of the installed screens is there: manifest and icons', async () => {
    const { headers, body } = await ask('/manifest.webmanifest');
    expect(headers['content-type']).toBe('application/manifest+json');
    const { icons } = z
      .object({ icons: z.array(z.object({ src: z.string(), type: z.string() })) })
      .parse(JSON.parse(body.toString()));
    expect(icons.length).toBe(4);
    for (const { src, type } of [...icons, { src: '/badge-96.png', type: 'image/png' }]) {
      const icon = await ask(src);
      expect([src, icon.status, icon.headers['content-type']]).toEqual([src, 200, type]);
    }
  });
});

test('without screens the pages say so, and the API answers', async () => {
  const { status, headers, body } = await ask('/sign-in', html, { base: bare.url });
  expect([status, headers['content-type']]).toEqual([503, problem]);
  expect(JSON.parse(body.toString())).toMatchObject({
    detail: 'The screens are not built.',
    cure: expect.stringContaining('npm run build') as string,
  });
  expect((await ask('/api/v1/health', {}, { base: bare.url })).status).toBe(200);
});

describe('in a browser', () => {
  test('what is smuggled into the page does not run', async () => {
    const page = await screens.page({ allow: /Content Security Policy|TrustedHTML|TrustedScript/ });
    await page.goto('/sign-in');
    const ran = await page.evaluate(async () => {
      const marks = globalThis as { ran?: string };
      const script = document.createElement('script');
      try {
        script.text = 'globalThis.ran = "inline"';
        document.body.append(script);
      } catch {
        // Trusted Types take no text for a script.
      }
      try {
        document.body.insertAdjacentHTML('beforeend', '<img src=x onerror="ran=\'handler\'">');
      } catch {
        // Nor for HTML.
      }
      await new Promise((resolve) => setTimeout(resolve, 100));
      return marks.ran ?? null;
    });
    expect(ran).toBeNull();
    expect(await page.locator('img[src="x"]').count()).toBe(0);
  });

  test('the screens open without a network, and keep no answer of the service', async () => {
    const page = await screens.signedIn(people.builder, { width: 360 });
    await page.goto('/yards/small/now');
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
    await page.getByRole('heading', { level: 1 }).waitFor();
    await page.context().setOffline(true);
    await page.reload();
    await page.getByRole('heading', { level: 1 }).waitFor();
    const kept = await page.evaluate(async () => {
      const open = await Promise.all((await caches.keys()).map((name) => caches.open(name)));
      const requests = (await Promise.all(open.map((cache) => cache.keys()))).flat();
      return requests.map(({ url }) => new URL(url).pathname);
    });
    expect(kept).toContain('/');
    expect(kept.filter((path) => path !== '/' && !path.startsWith('/assets/'))).toEqual([]);
    expect(kept).toContain(scriptOf(await pageText()));
  });
});

test('over http from another machine it says what is lacking, and the rest works', async () => {
  const page = await screens.page({
    // Only where browsers trust an address are these headers for something.
    allow: /Cross-Origin-Opener-Policy|Origin-Agent-Cluster/,
    width: 360,
  });
  const there = new URL(screens.url);
  there.hostname = 'plain.test';
  const value = await api.signIn(people.foreman);
  await page.context().addCookies([{ name: 'curewright_session', value, url: there.href }]);
  await page.goto(new URL('/yards/small/set-up/skills/+', there).href);
  const notice = page.getByRole('complementary', { name: 'This page came without https.' });
  await notice.getByText(/opening the page out of reach, notifications, passkeys/).waitFor();
  await page.getByLabel('Name', { exact: true }).fill('Rigging');
  expect(await axeFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);
  await shot(page, 'insecure');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.waitForURL('**/set-up/skills/rigging');
  await page.getByRole('button', { name: 'Understood' }).click();
  await page.goto(new URL('/yards/small/set-up/calendars', there).href);
  await page.getByLabel('For whom').selectOption('Bram');
  await page.getByRole('button', { name: 'Make an address' }).click();
  await page.getByRole('button', { name: 'Copy' }).click();
  await page.getByText('It is marked').waitFor();
  expect(await page.evaluate<string>('String(getSelection())')).toMatch(/^https?:.*\.ics$/);
  expect(await notice.count()).toBe(0);
});
