import { describe, expect, test } from 'vitest';
import { faultsOf } from '../support/api.ts';
import { smallYardApi } from '../support/small-yard-api.ts';
import { smallYard } from '../support/small-yard.ts';

/** Slots, deliveries, stocks, barriers and words: kept one by one, and used by a procedure. */
const { api, database, tokens } = smallYardApi();

const ask = (method: string, path: string, body?: object, ifMatch?: string) =>
  api.rest(method, `/yards/small/${path}`, {
    token: tokens.foreman,
    ...(body === undefined ? {} : { body }),
    ...(ifMatch === undefined ? {} : { headers: { 'if-match': ifMatch } }),
  });

const records = [
  {
    path: 'deliveries',
    record: { id: 'teak', name: 'Teak', expected: '2026-12-02T07:00:00Z' },
    change: { expected: '2026-12-03T07:00:00Z' },
    wrong: { expected: 'soon' },
    field: 'expected',
  },
  {
    path: 'slot-lists',
    record: {
      id: 'survey',
      name: 'Surveyor',
      kind: 'surveyor',
      slots: [
        {
          from: '2026-12-07T09:00:00Z',
          to: '2026-12-07T12:00:00Z',
          price: 9000,
          noticeHours: 24,
          booked: false,
        },
      ],
    },
    change: { name: 'Surveyor Mol' },
    wrong: { kind: 'comet' },
    field: 'kind',
  },
  {
    path: 'stocks',
    record: { id: 'cloth', name: 'Cloth', unit: 'm2', total: 20 },
    change: { total: 25.5 },
    wrong: { total: -1 },
    field: 'total',
  },
  {
    path: 'barriers',
    record: { id: 'door', name: 'Door', closed: false, blocks: [{ from: 'bay', to: 'bay' }] },
    change: { closed: true },
    wrong: { blocks: [] },
    field: 'blocks',
  },
];

describe.each(records)('$path', ({ path, record, change, wrong, field }) => {
  test('that nothing uses are removed', async () => {
    const spare = { ...record, id: 'spare' };
    expect((await ask('POST', path, spare)).status).toBe(201);
    expect((await ask('DELETE', `${path}/spare`, undefined, '"1"')).status).toBe(204);
    expect((await ask('GET', `${path}/spare`)).status).toBe(404);
  });

  test('are added, read, changed with their ETag and listed', async () => {
    const made = await ask('POST', path, record);
    expect(made).toMatchObject({ status: 201, body: { ...record, revision: 1 } });
    expect((await ask('POST', path, record)).status).toBe(409);
    const refused = await ask('PATCH', `${path}/${record.id}`, wrong, '"1"');
    expect(refused.status).toBe(422);
    expect(faultsOf(refused.body).map(([place]) => place)).toEqual([field]);
    expect((await ask('PATCH', `${path}/${record.id}`, change)).status).toBe(428);
    const changed = await ask('PATCH', `${path}/${record.id}`, change, '"1"');
    expect(changed).toMatchObject({ status: 200, body: { ...record, ...change, revision: 2 } });
    expect((await ask('PATCH', `${path}/${record.id}`, change, '"1"')).status).toBe(412);
    expect((await ask('GET', path)).body).toMatchObject({ items: [{ ...record, ...change }] });
  });
});

describe('a procedure that uses them', () => {
  const [layUp, fair] = smallYard().procedures?.[0].steps ?? [];

  test('keeps them, and a reference to nothing is refused', async () => {
    const procedure = {
      id: 'inspected',
      name: 'Inspected panel',
      steps: [
        { ...layUp, consumes: [{ stock: 'cloth', perM2: 1.2 }], price: 500 },
        {
          id: 'look',
          name: 'Surveyor looks',
          effort: { source: 'nobody works' },
          skill: null,
          crewMin: 0,
          crewMax: 0,
          air: 'clean',
          splittable: false,
          onPart: false,
        },
        { ...fair, barrier: null },
      ],
      links: [
        { id: 'first', from: 'lay-up', to: 'look', opens: { kind: 'after', minutes: 0 } },
        { id: 'then', from: 'look', to: 'fair', opens: { kind: 'after', minutes: 0 } },
      ],
    };
    const nothing = {
      ...procedure,
      steps: procedure.steps.map((step, i) => (i === 1 ? { ...step, slots: 'moon' } : step)),
    };
    const refused = await ask('POST', 'procedures', nothing);
    expect(refused).toMatchObject({ status: 422, body: { code: 'yard.reference' } });
    expect((await ask('POST', 'procedures', procedure)).status).toBe(201);
    const inUse = await ask('DELETE', 'stocks/cloth', undefined, '"2"');
    expect(inUse).toMatchObject({ status: 409, body: { code: 'record.in-use' } });
  });

  test('makes tasks, and its job says what they wait for', async () => {
    const job = {
      id: 'inspect',
      procedure: 'inspected',
      waitsFor: [{ delivery: 'teak', step: 'fair' }],
      words: [{ step: 'look', expected: '2026-12-09T10:00:00Z' }],
    };
    const made = await ask('POST', 'parts/hatch/jobs', job);
    expect(made).toMatchObject({ status: 201, body: { ...job, destination: null, joins: [] } });
    const tasks = await database.owner.task.findMany({
      where: { yardId: 'small', jobId: 'inspect' },
      orderBy: { position: 'asc' },
    });
    expect(
      tasks.map(({ stepId, skillId, crewMax, price }) => [stepId, skillId, crewMax, price]),
    ).toEqual([
      ['lay-up', 'laminating', 2, 500],
      ['look', null, 0, 0],
      ['fair', 'fairing', 2, 0],
    ]);
    const later = { words: [{ step: 'look', expected: '2026-12-10T10:00:00Z' }], waitsFor: [] };
    const changed = await ask('PATCH', 'jobs/inspect', later, '"1"');
    expect(changed).toMatchObject({ status: 200, body: { ...later, procedure: 'inspected' } });
    const wrong = await ask(
      'PATCH',
      'jobs/inspect',
      {
        words: [{ step: 'fair', expected: '2026-12-10T10:00:00Z' }],
      },
      '"2"',
    );
    expect(wrong.status).toBe(422);
    expect((await ask('DELETE', 'deliveries/teak', undefined, '"2"')).status).toBe(204);
  });
});

describe('what somebody earns', () => {
  test('is for the foreman and for themselves to know', async () => {
    const person = await ask('GET', 'people/bram');
    const paid = await ask(
      'PATCH',
      'people/bram',
      {
        hourlyCost: 3100,
        overtimeHourlyExtra: 1550,
        overtime: [{ weekday: 5, from: '16:00', to: '18:00' }],
      },
      person.headers.get('etag') ?? '',
    );
    expect(paid).toMatchObject({ status: 200, body: { hourlyCost: 3100 } });
    const anke = { ...smallYard().people?.[1], id: 'anke', name: 'Anke', email: 'anke@yard.test' };
    expect((await ask('POST', 'people', { ...anke, hourlyCost: 2900 })).status).toBe(201);
    const { body } = await api.rest('GET', '/yards/small/people', { token: tokens.builder });
    const seen = (body.items as { id: string; hourlyCost: number | null }[]).map(
      ({ id, hourlyCost }) => [id, hourlyCost],
    );
    expect(seen).toEqual([
      ['ines', null],
      ['bram', 3100],
      ['odile', null],
      ['anke', null],
    ]);
  });
});
