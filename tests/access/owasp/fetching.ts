import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { ruleOf } from '#access/table.ts';
import { readDocument } from '../requests/operations.ts';
import { fill, requestOf } from '../requests/fill.ts';
import { choose } from '../requests/choose.ts';
import { send } from '../requests/send.ts';
import { by } from '../walk/ask.ts';
import { kinds } from '../walk/cases.ts';
import { connectionsDuring } from './connections.ts';
import type { GroundOf } from './ground.ts';

const root = new URL('../../../', import.meta.url);

/** Addresses of a cloud's own data, of this machine, of a file, of a name that somebody watches. */
const lures = [
  'http://169.254.169.254/latest/meta-data/',
  'http://127.0.0.1:9/',
  'file:///etc/passwd',
  'https://lure.example/',
];

/** What a module of Node's must be asked for to open a connection, and what every program has without it. */
const modules = /^import ([^;]+) from '(?:node:)?(?:https?|net|tls|dgram|http2|undici)';$/gm;
const opening =
  /\b(?:request|get|connect|createConnection|createSocket|Agent|Client|Socket)\b|^\w+$|\*/;
const builtIn = /\bfetch\(|new (?:WebSocket|EventSource|XMLHttpRequest)\(/;

function canFetch(source: string): boolean {
  const names = [...source.matchAll(modules)].map(([, what]) => what.replaceAll(/\btype \w+/g, ''));
  const runs = names.filter((what) => !source.includes(`import type ${what}`));
  return (
    builtIn.test(source) || runs.some((what) => !what.startsWith('type ') && opening.test(what))
  );
}

export function fetching(groundOf: GroundOf): void {
  describe('API7:2023 Server Side Request Forgery', () => {
    test('whatever addresses it is sent, the service connects to its database alone', async () => {
      const { calls, world, here } = groundOf();
      const { text } = await calls.call('GET', '/api/v1/openapi.json');
      const { operations, schemas } = readDocument(JSON.parse(text));
      const picks = choose(3);
      let sent = 0;
      const places = await connectionsDuring(async () => {
        for (const operation of operations.filter(({ body }) => body !== null)) {
          const rule = ruleOf(operation.face);
          if (!rule) continue;
          for (const lure of lures.slice(sent % 2, (sent % 2) + 2)) {
            const call = fill(
              operation,
              {
                rule,
                yardId: here.yardId,
                named: (kind) => here.records.get(kind)?.at(0)?.id,
                referred: (kind) => here.records.get(kind)?.at(0)?.id,
                newId: () => undefined,
                kinds,
                choose: picks,
                fullness: 1,
                revision: 1,
              },
              schemas,
            );
            const body = lured(call.body, lure);
            const token =
              typeof rule.may === 'string' ? world.stranger.token : here.people.foreman.token;
            const request = by(
              requestOf({ ...call, body }, () => ''),
              token,
            );
            const headers = { ...request.headers, host: 'lure.example', referer: lure };
            await send(world.app, { ...request, headers });
            sent += 1;
          }
        }
      });
      const { hostname, port } = new URL(world.database.serviceUrl);
      expect(sent).toBeGreaterThan(100);
      expect(new Set(places)).toEqual(new Set(places.length > 0 ? [`${hostname}:${port}`] : []));
    }, 300_000);

    // Notifications go to addresses that browsers give: that file looks at where each leads, when it is
    // written down and again when it is called (`isInside`, tests/live/push.test.ts).
    test('and there is nothing in it that could fetch but what sends notifications', async () => {
      const files = (
        await Promise.all(
          ['apps/api/src', 'apps/worker/src', 'libs'].map(async (folder) =>
            (await readdir(new URL(folder, root), { recursive: true }))
              .filter((name) => name.endsWith('.ts') && !/\.test\.ts$|generated|testing/.test(name))
              .map((name) => `${folder}/${name}`),
          ),
        )
      ).flat();
      expect(files.length).toBeGreaterThan(300);
      const found: string[] = [];
      for (const file of files) {
        if (canFetch(await readFile(new URL(file, root), 'utf8'))) found.push(file);
      }
      expect(found).toEqual(['apps/worker/src/alarms/post.ts']);
      expect(canFetch("import { connect } from 'node:net';")).toBe(true);
      expect(canFetch('await fetch(address)')).toBe(true);
    });

    test('a link in a mail leads to where the service says it is, not where a caller says', async () => {
      const { world, calls } = groundOf();
      const where = { id: world.stranger.accountId };
      const { email } = await world.database.owner.account.findUniqueOrThrow({ where });
      const headers = { host: 'lure.example', 'x-forwarded-host': 'lure.example' };
      const told = await calls.call('POST', 'password-resets', { body: { email }, headers });
      expect(told.status).toBeLessThan(300);
      await expect
        .poll(() => mailsTo(world.mailFolder, email), { timeout: 30_000 })
        .toHaveLength(1);
      const [mail] = await mailsTo(world.mailFolder, email);
      expect(mail).not.toContain('lure.example');
      expect(mail).toContain(`http://localhost:${new URL(world.url).port}/`);
    });
  });
}

async function mailsTo(folder: string, email: string): Promise<string[]> {
  const names = await readdir(folder).catch(() => []);
  const files = names.filter((name) => name.endsWith('.eml'));
  const mails = await Promise.all(files.map((name) => readFile(join(folder, name), 'utf8')));
  // Lines broken by quoted-printable (RFC 2045, 6.7) are put together.
  return mails
    .filter((mail) => mail.includes(`To: ${email}`))
    .map((mail) => mail.replaceAll(/=\r?\n/g, ''));
}

/** The body with the address in every text that is nothing but words. */
function lured(body: unknown, lure: string): unknown {
  return JSON.parse(
    JSON.stringify(body, (key, value: unknown) =>
      typeof value === 'string' && /^(name|note|source|reason|unit|agent)$/.test(key)
        ? lure
        : value,
    ),
  );
}
