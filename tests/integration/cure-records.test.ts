import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { CATALOGUE_VERSION } from '#cure/catalogue/classes.ts';
import { faultsOf, idsOf } from '#tests/support/api.ts';
import { at20, cureApi, minuteAgo } from '#tests/support/cure-api.ts';
import { cureYard } from '#tests/support/cure-yard.ts';

/** Readings, observations, data sheets and fabrics through both faces, and what is refused of them. */
const { api, ask, database, get, patch, post, remove, token } = cureApi();

describe('readings', () => {
  const at = minuteAgo(600);

  it('are added by a builder, read by space and time, and taken away by the foreman', async () => {
    const sent = [
      { id: 'r1', space: 'hull', at, minutes: 60, celsius: 16, humidity: 80 },
      { space: 'hull', at: minuteAgo(540), celsius: 8 },
      { space: 'bay', of: 'surface', at, celsius: 19 },
    ];
    const added = await post('readings', { readings: sent });
    expect(added.status).toBe(201);
    const [first, second] = idsOf(added.body);
    expect(first).toBe('r1');
    expect(second).toMatch(/^reading-[0-9a-f-]{36}$/);
    expect((await get('readings?space=hull')).body.items).toMatchObject([
      { id: 'r1', of: 'air', at, minutes: 60, humidity: 80, note: '' },
      { id: second, celsius: 8 },
    ]);
    expect(idsOf((await get(`readings?space=hull&from=${minuteAgo(550)}`)).body)).toEqual([second]);
    expect(
      await ask('readings(yardId: "cure", input: { space: "bay" }) { items { of celsius } }'),
    ).toEqual({ items: [{ of: 'SURFACE', celsius: 19 }] });
    expect(await get(`readings/${second}`)).toMatchObject({ status: 200 });
    const gone = await remove(`readings/${second}`);
    expect(gone.status).toBe(204);
    expect((await get(`readings/${second}`)).status).toBe(404);
    const events = await database.owner.event.findMany({
      where: { yardId: 'cure', subject: 'space' },
      orderBy: { id: 'asc' },
    });
    expect(events.map(({ kind, subjectId, byMemberId }) => [kind, subjectId, byMemberId])).toEqual([
      ['readings-added', 'hull', 'bram'],
      ['readings-added', 'bay', 'bram'],
      ['reading-removed', 'hull', 'ines'],
    ]);
  });

  it('correct the climate that is shown', async () => {
    const { body } = await get(`spaces/hull/climate?from=${at}&until=${minuteAgo(540)}`);
    const { hours } = z
      .object({ hours: z.array(z.object({ air: z.object({ expected: z.number() }) })) })
      .parse(body);
    // Forecast are 7 to 11 °C there; the full hour may be any minute of the reading's, with its swing.
    const nearest = Math.min(...hours.map(({ air }) => Math.abs(air.expected - 16)));
    expect(nearest).toBeLessThan(2);
  });

  it.each([
    ['of the same hour', { at: minuteAgo(570), celsius: 8 }, 'readings[0].at', 'cure.reading'],
    [
      'that ends in another',
      { at: minuteAgo(620), minutes: 30, celsius: 8 },
      'readings[0].at',
      'cure.reading',
    ],
    ['from the future', { at: minuteAgo(-120), celsius: 8 }, 'readings[0].at', 'cure.reading'],
    [
      'in Fahrenheit',
      { at: minuteAgo(30), celsius: 68 },
      'readings[0].celsius',
      'cure.implausible',
    ],
    [
      'of no space',
      { at: minuteAgo(30), celsius: 8, space: 'moon' },
      'readings[0].space',
      'yard.reference',
    ],
  ])('%s are refused', async (_what, reading, place, code) => {
    const answer = await post('readings', { readings: [{ space: 'hull', ...reading }] });
    expect(answer.status).toBe(422);
    expect(faultsOf(answer.body)).toEqual([[place, code]]);
    const [error] = z
      .object({ errors: z.array(z.looseObject({ cure: z.string() })) })
      .parse(answer.body).errors;
    expect(error.cure).not.toBe('');
  });

  it('sent twice with one key are taken once, and without one overlap themselves', async () => {
    const body = { readings: [{ space: 'bay', at: minuteAgo(900), minutes: 60, celsius: 20 }] };
    const send = (headers: Record<string, string>) =>
      api.rest('POST', '/yards/cure/readings', { token: token.bram, body, headers });
    const first = await send({ 'idempotency-key': 'logger-1' });
    const again = await send({ 'idempotency-key': 'logger-1' });
    expect([first.status, again.status]).toEqual([201, 201]);
    expect(again.body).toEqual(first.body);
    expect(faultsOf((await send({})).body)).toEqual([['readings[0].at', 'cure.reading']]);
  });

  it('are all refused where one is', async () => {
    const two = {
      readings: [
        { id: 'good', space: 'bay', at: minuteAgo(20), celsius: 19 },
        { space: 'bay', at: minuteAgo(-20), celsius: 19 },
      ],
    };
    expect(faultsOf((await post('readings', two)).body)).toEqual([
      ['readings[1].at', 'cure.reading'],
    ]);
    expect((await get('readings/good')).status).toBe(404);
  });
});

describe('observations', () => {
  const found = (change: object) => ({
    material: 'epoxy',
    milestone: 'sandable',
    found: 'just-now',
    space: 'bay',
    laidAt: minuteAgo(3000),
    at: minuteAgo(60),
    ...change,
  });

  it('move the yard’s own factor, and show what it rests on', async () => {
    const before = await get('materials/epoxy/calibration');
    expect(before.body).toEqual({
      materialId: 'epoxy',
      milestones: [],
      massPower: null,
      unused: [],
    });
    const added = await post('observations', found({ id: 'o1' }));
    expect([added.status, added.body.id]).toEqual([201, 'o1']);
    expect((await post('observations', found({ id: 'o2', milestone: 'gel' }))).status).toBe(201);
    const { body } = await get('materials/epoxy/calibration');
    expect(body).toMatchObject({
      milestones: [
        {
          milestone: 'sandable',
          prior: { factor: 1, spread: 1 },
          evidence: [{ observationId: 'o1', found: 'just-now' }],
        },
      ],
      unused: ['o2'],
    });
    const [{ evidence }] = z
      .object({
        milestones: z.array(z.object({ evidence: z.array(z.object({ age: z.number() })) })),
      })
      .parse(body).milestones;
    // 2,940 min of the sheet's 1,234 or so.
    expect(evidence[0].age).toBeCloseTo(2940 / at20(2400, 900), 1);
    expect(
      await ask(
        'calibration(yardId: "cure", materialId: "epoxy") { milestones { milestone evidence { observationId } } }',
      ),
    ).toEqual({ milestones: [{ milestone: 'SANDABLE', evidence: [{ observationId: 'o1' }] }] });
    expect(idsOf((await get('observations?material=epoxy')).body)).toEqual(['o1', 'o2']);
    expect(await remove('observations/o1', 'bram')).toMatchObject({
      status: 403,
    });
    for (const id of ['o1', 'o2']) {
      const gone = await remove(`observations/${id}`);
      expect(gone.status).toBe(204);
    }
    expect((await get('materials/honey/calibration')).status).toBe(404);
  });

  it.each([
    ['from the future', { at: minuteAgo(-60) }, 'at', 'cure.reading'],
    ['of nothing that the yard has', { material: 'honey' }, 'material', 'yard.reference'],
  ])('%s are refused', async (_what, change, place, code) => {
    const answer = await post('observations', found(change));
    expect(answer.status).toBe(422);
    expect(faultsOf(answer.body)).toContainEqual([place, code]);
  });
});

describe('a material', () => {
  const laminating = {
    id: 'lam',
    name: 'Laminating resin',
    classId: 'laminating-polyester',
    resinSystem: 'polyester',
  };

  it('of a class has the class’s numbers with their sources, and the yard’s own in their place', async () => {
    expect((await post('materials', laminating, 'ines')).status).toBe(201);
    const sheet = z.looseObject({
      lines: z.array(
        z.looseObject({ line: z.string(), value: z.number(), overridden: z.boolean() }),
      ),
      missing: z.array(z.object({ milestone: z.string(), line: z.string() })),
    });
    const before = sheet.parse((await get('materials/lam/sheet')).body);
    expect(before).toMatchObject({ classId: 'laminating-polyester', catalogue: CATALOGUE_VERSION });
    expect(before.lines.every(({ source }) => typeof source === 'string' && source !== '')).toBe(
      true,
    );
    expect(before.lines.some(({ overridden }) => overridden)).toBe(false);
    expect(before.missing.length).toBeGreaterThan(0);
    const done = await patch('materials/lam', {
      minimumC: 16,
      milestones: [
        {
          milestone: 'sandable',
          rows: [
            { celsius: 15, minutes: 2880 },
            { celsius: 25, minutes: 1440 },
          ],
          source: 'sheet of 2026',
        },
      ],
    });
    expect(done.status).toBe(200);
    const after = sheet.parse((await get('materials/lam/sheet')).body);
    expect(after.lines.find(({ line }) => line === 'minimum temperature')).toMatchObject({
      value: 16,
      overridden: true,
    });
    expect(after.times).toContainEqual(
      expect.objectContaining({ milestone: 'sandable', overridden: true, source: 'sheet of 2026' }),
    );
    expect(
      await ask(
        'materialSheet(yardId: "cure", id: "lam") { id classId missing { milestone line } cautions { text source } }',
      ),
    ).toMatchObject({ classId: 'laminating-polyester' });
  });

  it('keeps what it said before each change, and by whom', async () => {
    await patch('materials/lam', { name: 'Resin in drums' });
    const shape = z.object({
      items: z.array(
        z.object({
          version: z.number(),
          by: z.string().nullable(),
          material: z.looseObject({ name: z.string(), minimumC: z.number().nullable() }),
        }),
      ),
    });
    const { items } = shape.parse((await get('materials/lam/versions')).body);
    expect(
      items.map(({ version, by, material }) => [version, by, material.name, material.minimumC]),
    ).toEqual([
      [3, 'ines', 'Resin in drums', 16],
      [2, 'ines', 'Laminating resin', 16],
      [1, 'ines', 'Laminating resin', null],
    ]);
    await remove('materials/lam');
    await post('materials', laminating, 'ines');
    expect(
      await ask('materialVersions(yardId: "cure", id: "lam") { items { version by } }'),
    ).toMatchObject({ items: [{ version: 4 }, { version: 3 }, { version: 2 }, { version: 1 }] });
    expect((await get('materials/epoxy/versions')).body).toMatchObject({
      items: [{ version: 1, by: null }],
    });
    expect((await get('materials/honey/versions')).status).toBe(404);
  });

  it('with isocyanate says so among its cautions', async () => {
    const cautions = async (): Promise<string> =>
      JSON.stringify((await get('materials/lam/sheet')).body.cautions);
    expect(await cautions()).not.toContain('isocyanate');
    expect((await patch('materials/lam', { isocyanate: true })).status).toBe(200);
    expect(await cautions()).toContain('isocyanate');
  });

  it.each([
    [
      'hardener outside its range',
      { hardener: { kind: 'percent', used: 6 } },
      'hardener.used',
      'cure.hardener',
    ],
    [
      'a temperature in Fahrenheit',
      {
        milestones: [
          {
            milestone: 'gel',
            rows: [
              { celsius: 59, minutes: 40 },
              { celsius: 77, minutes: 20 },
            ],
            source: 's',
          },
        ],
      },
      'milestones[0].rows[1].celsius',
      'cure.implausible',
    ],
    [
      'an unknown milestone',
      { milestones: [{ milestone: 'hard', rows: [], source: 's' }] },
      'milestones[0].milestone',
      'input.field',
    ],
    ['an unknown class', { classId: 'honey' }, 'classId', 'yard.reference'],
  ])('with %s is refused', async (_what, change, place, code) => {
    const answer = await patch('materials/lam', change);
    expect(answer.status).toBe(422);
    expect(faultsOf(answer.body)).toContainEqual([place, code]);
  });
});

/** The same bad input as above, in the other face: one list of faults, wherever it came in. */
describe('in GraphQL', () => {
  const faults = async (text: string): Promise<[string, string][]> => {
    const { body } = await api.graphql(`mutation { ${text} }`, {}, { token: token.ines });
    const { errors } = z
      .object({
        data: z.null(),
        errors: z.array(z.object({ extensions: z.object({ faults: z.unknown() }) })).length(1),
      })
      .parse(body);
    return faultsOf({ errors: errors[0].extensions.faults });
  };
  const reading = (fields: string) =>
    `addReadings(yardId: "cure", input: { readings: [{ space: "hull", ${fields} }] }) { items { id } }`;
  const finding = (fields: string) =>
    `addObservation(yardId: "cure", input: { material: "epoxy", milestone: SANDABLE, found: ALREADY, space: "bay", ${fields} }) { id }`;
  const material = (fields: string) =>
    `createMaterial(yardId: "cure", input: { id: "new", name: "New", classId: "laminating-polyester", resinSystem: POLYESTER, ${fields} }) { id }`;

  it.each([
    [
      'a reading from the future',
      reading(`at: "${minuteAgo(-120)}", celsius: 8`),
      'readings[0].at',
      'cure.reading',
    ],
    [
      'overlapping readings',
      `addReadings(yardId: "cure", input: { readings: [
        { space: "hull", at: "${minuteAgo(90)}", minutes: 60, celsius: 8 }
        { space: "hull", at: "${minuteAgo(60)}", celsius: 8 }
      ] }) { items { id } }`,
      'readings[1].at',
      'cure.reading',
    ],
    [
      'a reading in Fahrenheit',
      reading(`at: "${minuteAgo(30)}", celsius: 68`),
      'readings[0].celsius',
      'cure.implausible',
    ],
    [
      'an observation from the future',
      finding(`laidAt: "${minuteAgo(60)}", at: "${minuteAgo(-90)}"`),
      'at',
      'cure.reading',
    ],
    [
      'an observation before it was laid',
      finding(`laidAt: "${minuteAgo(60)}", at: "${minuteAgo(90)}"`),
      'at',
      'input.field',
    ],
    [
      'hardener outside its range',
      material('hardener: { kind: PERCENT, used: 6 }'),
      'hardener.used',
      'cure.hardener',
    ],
  ])('%s is refused', async (_what, text, place, code) => {
    expect(await faults(text)).toContainEqual([place, code]);
  });

  it('an unknown milestone is no word of the schema', async () => {
    const { body } = await api.graphql(
      `query { latestStart(yardId: "cure", materialId: "epoxy", input: { space: "bay", milestone: HARD, by: "${minuteAgo(0)}" }) { words } }`,
      {},
      { token: token.ines },
    );
    expect(body).toMatchObject({
      data: null,
      errors: [
        {
          message: expect.stringContaining('HARD') as string,
          extensions: { code: 'input.malformed' },
        },
      ],
    });
  });
});

describe('fabrics', () => {
  it('are kept like other things of the yard, and not taken away while used', async () => {
    const mat = {
      id: 'mat',
      name: 'Mat 450',
      gramsPerM2: 450,
      resinRatio: 2.3,
      source: 'invented',
    };
    expect(await post('fabrics', mat, 'ines')).toMatchObject({
      status: 201,
      body: { binder: 'none' },
    });
    expect(await patch('fabrics/mat', { binder: 'powder' })).toMatchObject({ status: 200 });
    expect(await ask('fabrics(yardId: "cure") { items { id binder } }')).toEqual({
      items: [
        { id: 'cloth', binder: 'NONE' },
        { id: 'mat', binder: 'POWDER' },
      ],
    });
    for (const [id, status] of [
      ['mat', 204],
      ['cloth', 409],
    ] as const) {
      const gone = await remove(`fabrics/${id}`);
      expect([id, gone.status]).toEqual([id, status]);
    }
  });
});

describe('a part', () => {
  it('without an area cannot be laminated', async () => {
    const answer = await patch('parts/hatch', { areaM2: 0 });
    expect(answer.status).toBe(422);
    expect(faultsOf(answer.body)).toContainEqual(['areaM2', 'input.field']);
  });
});

describe('the whole yard', () => {
  it('goes out and comes in as it is', async () => {
    const { body } = await get('export', 'ines');
    const copy = { ...body, id: 'copy' };
    const made = await api.rest('POST', '/yards', { token: token.ines, body: copy });
    expect(made.status).toBe(201);
    const out = await api.rest('GET', '/yards/copy/export', { token: token.ines });
    expect(out.body).toEqual(copy);
  });

  it('is not taken in with a reading from the future', async () => {
    const readings = [{ id: 'late', space: 'bay', at: minuteAgo(-600), celsius: 20 }];
    const body = { ...cureYard(), id: 'late', readings };
    const made = await api.rest('POST', '/yards', { token: token.ines, body });
    expect(made.status).toBe(422);
    expect(faultsOf(made.body)).toEqual([['readings[0].at', 'cure.reading']]);
  });
});
