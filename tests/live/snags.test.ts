import { mkdir, mkdtemp, readdir, rm, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { inYard, service } from '#persistence/client.ts';
import { verifyReplay } from '#persistence/live/replay.ts';
import { faultsOf, idsOf, testApi, type Answer } from '#tests/support/api.ts';
import { testDatabase } from '#tests/support/database.ts';
import { makeYard } from '#tests/support/plan-runs.ts';
import { type Process, startWorkerProcess } from '#tests/support/processes.ts';
import { twoBoats } from '#tests/support/two-boats.ts';
import { until } from '#tests/support/until.ts';
import { startApi } from '../../apps/api/src/main.ts';
import { PhotoSweep } from '../../apps/api/src/features/snags/photos/photo-sweep.ts';
import { PhotosService } from '../../apps/api/src/features/snags/photos/photos.service.ts';
import { Database } from '../../apps/api/src/platform/database/database.ts';

const yardId = 'small';
const photoFolder = await mkdtemp(join(tmpdir(), 'curewright-snags-'));
const database = testDatabase();
const api = testApi(database, { photoFolder });
const tokens = { ines: '', bram: '', anke: '', odile: '', otto: '' };
type Who = keyof typeof tokens;
let worker: Process | undefined;

const ago = (minutes: number): string =>
  new Date(Math.floor(Date.now() / 60_000 - minutes) * 60_000).toISOString();
const call = (who: Who, method: string, at: string, body?: unknown): Promise<Answer> =>
  api.rest(method, `/yards/${yardId}${at}`, {
    token: tokens[who],
    ...(body === undefined ? {} : { body }),
  });
const idOf = ({ body }: Answer): string => z.string().parse(body.id);

beforeAll(async () => {
  for (const who of Object.keys(tokens) as Who[]) {
    await api.addAccount(`${who}@yard.test`);
    tokens[who] = await api.signIn(`${who}@yard.test`);
  }
  await makeYard(api, twoBoats(new Date().toISOString().slice(0, 10)), tokens.ines);
  const claim = idOf(await call('bram', 'POST', '/tasks/petrel-panel.lay-up/claims', {}));
  const started = await call('bram', 'POST', `/claims/${claim}/start`, { at: ago(4000) });
  expect(started.status).toBe(200);
  const done = await call('bram', 'POST', `/claims/${claim}/finish`, { at: ago(3900) });
  expect(done.status).toBe(200);
  worker = await startWorkerProcess(database.serviceUrl);
});
afterAll(async () => {
  await worker?.end('SIGTERM');
  await rm(photoFolder, { recursive: true, force: true });
});

const raise = (who: Who, part: string, body: object): Promise<Answer> =>
  call(who, 'POST', `/parts/${part}/snags`, { kind: 'void', words: 'hollow by the edge', ...body });

describe('a snag', () => {
  it('is raised by whoever finds it, of work in which it can lie', async () => {
    const raised = await raise('bram', 'petrel-hatch', {
      taskId: 'petrel-panel.lay-up',
      areaM2: 0.5,
      at: ago(10),
    });
    expect(raised.status).toBe(201);
    expect(raised.body).toMatchObject({
      state: 'open',
      kindName: 'Void or dry spot',
      foundAt: ago(10),
      raisedBy: 'bram',
      proposal: null,
    });
  });

  it.each([
    ['areaM2', { areaM2: 3 }, 'the part has 2 m²'],
    ['taskId', { taskId: 'heron-panel.lay-up' }, 'the part has no such task'],
    ['taskId', { taskId: 'petrel-panel.fair' }, '“fair” is waiting'],
    [
      'taskId',
      { kind: 'runs', taskId: 'petrel-panel.lay-up' },
      'Runs or sags lies in gel-coat, finish films',
    ],
    ['words', { words: ' ' }, ''],
    ['kind', { kind: 'ugly' }, ''],
  ])('names a %s that cannot be, and keeps nothing', async (path, wrong, words) => {
    const before = await database.owner.snag.count();
    const answer = await raise('bram', 'petrel-hatch', wrong);
    expect(answer.status).toBe(422);
    expect(faultsOf(answer.body)).toEqual([[path, 'input.field']]);
    expect(JSON.stringify(answer.body)).toContain(words);
    expect(await database.owner.snag.count()).toBe(before);
  });

  it('is shown to the owner on the foreman’s word, without who found it or what it costs', async () => {
    const [id] = idsOf((await call('bram', 'GET', '/snags')).body);
    const hidden = await call('odile', 'GET', `/snags/${id}`);
    expect([hidden.status, hidden.body.code]).toEqual([404, 'record.missing']);
    expect(idsOf((await call('odile', 'GET', '/snags')).body)).toEqual([]);
    const patch = (who: Who) =>
      api.rest('PATCH', `/yards/${yardId}/snags/${id}`, {
        token: tokens[who],
        body: { shownToOwner: true },
        headers: { 'if-match': '"1"' },
      });
    expect((await patch('bram')).body.code).toBe('access.role');
    expect((await patch('ines')).status).toBe(200);
    const seen = await call('odile', 'GET', `/snags/${id}`);
    expect(seen.body).toMatchObject({ raisedBy: null, proposal: null, reworks: [] });
    expect((await call('otto', 'GET', `/snags/${id}`)).status).toBe(404);
    expect(idsOf((await call('otto', 'GET', '/snags')).body)).toEqual([]);
  });
});

/** A picture with a camera's metadata, lying on its side by its Exif orientation. */
const photo = (width: number, height: number): Promise<Buffer> =>
  sharp({ create: { width, height, channels: 3, background: '#a87' } })
    .withExif({ IFD0: { Make: 'Secret maker', Orientation: '6' } })
    .withMetadata({ orientation: 6 })
    .jpeg()
    .toBuffer();

const send = async (who: Who, snag: string, bytes: Buffer, type: string, key?: string) => {
  const answer = await fetch(`${api.url}/api/v1/yards/${yardId}/snags/${snag}/photos`, {
    method: 'POST',
    headers: {
      authorization: `Bearer ${tokens[who]}`,
      'content-type': type,
      ...(key === undefined ? {} : { 'idempotency-key': key }),
    },
    body: new Uint8Array(bytes),
  });
  return { status: answer.status, body: z.looseObject({}).parse(await answer.json()) };
};
const picture = async (who: Who, id: unknown, size = 'whole') => {
  const answer = await fetch(
    `${api.url}/api/v1/yards/${yardId}/photos/${String(id)}?size=${size}`,
    {
      headers: { authorization: `Bearer ${tokens[who]}` },
    },
  );
  return { answer, bytes: Buffer.from(await answer.arrayBuffer()) };
};
const files = async (): Promise<string[]> =>
  (await readdir(join(photoFolder, yardId)).catch(() => [])).sort();

describe('its photos', () => {
  let snag: string;
  let id: string;

  beforeAll(async () => {
    [snag] = idsOf((await call('bram', 'GET', '/snags')).body);
  });

  it('are kept upright, no larger than needed, without what a camera writes into them', async () => {
    const sent = await photo(3000, 1500);
    expect((await sharp(sent).metadata()).exif?.includes('Secret maker')).toBe(true);
    const { status, body } = await send('bram', snag, sent, 'image/jpeg');
    expect(status).toBe(201);
    expect(body).toMatchObject({
      mediaType: 'image/jpeg',
      width: 1280,
      height: 2560,
      addedBy: 'bram',
    });
    id = z.string().parse(body.id);
    const { answer, bytes } = await picture('bram', id);
    expect(answer.headers.get('content-type')).toBe('image/jpeg');
    expect(answer.headers.get('content-security-policy')).toContain('sandbox');
    const told = await sharp(bytes).metadata();
    expect([told.format, told.width, told.height, told.exif, told.orientation]).toEqual([
      'jpeg',
      1280,
      2560,
      undefined,
      undefined,
    ]);
    const small = await sharp((await picture('bram', id, 'small')).bytes).metadata();
    expect([small.width, small.height]).toEqual([240, 480]);
    expect(await files()).toEqual([id, `${id}.small`]);
  });

  it('are seen by the owner whom the snag is shown to, and by no other', async () => {
    expect((await picture('odile', id)).answer.status).toBe(200);
    expect((await picture('otto', id)).answer.status).toBe(404);
  });

  it.each([
    [
      'no picture',
      () => Promise.resolve(Buffer.from('<svg onload="alert(1)"/>')),
      'image/png',
      422,
      'snag.photo',
    ],
    ['a picture of another type', () => photo(8, 8), 'image/png', 422, 'snag.photo'],
    [
      'half a picture',
      async () => (await photo(400, 400)).subarray(0, 900),
      'image/jpeg',
      422,
      'snag.photo',
    ],
    ['a type that is not taken', () => photo(8, 8), 'image/tiff', 422, 'snag.photo'],
    ['JSON', () => Promise.resolve(Buffer.from('{}')), 'application/json', 422, 'snag.photo'],
    ['nothing', () => Promise.resolve(Buffer.alloc(0)), 'image/jpeg', 422, 'snag.photo'],
    [
      'more than 15 MiB',
      () => Promise.resolve(Buffer.alloc(15 * 1024 * 1024 + 1)),
      'image/jpeg',
      413,
      'input.limit',
    ],
  ])(
    'are refused where they are %s, and nothing is kept',
    async (_what, made, type, status, code) => {
      const before = await files();
      const answer = await send('bram', snag, await made(), type);
      expect([answer.status, answer.body.code]).toEqual([status, code]);
      expect(await files()).toEqual(before);
      expect(await database.owner.snagPhoto.count()).toBe(1);
    },
  );

  it('sent twice under one key are one', async () => {
    const bytes = await photo(20, 10);
    const first = await send('bram', snag, bytes, 'image/jpeg', 'a-key');
    const again = await send('bram', snag, bytes, 'image/jpeg', 'a-key');
    expect([first.status, again.status, again.body.id]).toEqual([201, 201, first.body.id]);
    expect(await database.owner.snagPhoto.count()).toBe(2);
    expect(await files()).toHaveLength(4);
    expect((await call('bram', 'DELETE', `/photos/${String(first.body.id)}`)).status).toBe(204);
    expect(await files()).toHaveLength(2);
  });

  it('are taken away by whoever added them, or by the foreman', async () => {
    const other = await call('anke', 'DELETE', `/photos/${id}`);
    expect([other.status, other.body.code]).toEqual([403, 'access.role']);
    expect(await files()).toHaveLength(2);
  });

  it('stay where the database went away as it wrote them down, until it is known whether it did', async () => {
    const before = await files();
    const { accountId } = await database.owner.member.findUniqueOrThrow({
      where: { yardId_id: { yardId, id: 'bram' } },
    });
    const viewer = {
      yardId,
      memberId: 'bram',
      accountId: accountId ?? '',
      roles: ['builder' as const],
      sees: 'all' as const,
    };
    const other = await startApi({ databaseUrl: database.serviceUrl, port: 0, photoFolder });
    try {
      const store = other.app.get(Database);
      const inYard = store.inYard.bind(store);
      let asked = 0;
      store.inYard = async (who, work, options) => {
        const answer = await inYard(who, work, options);
        asked += 1;
        if (asked === 2) throw new Error('Connection terminated unexpectedly');
        return answer;
      };
      const sent = other.app
        .get(PhotosService)
        .add(viewer, snag, await photo(20, 10), 'image/jpeg');
      await expect(sent).rejects.toThrow('Connection terminated');
      store.inYard = inYard;
      const kept = (await files()).filter((name) => !before.includes(name));
      expect(kept).toHaveLength(2);
      // It had been committed: the picture is there to be seen.
      const [added] = kept;
      expect((await call('bram', 'GET', `/photos/${added}`)).status).toBe(200);
      expect((await call('bram', 'DELETE', `/photos/${added}`)).status).toBe(204);
    } finally {
      await other.close();
    }
    expect(await files()).toEqual(before);
  });

  it('leave no file behind of a process that died between file and row', async () => {
    const lost = '0b0e8a7e-1111-4111-8111-000000000001';
    await mkdir(join(photoFolder, yardId), { recursive: true });
    await writeFile(join(photoFolder, yardId, lost), 'x');
    const old = new Date(Date.now() - 2 * 3_600_000);
    await utimes(join(photoFolder, yardId, lost), old, old);
    await utimes(join(photoFolder, yardId, id), old, old);
    const other = await startApi({ databaseUrl: database.serviceUrl, port: 0, photoFolder });
    try {
      expect(await other.app.get(PhotoSweep).sweep()).toBe(1);
    } finally {
      await other.close();
    }
    expect(await files()).toEqual([id, `${id}.small`]);
  });
});

const snagSchema = z.looseObject({
  id: z.string(),
  state: z.string(),
  taskId: z.string().nullable(),
  proposal: z
    .looseObject({
      id: z.string(),
      state: z.string(),
      meaning: z.array(z.string()),
      why: z.array(z.string()),
      price: z.looseObject({ work: z.array(z.looseObject({ minutes: z.number() })) }).nullable(),
    })
    .nullable(),
  reworks: z.array(
    z.object({ id: z.string(), words: z.string(), taskIds: z.array(z.string()) }).loose(),
  ),
});
const read = async (id: string) =>
  snagSchema.parse((await call('ines', 'GET', `/snags/${id}`)).body);
const priced = async (id: string) => {
  await until(async () => (await read(id)).proposal?.state !== 'pricing', 60_000);
  return read(id);
};

describe('the rework of a snag', () => {
  let id: string;

  beforeAll(async () => {
    [id] = idsOf((await call('ines', 'GET', '/snags')).body);
  });

  it('is proposed and priced before anybody agrees to it', async () => {
    expect((await call('bram', 'POST', `/snags/${id}/propose`)).status).toBe(403);
    const asked = await call('ines', 'POST', `/snags/${id}/propose`);
    expect([asked.status, asked.body.state]).toEqual([202, 'proposed']);
    const { proposal } = await priced(id);
    expect(proposal).toMatchObject({ state: 'priced', why: [] });
    // 0.5 m²: laying 30 + 40 min/m²; grinding out 25 + 80 min/m²; wiping 10 + 4 min/m²: by whoever laid it.
    expect(proposal?.price?.work).toEqual([
      expect.objectContaining({ skill: 'laminating', minutes: 50 + 65 + 12 }),
    ]);
    expect(proposal?.meaning.join(' ')).toContain(
      'Void or dry spot in “lay-up” on Hatch of Petrel',
    );
    // Builders do not read what it costs.
    const seen = await call('bram', 'GET', `/snags/${id}`);
    expect(seen.body).toMatchObject({ state: 'proposed', proposal: null });
    expect(await database.owner.task.count({ where: { yardId, reworkId: { not: null } } })).toBe(0);
  });

  it('is part of the work once it is agreed to, and the log replays to it', async () => {
    const { proposal } = await read(id);
    const stale = await call('ines', 'POST', `/snags/${id}/accept`, { proposalId: 'another' });
    expect(stale.body.code).toBe('proposal.stale');
    const answer = await call('ines', 'POST', `/snags/${id}/accept`, { proposalId: proposal?.id });
    expect([answer.status, answer.body.state]).toEqual([200, 'accepted']);
    const { reworks } = snagSchema.parse(answer.body);
    expect(reworks).toHaveLength(1);
    expect(reworks[0].taskIds.map((one) => one.replace(/-[0-9a-f]{8}$/, ''))).toEqual([
      'petrel-panel.lay-up.cut-back',
      'petrel-panel.lay-up.wipe',
      'petrel-panel.lay-up.again',
    ]);
    const laid = await database.owner.task.findUniqueOrThrow({
      where: { yardId_id: { yardId, id: 'petrel-panel.lay-up' } },
    });
    expect([laid.state, laid.startedAt !== null]).toEqual(['redo', true]);
    const last = await database.owner.event.findFirst({
      where: { yardId, kind: 'rework-made' },
      orderBy: { id: 'desc' },
    });
    expect(last).toMatchObject({ subject: 'task', subjectId: 'petrel-panel.lay-up' });
    const differences = await inYard(database.service, service(yardId), (tx) =>
      verifyReplay(tx, yardId),
    );
    expect(differences).toEqual([]);
    const twice = await call('ines', 'POST', `/snags/${id}/accept`, { proposalId: proposal?.id });
    expect(twice.body.code).toBe('snag.state');
  });

  it('is to be done before the snag is settled', async () => {
    const early = await call('ines', 'POST', `/snags/${id}/settle`, { note: 'looks well' });
    expect([early.status, early.body.code]).toEqual([409, 'snag.state']);
    expect(String(early.body.detail)).toContain('Cut back to');
    const ready = await call('bram', 'GET', '/ready');
    const cut = (await read(id)).reworks[0].taskIds[0];
    expect(JSON.stringify(ready.body.ready)).toContain(cut);
  });

  it('is dismissed with what was proposed, and can be raised again', async () => {
    const other = idOf(await raise('bram', 'petrel-hatch', { taskId: null, kind: 'delamination' }));
    const none = await call('ines', 'POST', `/snags/${other}/propose`);
    // The only film is being done again.
    expect([none.status, none.body.code]).toEqual([409, 'snag.state']);
    const gone = await call('ines', 'POST', `/snags/${other}/dismiss`, { note: 'was the batten' });
    expect(gone.body).toMatchObject({ state: 'dismissed', note: 'was the batten' });
    const again = await call('ines', 'POST', `/snags/${other}/reopen`, { note: 'it is not' });
    expect(again.body).toMatchObject({ state: 'open' });
    const open = await call('ines', 'GET', '/snags?state=open&partId=petrel-hatch');
    expect(idsOf(open.body)).toEqual([other]);
  });
});

it('GraphQL tells the same', async () => {
  const { body } = await api.graphql(
    `query ($yardId: ID!) {
      snagKinds(yardId: $yardId) { items { kind name } }
      snags(yardId: $yardId, input: {}) { items { id state kindName photos { id width } } }
    }`,
    { yardId },
    { token: tokens.bram },
  );
  expect(body).toMatchObject({
    data: {
      snagKinds: {
        items: expect.arrayContaining([{ kind: 'PINHOLES', name: 'Pinholes' }]) as unknown,
      },
      snags: { items: [{ state: 'OPEN' }, { state: 'ACCEPTED', photos: [{ width: 1280 }] }] },
    },
  });
});
