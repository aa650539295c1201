import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { z } from 'zod';
import { demoWorker } from '../live/day/yard-day.ts';
import { testDatabase } from '../support/database.ts';
import { freePort, npmStart, type Started } from '../support/npm-start.ts';
import { collected, subscriber } from '../support/streams.ts';

const run = promisify(execFile);
const text = await readFile(new URL('../../README.md', import.meta.url), 'utf8');
/** The examples that a reader may paste, in order. */
const blocks = [...text.matchAll(/^```bash\n(.*?)^```$/gms)].map(([, block]) => block);

const address = 'http://localhost:3000';
const end = '--- end of block ---';
const asked = '{"seconds": 10}';

/** Saves making a server of its own, which start.test.ts does. */
const database = testDatabase();
let folder = '';
let demo: Started | undefined;
let outputs: string[] = [];

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'curewright-readme-'));
  const port = await freePort();
  demo = npmStart({
    CUREWRIGHT_FOLDER: folder,
    PORT: String(port),
    CUREWRIGHT_PLAN_SECONDS: '1',
    ...demoWorker,
    DATABASE_URL: database.serviceUrl,
    MIGRATE_DATABASE_URL: database.ownerUrl,
  });
  await demo.up;
  // One shell, since later examples use the variables of earlier ones.
  const script = blocks.map((block) => `${block}\necho\necho '${end}'\n`).join('');
  expect(script).toContain(asked);
  const { stdout } = await run(
    'bash',
    // Its input is a socket: without --norc bash takes itself for a remote shell and reads the
    // machine's start-up file, which need not bear -u (Bash manual, "Invoked by remote shell daemon").
    [
      '--norc',
      '-euo',
      'pipefail',
      '-c',
      script
        .replaceAll(address, `http://localhost:${String(port)}`)
        // Whoever tries it has more time than this.
        .replace(asked, '{"seconds": 3}'),
    ],
    { maxBuffer: 64 * 1024 * 1024, timeout: 240_000 },
  );
  outputs = stdout.split(`${end}\n`).slice(0, -1);
}, 400_000);

afterAll(async () => {
  await demo?.kill();
  await rm(folder, { recursive: true, force: true });
});

const isWeekend = ['Sat', 'Sun'].includes(
  new Date().toLocaleDateString('en-GB', { weekday: 'short', timeZone: 'Europe/Paris' }),
);

/** What the examples show, in their order: one line for each block of the README. */
const expected: readonly (readonly [what: string, output: RegExp])[] = [
  [
    'the week by builder',
    // The demo yard's plan begins with the day: on a weekend nobody has anything in the week of now,
    // and on a Friday not everybody has.
    isWeekend ? /"by":"builder","groups":\[/ : /"by":"builder".*"name":"[^"]+","rows":\[\{/s,
  ],
  ['the chains', /"boats":\[\{.*"text":"[^"]+ waits for /s],
  ['a changed part', /"id":"ourse-deck".*"areaM2":2\.8/s],
  ['a run that is followed to its end', /event: end\n(.*\n)*?data: .*"status":"finished"/],
  ['the plan published', /"planId":"[0-9a-f-]{36}","publishedAt"/],
  ['why a task is not earlier', /"taskId":"kornog-panel\.skin-one".*"steps":\[(\{.*"text":"|\])/],
  ['what would shorten it', /"refitId":null,"shortenings":\[\{"row":\{.*"text":"/],
  ['a task fixed', /"crew":\[\{"id":"noemie".*"after":\["kornog-lockers\.dry-fit"\]/],
  ['the sheet of a material', /"id":"demo-laminating-epoxy".*"trust":"/s],
  [
    'when a film is what, and the way back',
    /"milestone":"sandable".*"windows":.*"milestone":"sandable"/s,
  ],
  ['mix sheets, and what to buy', /"cups":\[\{"number":1,.*"shelfLifeDays":/s],
  ['a reading, and what findings give', /"celsius":12\.5.*"evidence":\[/s],
  ['a bond checked', /"bond":"mechanical".*"preparation":\[\{/s],
  ['ready work, a claim, its start', /"ready":\[\{.*"status":"working"/s],
  ['its end, and the own claims', /"status":"finished".*"items":\[\{.*"status":"finished"/s],
  ['what a telephone tells late', /("outcome":"done".*){2}/s],
  ['a snag, priced', /"kind":"wrong-size".*"meaning":\["[^"]+".*"boats":\[\{/s],
  ['another plan, and what it changes', /"state":"open".*"words":\["[^"]+/s],
  ['a feed, and alarms', /BEGIN:VCALENDAR.*END:VCALENDAR\s+\{"items":\[/s],
  ["the owner's boat", /"items":\[\{"id":"petite-ourse"/],
  ['ready work by GraphQL', /"data":\{"ready":\{"ready":\[\{"name":/],
  ['a claim by GraphQL', /"claimTask":\{"id":"[0-9a-f-]{36}","status":"OPEN"/],
  [
    'a person who is invited and comes',
    /"id":"loeiza".*"person":"Loeiza Kerbrat","session":\{"token":/s,
  ],
  ['a key for a program', /"by":"builder".*"name":"screen by the kettle".*"lastUsedAt":"/s],
  ['where the account is signed in', /"agent":"curl\/.*"current":true.*\{"closed":\d+\}/s],
  [
    'who changed the part',
    /"byName":"Maëlle [^"]+".*"name":"areaM2","before":"[^"]+","after":"2\.8"/s,
  ],
];

test('each example of the README is expected here', () => {
  expect(blocks).toHaveLength(expected.length);
  for (const block of blocks) expect(block).toMatch(/localhost:3000|\$YARD/);
});

test.each(expected.map(([what, output], index) => ({ what, output, index })))(
  'example $index works as written: $what',
  ({ output, index }) => {
    expect(outputs[index]).toMatch(output);
    // Neither a problem of REST nor an error of GraphQL.
    expect(outputs[index]).not.toMatch(/"type":"\/problems\/|"errors":\[/);
  },
);

test('the subscription follows a run to its end', async () => {
  const [query] = [...text.matchAll(/^```graphql\n(.*?)^```$/gms)].map(([, block]) => block);
  const url = `http://localhost:${String(demo?.port)}`;
  const answer = await fetch(`${url}/api/v1/sessions`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ email: 'maelle@demo.invalid', password: 'cure-window-demo' }),
  });
  const { token } = z.object({ token: z.string() }).parse(await answer.json());
  const run = /"runId":"([^"]+)"/.exec(outputs[3])?.[1];
  const client = subscriber(url, token);
  const told = await collected(client.iterate({ query, variables: { run } }));
  await client.dispose();
  expect(told.at(-1)).toMatchObject({
    data: { planRun: { status: 'FINISHED', planId: expect.any(String) as string } },
  });
});

test('the password and the addresses of the README are those that are printed', () => {
  const printed = demo?.text() ?? '';
  for (const known of ['cure-window-demo', 'maelle@demo.invalid', 'ilsa@demo.invalid']) {
    expect(printed).toContain(known);
    expect(text).toContain(known);
  }
});
