import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { BOND_RULES } from '#cure/bond/rules.ts';
import { CATALOGUE_VERSION, CLASSES } from '#cure/catalogue/classes.ts';
import { FABRICS } from '#cure/catalogue/fabrics.ts';
import { faultsOf, idsOf } from '#tests/support/api.ts';
import { at20, cureApi, minuteAgo, minutesBetween } from '#tests/support/cure-api.ts';

/** What is asked outside any plan, through both faces, of a yard that can be reckoned by hand. */
const { ask, get, patch, post } = cureApi();

describe('a film', () => {
  const laid = '2026-12-01T10:00:00Z';

  it('reaches its milestones by the climate of its space, each with its touch test', async () => {
    const { status, body } = await get(`materials/epoxy/film?space=bay&laidFrom=${laid}`);
    expect(status).toBe(200);
    const shape = z.object({
      marks: z.array(
        z.looseObject({ milestone: z.string(), when: z.object({ at: z.string() }).nullable() }),
      ),
      windows: z.array(z.looseObject({ kind: z.string(), empty: z.boolean() })),
      missing: z.array(z.object({ milestone: z.string(), line: z.string() })),
    });
    const { marks, windows, missing } = shape.parse(body);
    const of = (milestone: string): number =>
      minutesBetween(laid, marks.find((mark) => mark.milestone === milestone)?.when?.at ?? '');
    expect(of('sandable')).toBe(Math.ceil(at20(2400, 900)));
    expect(of('bond-closes')).toBe(Math.floor(at20(1800, 900)));
    expect(of('cured')).toBe(Math.ceil(at20(20_160, 10_080)));
    expect(windows).toMatchObject([{ kind: 'bond', empty: false }]);
    expect(missing.map(({ milestone }) => milestone)).toContain('gel');
    expect(marks.map(({ milestone }) => milestone)).not.toContain('gel');
  });

  it('laid for longer than its bond window lasts has none', async () => {
    const until = '2026-12-03T10:00:00Z';
    const window = `filmTimes(yardId: "cure", materialId: "epoxy", input: { space: "bay", laidFrom: "${laid}", laidUntil: "${until}" }) { windows { kind empty opens { local } closes { local } } }`;
    expect(await ask(window)).toMatchObject({ windows: [{ kind: 'BOND', empty: true }] });
  });

  it('that is to be sandable at seven is laid no later than so, to the minute', async () => {
    const by = '2026-12-03T07:00:00Z';
    const asked = `materials/epoxy/latest-start?space=bay&milestone=sandable&by=${by}`;
    const { body } = await get(asked);
    const shape = z.object({ start: z.object({ at: z.string() }) });
    const { start } = shape.parse(body);
    expect(body).toMatchObject({ bound: 'latest', milestone: 'sandable' });
    expect(minutesBetween(start.at, by)).toBe(Math.ceil(at20(2400, 900)));
    const hour = shape.parse((await get(`${asked}&minutes=60`)).body);
    expect(minutesBetween(hour.start.at, start.at)).toBe(60);
    expect(
      await ask(
        `latestStart(yardId: "cure", materialId: "epoxy", input: { space: "bay", milestone: BOND_CLOSES, by: "${by}" }) { bound start { at } words }`,
      ),
    ).toMatchObject({ bound: 'EARLIEST' });
  });

  it.each([
    ['film?space=moon&laidFrom=2026-12-01T10:00:00Z', 422, 'space', 'yard.reference'],
    ['film?space=bay&laidFrom=tomorrow', 422, 'laidFrom', 'input.field'],
    [
      'film?space=bay&laidFrom=2026-12-01T10:00:00Z&laidUntil=2026-12-01T09:00:00Z',
      422,
      'laidUntil',
      'input.field',
    ],
    [
      'latest-start?space=bay&milestone=hard&by=2026-12-01T10:00:00Z',
      422,
      'milestone',
      'input.field',
    ],
  ])('asked with %s is refused', async (query, status, place, code) => {
    const answer = await get(`materials/epoxy/${query}`);
    expect(answer.status).toBe(status);
    expect(faultsOf(answer.body)).toEqual([[place, code]]);
  });

  it('of a milestone that the sheet has not, or of a material that the yard has not, is refused', async () => {
    const by = 'by=2026-12-01T10:00:00Z';
    expect(
      (await get(`materials/epoxy/latest-start?space=bay&milestone=gel&${by}`)).body,
    ).toMatchObject({
      code: 'cure.missing',
      detail: expect.stringContaining('gel') as string,
    });
    expect(await get(`materials/honey/latest-start?space=bay&milestone=gel&${by}`)).toMatchObject({
      status: 404,
      body: { code: 'record.missing' },
    });
  });
});

describe('a space', () => {
  /** The dew point of 20 °C and 60 % is 12.00 °C by the Magnus formula (Sonntag, from memory). */
  it('has its climate hour by hour, with the dew point and a word on a material', async () => {
    const { body } = await get(
      'spaces/bay/climate?from=2026-12-01T10:20:00Z&until=2026-12-01T12:00:00Z&material=epoxy',
    );
    const { hours } = z
      .object({ hours: z.array(z.looseObject({ dewPointC: z.number(), marginC: z.number() })) })
      .parse(body);
    expect(hours.map(({ when }) => when)).toMatchObject([
      { local: '2026-12-01T10:00' },
      { local: '2026-12-01T11:00' },
      { local: '2026-12-01T12:00' },
    ]);
    expect(hours[0]).toMatchObject({
      air: { cold: 20, expected: 20, warm: 20 },
      humidity: 60,
      verdict: 'warn',
      reasons: [expect.stringContaining('more than 50 %')],
    });
    expect(hours[0].dewPointC).toBeCloseTo(12, 1);
    expect(hours[0].marginC).toBeCloseTo(8, 1);
    const range = 'from: "2026-12-01T10:00:00Z", until: "2026-12-01T10:00:00Z"';
    expect(
      await ask(
        `spaceClimate(yardId: "cure", spaceId: "hull", input: { ${range} }) { hours { humidity verdict } }`,
      ),
    ).toEqual({ hours: [{ humidity: null, verdict: null }] });
  });

  it('is not shown backwards, nor for a year', async () => {
    const from = 'spaces/bay/climate?from=2026-12-01T10:00:00Z';
    for (const until of ['2026-11-30T10:00:00Z', '2027-12-01T10:00:00Z']) {
      const { body } = await get(`${from}&until=${until}`);
      expect(faultsOf(body)).toEqual([['until', 'input.field']]);
    }
    expect(
      (await get('spaces/moon/climate?from=2026-12-01T10:00:00Z&until=2026-12-01T10:00:00Z'))
        .status,
    ).toBe(404);
  });
});

describe('the catalogue', () => {
  it('is the library’s, with its version', async () => {
    const { body } = await get('catalogue/classes');
    expect(body.catalogue).toBe(CATALOGUE_VERSION);
    expect(idsOf(body)).toEqual(CLASSES.map(({ id }) => id));
    expect((await get('catalogue/classes/gel-coat')).body).toMatchObject({
      id: 'gel-coat',
      use: 'gel-coat',
    });
    expect((await get('catalogue/classes/honey')).status).toBe(404);
    expect(idsOf((await get('catalogue/fabrics')).body)).toEqual(FABRICS.map(({ id }) => id));
    expect(idsOf((await get('catalogue/bond-rules')).body)).toEqual(BOND_RULES.map(({ id }) => id));
    expect(
      await ask(
        'materialClass(yardId: "cure", id: "epoxy-fast") { base times { milestone trust source } }',
      ),
    ).toMatchObject({ base: 'EPOXY' });
    expect(
      await ask('bondRules(yardId: "cure") { items { id when { substrate binder } } }'),
    ).toMatchObject({
      items: BOND_RULES.map(({ id }) => ({ id })),
    });
  });
});

describe('a bond', () => {
  const cured = { substrate: 'epoxy', kind: 'sealed', stage: 'cured', blush: true };
  const gelCoat = { base: 'polyester', use: 'laminating', bonding: 'structural' };

  /** Structural polyester on cured epoxy: "bond not adequate" (Jamestown Distributors, read). */
  it('of structural polyester to cured epoxy is refused, with the reason', async () => {
    const { status, body } = await post('bond-checks', { surface: cured, next: gelCoat });
    expect([status, body.bond]).toEqual([200, 'refused']);
    expect(body.reason).not.toBe('');
    const epoxy = `bondCheck(yardId: "cure", input: { surface: { substrate: EPOXY, kind: SEALED, stage: CURED, blush: true }, next: { base: EPOXY, use: LAMINATING } }) { bond preparation { kind grit } source }`;
    expect(await ask(epoxy)).toMatchObject({
      bond: 'MECHANICAL',
      preparation: [
        { kind: 'WASH', grit: null },
        { kind: 'ABRADE', grit: 80 },
        { kind: 'EXTRACT', grit: null },
        { kind: 'WIPE', grit: null },
      ],
    });
  });

  it('to a part goes by what is exposed on it', async () => {
    expect((await get('parts/hatch/surface')).body).toMatchObject({
      partId: 'hatch',
      surface: { substrate: 'wood', kind: 'bare', stage: 'cured', ageMinutes: null, done: [] },
      bond: null,
    });
    const layers = [
      { base: 'wood' },
      { base: 'epoxy', material: 'epoxy', surface: 'sealed', laidAt: minuteAgo(600) },
    ];
    expect((await patch('parts/hatch', { layers })).status).toBe(200);
    // Bonds from 178 to 1,208 minutes at 20 °C.
    expect((await get('parts/hatch/surface?material=epoxy')).body).toMatchObject({
      surface: { substrate: 'epoxy', stage: 'open', ageMinutes: 600 },
      bond: { bond: 'chemical' },
    });
    expect(
      await ask(
        'partSurface(yardId: "cure", partId: "hatch", input: {}) { surface { substrate stage } }',
      ),
    ).toEqual({ surface: { substrate: 'EPOXY', stage: 'OPEN' } });
    expect((await get('parts/none/surface')).status).toBe(404);
    expect(faultsOf((await get('parts/hatch/surface?material=honey')).body)).toEqual([
      ['material', 'yard.reference'],
    ]);
  });
});
