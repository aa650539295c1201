import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { at20, cureApi } from '#tests/support/cure-api.ts';
import { publishPlan } from '#tests/support/published-plan.ts';

const { ask, database, get, patch } = cureApi();
const folder = mkdtempSync(join(tmpdir(), 'cure-'));
beforeAll(() => publishPlan(database, 'cure'));
afterAll(() => {
  rmSync(folder, { recursive: true });
});

describe('a mix sheet', () => {
  /**
   * 2 m² × 2 layers = 4 m² of cloth, × 300 g/m² = 1200 g; as much mix again, and 10 % waste: 1320 g.
   * 25 g of hardener to 100 g: 1320 / 1.25 = 1056 g of resin, 264 g of hardener, / 0.95 = 277.9 ml.
   * One builder lays for 30 + 40 × 2 = 110 min. The pot life at 20 °C is 25.0 min, half of it may
   * pass: 12.5 min are 150 g, so 1320 g take 9 cups, six of 147 g and three of 146 g.
   */
  it('is as reckoned by hand', async () => {
    const { body } = await get('published-plan/mix-sheets');
    const { items } = z
      .object({ items: z.array(z.looseObject({ mix: z.looseObject({}) })) })
      .parse(body);
    expect(items).toHaveLength(1);
    const potLife = at20(40, 20);
    expect(potLife).toBeCloseTo(25, 0);
    expect(items[0]).toMatchObject({ taskId: 'hatch-panel.lay-up', crew: [{ name: 'Bram' }] });
    expect(items[0].mix).toMatchObject({
      materialId: 'epoxy',
      celsius: 20,
      fabrics: [{ id: 'cloth', squareMetres: 4, grams: 1200 }],
      resinGrams: 1056,
      hardenerGrams: 264,
      hardenerDensity: 0.95,
      potLifeMinutes: Math.floor(potLife),
      useWithinMinutes: Math.floor(potLife / 2),
      missing: [],
    });
    const mix = z
      .object({
        hardenerMl: z.number(),
        cups: z.array(
          z.looseObject({
            resinGrams: z.number(),
            hardenerGrams: z.number(),
            hardenerMl: z.number(),
          }),
        ),
      })
      .parse(items[0].mix);
    expect(mix.hardenerMl).toBeCloseTo(264 / 0.95, 0);
    const weighed = mix.cups.map((cup) => [cup.resinGrams, cup.hardenerGrams, cup.hardenerMl]);
    const [large, small] = [
      [117.6, 29.4, 30.9],
      [116.8, 29.2, 30.7],
    ];
    expect(weighed).toEqual([...Array<number[]>(6).fill(large), ...Array<number[]>(3).fill(small)]);
  });

  it('is the one that the command line makes of the exported yard', async () => {
    const { body: yard } = await get('export', 'ines');
    const file = join(folder, 'yard.json');
    writeFileSync(file, JSON.stringify(yard));
    const program = new URL('../../apps/cli/plan.ts', import.meta.url).pathname;
    const run = spawnSync(process.execPath, [program, file, '--iterations', '64', '--json'], {
      encoding: 'utf8',
    });
    expect(run.stderr).toBe('');
    const sheet = z
      .object({ sheet: z.object({ tasks: z.array(z.looseObject({ id: z.string() })) }) })
      .parse(JSON.parse(run.stdout)).sheet;
    const task = sheet.tasks.find(({ id }) => id === 'hatch-panel.lay-up');
    const { body: published } = await get('published-plan');
    const { body } = await get(
      `plans/${z.string().parse(published.id)}/tasks/hatch-panel.lay-up/mix-sheet`,
    );
    expect(task?.start).toEqual(body.start);
    expect(body.mix).toEqual(task?.mix);
    expect(body.cautions).toEqual(task?.cautions);
    expect(body.cautions).toContainEqual(expect.objectContaining({ text: 'Keep the lid on.' }));
  });

  it('is read by day, by task, and in GraphQL', async () => {
    const { body } = await get('published-plan/mix-sheets?day=2026-11-30');
    const [{ mix }] = z.object({ items: z.array(z.looseObject({})) }).parse(body).items;
    expect((await get('published-plan/mix-sheets?day=2026-12-01')).body.items).toEqual([]);
    const asked = await ask(
      `mixSheet(yardId: "cure", taskId: "hatch-panel.lay-up") { taskId mix { resinGrams cups { number mixAt { local } } } cautions { text source } }`,
    );
    expect(asked).toMatchObject({ taskId: 'hatch-panel.lay-up', mix: { resinGrams: 1056 } });
    expect(mix).toMatchObject({ resinGrams: 1056 });
    expect(await ask('mixSheets(yardId: "cure", input: {}) { items { taskId } }')).toEqual({
      items: [{ taskId: 'hatch-panel.lay-up' }],
    });
    const missing = await get('published-plan', 'ines');
    const id = z.string().parse(missing.body.id);
    expect(await get(`plans/${id}/tasks/none/mix-sheet`)).toMatchObject({
      status: 404,
      body: { code: 'record.missing' },
    });
  });

  it('stays as it was made when the material changes, whose sheet does not', async () => {
    const before = await get('published-plan/mix-sheets');
    const density = async (): Promise<unknown> => {
      const { body } = await get('materials/epoxy/sheet');
      return z
        .object({ lines: z.array(z.object({ line: z.string(), value: z.number() })) })
        .parse(body)
        .lines.find(({ line }) => line === 'density of the hardener')?.value;
    };
    expect(await density()).toBe(0.95);
    const changed = { hardenerDensity: { value: 1.1, source: 'invented', spread: 1 } };
    expect((await patch('materials/epoxy', changed)).status).toBe(200);
    expect(await density()).toBe(1.1);
    expect((await get('published-plan/mix-sheets')).body).toEqual(before.body);
  });

  it('makes a shopping list with the shelf life', async () => {
    const { body } = await get('published-plan/shopping');
    expect(body.items).toEqual(
      expect.arrayContaining([
        expect.objectContaining({
          kind: 'resin',
          amount: 1056,
          week: '2026-11-30',
          shelfLifeDays: 365,
        }),
        expect.objectContaining({ kind: 'hardener', amount: 264 }),
        expect.objectContaining({ id: 'cloth', kind: 'fabric' }),
      ]),
    );
    expect(await ask('shopping(yardId: "cure") { items { kind amount week } }')).toMatchObject({
      items: expect.arrayContaining([
        { kind: 'RESIN', amount: 1056, week: '2026-11-30' },
      ]) as unknown[],
    });
  });

  it('goes with the task that is ready', async () => {
    const { body } = await get('ready?whose=all');
    expect(body.ready).toMatchObject([
      {
        taskId: 'hatch-panel.lay-up',
        mix: { resinGrams: 1056 },
        warnings: expect.any(Array) as unknown,
      },
    ]);
  });
});
