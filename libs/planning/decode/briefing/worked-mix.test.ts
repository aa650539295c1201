import { describe, expect, it } from 'vitest';
import { check } from '#scheduling/checker/check.ts';
import { solve } from '#scheduling/solve.ts';
import { compile } from '../../compile/compile.ts';
import { smallYard } from '../../testing/small-yard.ts';
import { makeWorkload } from '../../workload/make.ts';
import type { MaterialFigure } from '../../yard/materials.ts';
import type { Yard } from '../../yard/yard.ts';
import { makeSheet } from '../make-sheet.ts';
import { printSheet } from '../print/print.ts';
import type { PlanSheet } from '../sheet.ts';

const exact = (value: number): MaterialFigure => ({
  value,
  source: 'made up for tests',
  trust: 'sheet',
  spread: 1,
});

/**
 * The small yard's first coat as a layer of mat on an old polyester lid: 2 m², one layer of
 * 300 g/m² at 2 to 1, a tenth more for cups and brushes; 2 % of a hardener of 1.17 kg/l; the
 * cup of 100 g lasts 30 min at 20 °C, and a larger one by the cube root of its mass shorter.
 */
function lidOfMat(change: (draft: Yard) => void = () => undefined): Yard {
  return smallYard((yard) => {
    const [resin] = yard.materials;
    Object.assign(resin, {
      resinSystem: 'polyester',
      surface: 'inhibited',
      hardener: {
        kind: 'percent',
        usual: exact(2),
        used: 2,
        warn: { low: 1, high: 2 },
        block: { low: 1, high: 2.5 },
        effect: null,
      },
      hardenerDensity: exact(1.17),
      referenceGrams: exact(100),
      referenceMm: exact(50),
      massPower: exact(1 / 3),
      thicknessPower: exact(0.25),
      shelfLifeDays: exact(90),
      cautions: ['Keep the tin shut.'],
    } satisfies Partial<Yard['materials'][number]>);
    yard.fabrics = [
      {
        id: 'mat',
        name: 'Mat 300',
        gramsPerM2: 300,
        resinRatio: 2,
        binder: 'powder',
        source: 'made up for tests',
      },
    ];
    const [sand, one] = yard.procedures[0].steps;
    sand.prepares = [
      { kind: 'wash', grit: null, mm: null, passes: 1 },
      { kind: 'abrade', grit: 80, mm: null, passes: 1 },
      { kind: 'extract', grit: null, mm: null, passes: 1 },
    ];
    one.quantity = { kind: 'laminate', plies: [{ fabric: 'mat', layers: 1 }], wastePercent: 10 };
    one.cleanDownMinutes = 10;
    yard.boats[0].refits[0].parts[0].layers = [
      {
        base: 'polyester',
        material: null,
        surface: 'bare',
        waxed: false,
        laidAt: null,
        mm: null,
      },
    ];
    change(yard);
  });
}

function sheetOf(yard: Yard): PlanSheet {
  const workload = makeWorkload(yard);
  const compiled = compile({ yard, workload });
  const result = solve(compiled.problem, { seed: 1, iterations: 16 });
  if (result.plan === null) throw new Error('no plan was found');
  expect(check(compiled.problem, result.plan)).toEqual([]);
  return makeSheet({ compiled, result, yard, workload });
}

describe('the mix sheet of a worked job', () => {
  const sheet = sheetOf(lidOfMat());
  const one = sheet.tasks.find(({ id }) => id === 'lid.one');

  it('weighs what the arithmetic gives', () => {
    /*
     * Fabric: 2 m² × 1 layer = 2 m², × 300 g/m² = 600 g.
     * Mix: 600 g × 2 = 1200 g, a tenth more: 1320 g.
     * Coat one takes 09:20 to 10:20, 60 min: 22 g a minute.
     *   5 cups of 264 g: life 30 × 2.64^(-1/3) = 21.7 min, half of it 10.9; spread in 12: too long.
     *   6 cups of 220 g: life 30 × 2.2^(-1/3) = 23.07 min, half of it 11.5; spread in 10: in time.
     * Each cup: 220 g / 1.02 = 215.7 g of resin, 4.3 g of hardener, / 1.17 = 3.7 ml.
     * In all: 6 × 215.7 = 1294.2 g, 6 × 4.3 = 25.8 g, 6 × 3.7 = 22.2 ml.
     */
    expect(one?.mix).toEqual({
      materialId: 'resin',
      material: 'Resin',
      celsius: 20,
      fabrics: [{ id: 'mat', name: 'Mat 300', squareMetres: 2, grams: 600 }],
      resinGrams: 1294.2,
      hardenerGrams: 25.8,
      hardenerMl: 22.2,
      hardenerDensity: 1.17,
      ratio: '2 % of the resin by mass (20 ml to 1 kg would be 2.34 %)',
      potLifeMinutes: 23,
      useWithinMinutes: 11,
      steps: [
        'Mat 300: 2 m² × 1 layer = 2 m², × 300 g/m² = 600 g',
        'mix for it: 600 g × 2 = 1200 g',
        '10 % more for waste: 1320 g',
      ],
      cups: [0, 10, 20, 30, 40, 50].map((minute, k) => ({
        number: k + 1,
        resinGrams: 215.7,
        hardenerGrams: 4.3,
        hardenerMl: 3.7,
        mixAt: at('09:20', minute),
        // 11.5 and 23.07 minutes later, rounded down.
        spreadBy: at('09:20', minute + 11),
        potLifeEnds: at('09:20', minute + 23),
      })),
      missing: [],
    });
  });

  it('says what it bonds to, what has still to be done, and what to mind', () => {
    // An old polyester lid that was washed, abraded and freed of dust; only the wipe is left.
    expect(one?.bond).toMatchObject({ onTask: null, bond: 'mechanical' });
    expect(one?.bond?.surface).toContain('polyester');
    expect(one?.bond?.preparation.map((step) => step.split(' ')[0])).toEqual(['Wipe']);
    expect(one?.warnings).toEqual([]);
    const minds = one?.cautions.map(({ text }) => text) ?? [];
    expect(minds.some((text) => text.startsWith('Peroxide catalyst and promoter'))).toBe(true);
    expect(minds.at(-1)).toBe('Keep the tin shut.');
    const sand = sheet.tasks.find(({ id }) => id === 'lid.sand');
    // 2 m² × 1 pass: 0.25 pads and 6 towels to a square metre, 1 disc, 0.05 bags.
    expect(sand?.consumables.map(({ id, amount }) => [id, amount])).toEqual([
      ['wash-pad', 0.5],
      ['paper-towel', 12],
      ['abrasive', 2],
      ['dust-bag', 0.1],
    ]);
  });

  it('is on the shopping list, with how old the resin may be', () => {
    expect(
      sheet.shopping.map(({ week, kind, name, amount, unit }) => [week, kind, name, amount, unit]),
    ).toEqual([
      ['2026-11-02', 'resin', 'Resin', 1294.2, 'g'],
      ['2026-11-02', 'hardener', 'Hardener of Resin', 25.8, 'g'],
      ['2026-11-02', 'fabric', 'Mat 300', 2, 'm²'],
      ['2026-11-02', 'consumable', 'Abrasive disc or sheet', 2, 'piece'],
      ['2026-11-02', 'consumable', 'Abrasive wash pad', 0.5, 'piece'],
      ['2026-11-02', 'consumable', 'Dust bag', 0.1, 'piece'],
      ['2026-11-02', 'consumable', 'Plain paper towel', 12, 'sheet'],
    ]);
    expect(sheet.shopping[0]).toMatchObject({
      shelfLifeDays: 90,
      firstUse: { local: '2026-11-02T09:20' },
    });
  });

  it('is printed for a foreman', () => {
    const text = printSheet(sheet);
    for (const line of [
      '  Coat one, Lid of Gull, Shop, Mon 2 Nov 09:20 to 10:20, Ada',
      '    Resin at 20 °C, hardener 2 % of the resin by mass (20 ml to 1 kg would be 2.34 %); gels in the cup after 23 min, to be spread within 11',
      '    mix for it: 600 g × 2 = 1200 g',
      '    cut Mat 300: 2.00 m² (600 g)',
      '      cup  resin g  hardener g   ml  mix at  spread by   gels',
      '        1    215.7         4.3  3.7   09:20      09:31  09:43',
      '        6    215.7         4.3  3.7   10:10      10:21  10:33',
      '    in all: resin 1294.2 g, hardener 25.8 g (22.2 ml at 1.17 kg/l)',
      // The plan leaves no time for the wipe: the sheet and the list of what to look at say so.
      '    NOT IN THE PLAN, and to be done first, in this order:',
      '      1. Wipe with acetone on clean rags and let it flash off fully (wait 15 min, cover it within 4 h)',
      '  Coat one, Lid of Gull, Mon 2 Nov 09:20: not in the plan, and to be done first: Wipe with acetone on clean rags and let it flash off fully (wait 15 min, cover it within 4 h)',
      '  for the week of 2026-11-02',
      // Half a pad and a tenth of a bag are one each.
      '    Abrasive wash pad: 1 piece, from Mon 2 Nov 08:00',
      '    Dust bag: 1 piece, from Mon 2 Nov 08:00',
      '    Abrasive disc or sheet: 2 pieces, from Mon 2 Nov 08:00',
      '    Plain paper towel: 12 sheets, from Mon 2 Nov 08:00',
      '    Resin: 1.29 kg, from Mon 2 Nov 09:20, keeps 90 days: made 2026-08-04 or later',
    ])
      expect(text.split('\n')).toContain(line);
    expect(text).toContain('Peroxide catalyst and promoter');
    // Work without a mix sheet has its cautions in its row, work with one on the sheet.
    const row = (words: string, printed: string): string =>
      printed.split('\n').find((line) => line.includes(words)) ?? '';
    expect(row('08:00-08:50  Sand', text)).toMatch(/Shop; mind cautions 1, \d+$/);
    expect(row('09:20-10:20  Coat one', text)).toMatch(/Shop$/);
    // Cautions stay where mix sheets are left out.
    const without = printSheet(sheet, { mixDays: 0 });
    expect(without).not.toContain('Mix sheets');
    expect(without).toContain('Peroxide catalyst and promoter');
    expect(row('09:20-10:20  Coat one', without)).toMatch(/Shop; mind cautions (\d+, ){6}\d+/);
  });

  it('is printed with what is to be looked at first, also where it is left out', () => {
    const damp = sheetOf(
      lidOfMat((yard) => {
        yard.spaces[0].humidity = { kind: 'held', percent: 88 };
        yard.materials[0].maximumHumidity = exact(80);
        yard.materials[0].dampAir = 'warn';
      }),
    );
    const warning = 'Resin, Mon 2 Nov 09:20: The air has 88 % humidity, more than 80 %';
    expect(printSheet(damp).split('\n')).toContain(`    LOOK FIRST: ${warning}`);
    expect(printSheet(damp, { mixDays: 0 }).split('\n')).toContain(
      `  Coat one, Lid of Gull, Mon 2 Nov 09:20: ${warning}`,
    );
  });

  it('is one cup where the job is one batch, to be spread inside its pot life', () => {
    const task = sheetOf(
      lidOfMat((yard) => {
        yard.procedures[0].steps[1].oneBatch = true;
        // 15 min of work and 110 g: 55 g of fabric. Life 30 × 1.1^(-1/3) = 29.06 min.
        yard.procedures[0].steps[1].effort = {
          ...yard.procedures[0].steps[1].effort,
          fixed: 15,
          perM2: 0,
        };
        yard.procedures[0].steps[1].quantity = {
          kind: 'coat',
          gramsPerM2: 50,
          coats: 1,
          wastePercent: 10,
        };
      }),
    ).tasks.find(({ id }) => id === 'lid.one');
    expect(task?.windows).toContainEqual({
      linkId: 'lid.one',
      toTask: 'lid.one',
      toName: 'Coat one',
      kind: 'pot-life',
      opens: null,
      closes: at('09:20', 29),
    });
    const cup = task?.mix;
    expect(cup).toMatchObject({ potLifeMinutes: 29, useWithinMinutes: 29 });
    expect(cup?.cups).toHaveLength(1);
    expect(cup?.cups[0]).toMatchObject({
      resinGrams: 107.8,
      hardenerGrams: 2.2,
      mixAt: { local: '2026-11-02T09:20' },
      spreadBy: { local: '2026-11-02T09:49' },
      potLifeEnds: { local: '2026-11-02T09:49' },
    });
  });

  it('keeps the numbers that the plan was made with', () => {
    const [resin] = sheet.materials;
    expect(resin).toMatchObject({ id: 'resin', name: 'Resin', classId: null });
    const line = (name: string) => resin.lines.find((one) => one.line === name);
    expect(line('pot-life')).toMatchObject({
      value: '60 min at 10 °C, 30 min at 20 °C, 15 min at 30 °C',
      trust: 'sheet',
      source: 'made up for tests',
      spread: 1,
      factor: 1,
    });
    expect(line('density of the hardener')?.value).toBe('1.17 kg/l');
    expect(line('hardener, as mixed here')?.value).toBe('2 % of the resin by mass');
  });
});

/** A moment of Monday 2 November, so many minutes after a time; the yard's zone is UTC. */
function at(time: string, minutes: number): { at: string; local: string } {
  const iso = new Date(Date.parse(`2026-11-02T${time}:00Z`) + minutes * 60_000).toISOString();
  return { at: iso, local: iso.slice(0, 16) };
}
