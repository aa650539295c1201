import { describe, expect, it } from 'vitest';

import { figure, level } from '../evidence/figure.ts';
import { cureMaterialOf, limitsOf, tableLaw } from '../testing/cure-material.ts';
import { pipeCoating } from '../testing/published.ts';
import { materialFaults } from './faults.ts';
import type { ConversionLaw, CureLaw, CureMaterial, Hardener } from './material.ts';

const exact = { trust: 'sheet', source: 'test', spread: 1, factor: 1, overridden: false } as const;

/** Path (within the material) and message of each fault. */
const faultsOf = (change: Partial<CureMaterial>): [string, string][] =>
  materialFaults({ ...pipeCoating, ...change }, 'materials[2]').map((f) => [
    f.path.replace('materials[2].', ''),
    f.message,
  ]);

const codesOf = (change: Partial<CureMaterial>): string[] =>
  materialFaults({ ...pipeCoating, ...change }, 'm').map((f) => `${f.code} ${f.path}`);

const gel = (law: CureLaw): Partial<CureMaterial> => ({ milestones: { gel: law } });

describe('material faults', () => {
  it('finds none in a published chart or in a plain material', () => {
    expect(materialFaults(pipeCoating, 'materials[0]')).toEqual([]);
    expect(materialFaults(cureMaterialOf(), 'materials[0]')).toEqual([]);
  });

  it('lets slow winter hardeners, quick fillers and late hardness pass', () => {
    const row = (at20: number, at10: number): CureLaw =>
      tableLaw([
        [10, at10],
        [20, at20],
      ]);
    const slow = { 'pot-life': row(720, 1380), gel: row(1200, 2700), cured: row(20_160, 40_000) };
    expect(faultsOf({ milestones: slow })).toEqual([]);
    expect(faultsOf({ milestones: { sandable: row(20, 40), cured: row(35, 70) } })).toEqual([]);
    // Twenty-five minutes in seconds, and a day in hours.
    expect(faultsOf({ milestones: { 'pot-life': row(1500, 3000), cured: row(24, 48) } })).toEqual([
      ['milestones.pot-life.rows[0].minutes', '3000 min looks like seconds'],
      ['milestones.pot-life.rows[1].minutes', '1500 min looks like seconds'],
      ['milestones.cured.rows[1].minutes', '24 min looks like hours or days'],
    ]);
  });

  it('names the row, what is wrong with it and what to do', () => {
    const law = tableLaw([
      [20, 60],
      [10, 0],
    ]);
    expect(materialFaults({ ...pipeCoating, ...gel(law) }, 'materials[2]')).toEqual([
      {
        code: 'input.field',
        path: 'materials[2].milestones.gel.rows[1].minutes',
        value: 0,
        message: '0 is no length of time',
        cure: 'Give the time in minutes, more than 0.',
      },
      {
        code: 'input.field',
        path: 'materials[2].milestones.gel.rows[1].celsius',
        value: 10,
        message: '10 °C follows 20 °C',
        cure: 'List the rows from cold to hot, each temperature once.',
      },
    ]);
  });

  it('refuses one row, times that grow with warmth, and limits the wrong way round', () => {
    expect(faultsOf(gel(tableLaw([[20, 60]])))).toEqual([
      ['milestones.gel.rows', 'One temperature says nothing of another'],
    ]);
    const slower = tableLaw([
      [10, 60],
      [20, 70],
    ]);
    expect(faultsOf(gel(slower))).toEqual([
      ['milestones.gel.rows[1].minutes', '70 min at 20 °C is longer than 60 min at 10 °C'],
    ]);
    expect(faultsOf({ limits: limitsOf(30, 20) })).toEqual([
      ['limits.minimumC', 'The minimum, 30 °C, is not below the maximum, 20 °C'],
    ]);
    expect(
      faultsOf({ limits: limitsOf(10, 30, { warnBelowC: level(5, 'sheet', 'test') }) }),
    ).toEqual([['limits.warnBelowC', 'A warning below 5 °C lies outside the limits']]);
  });

  it('refuses a window that closes before it opens, also between rows', () => {
    const opens = tableLaw([
      [10, 100],
      [20, 90],
      [30, 10],
    ]);
    const closes = tableLaw([
      [10, 110],
      [30, 20],
    ]);
    expect(faultsOf({ milestones: { 'bond-opens': opens, 'bond-closes': closes } })).toEqual([
      ['milestones.bond-closes', 'At 20 °C bond-closes comes before bond-opens'],
    ]);
    const wide = tableLaw([
      [10, 110],
      [30, 90],
    ]);
    expect(faultsOf({ milestones: { 'bond-opens': opens, 'bond-closes': wide } })).toEqual([]);
    // A fallback has its say from the minimum to the maximum: 15 min at 30 degC is 60 at 10.
    const doubling: CureLaw = {
      kind: 'doubling',
      at: { celsius: 30, minutes: 15 },
      per10C: 2,
      ...exact,
    };
    expect(faultsOf({ milestones: { 'bond-opens': opens, 'bond-closes': doubling } })).toEqual([
      ['milestones.bond-closes', 'At 10 °C bond-closes comes before bond-opens'],
    ]);
  });
});

describe('numbers in the wrong unit', () => {
  it('finds temperatures that look like Fahrenheit or kelvin', () => {
    const inFahrenheit = tableLaw([
      [50, 120],
      [70, 60],
      [90, 30],
    ]);
    expect(faultsOf(gel(inFahrenheit))).toEqual([
      ['milestones.gel.rows[0].celsius', '50 °C looks like degrees Fahrenheit (10 °C)'],
      ['milestones.gel.rows[1].celsius', '70 °C looks like degrees Fahrenheit (21.1 °C)'],
      ['milestones.gel.rows[2].celsius', '90 °C looks like degrees Fahrenheit (32.2 °C)'],
    ]);
    const inKelvin = tableLaw([
      [283.15, 120],
      [293.15, 60],
    ]);
    expect(faultsOf(gel(inKelvin))[0]).toEqual([
      'milestones.gel.rows[0].celsius',
      '283.15 °C looks like kelvin (10 °C)',
    ]);
    expect(faultsOf({ limits: limitsOf(60, 80) }).map(([path]) => path)).toEqual([
      'limits.minimumC.value',
      'limits.maximumC.value',
    ]);
    const [first] = materialFaults({ ...pipeCoating, limits: limitsOf(39, 41) }, 'm');
    expect(first).toEqual({
      code: 'cure.implausible',
      path: 'm.limits.minimumC.value',
      value: 39,
      message: '39 °C looks like degrees Fahrenheit (3.89 °C)',
      cure: 'Give degrees Celsius, from -40 to 35.',
    });
  });

  it('finds times that look like hours or seconds', () => {
    const inHours = tableLaw([
      [10, 75],
      [21, 8],
    ]);
    expect(faultsOf({ milestones: { sandable: inHours } })).toEqual([
      ['milestones.sandable.rows[1].minutes', '8 min looks like hours or days'],
    ]);
    const inSeconds = tableLaw([
      [10, 6600],
      [27, 1800],
    ]);
    expect(faultsOf(gel(inSeconds))).toEqual([
      ['milestones.gel.rows[0].minutes', '6600 min looks like seconds'],
    ]);
  });

  it('finds percentages, densities, ratios, masses and margins', () => {
    const figures = (value: number): CureMaterial['resinDensity'] => figure(value, 'sheet', 'test');
    expect(
      faultsOf({
        limits: limitsOf(4, 40, {
          maximumHumidity: level(0.85, 'sheet', 'test'),
          minimumDewMarginC: level(20, 'sheet', 'test'),
          preheatHours: level(1440, 'sheet', 'test'),
        }),
        hardener: { kind: 'ratio', per100: figure(0.25, 'sheet', 'test') },
        resinDensity: figures(1150),
        hardenerDensity: figures(0.1),
        gramsPerM2: figures(0.3),
        shelfLifeDays: figures(12),
        mass: { ...pipeCoating.mass, referenceGrams: figure(0.1, 'sheet', 'test') },
      }),
    ).toEqual([
      ['limits.maximumHumidity.value', '0.85 % looks like a share of 1'],
      ['limits.minimumDewMarginC.value', '20 °C looks like degrees Fahrenheit'],
      ['limits.preheatHours.value', '1440 h looks like minutes'],
      ['hardener.per100.value', '0.25 g to 100 g looks like a share of 1'],
      ['mass.referenceGrams.value', '0.1 g looks like kilograms'],
      ['resinDensity.value', '1150 kg/l looks like kilograms to a cubic metre'],
      ['hardenerDensity.value', '0.1 kg/l looks like pounds to a pint or a share'],
      ['gramsPerM2.value', '0.3 g/m² looks like kilograms'],
      ['shelfLifeDays.value', '12 days looks like months or years'],
    ]);
    expect(
      faultsOf({ limits: limitsOf(4, 40, { maximumHumidity: level(120, 'sheet', 'test') }) }),
    ).toEqual([['limits.maximumHumidity.value', '120 % looks like no percentage']]);
    // A fairing compound full of hollow spheres is lighter than any resin.
    expect(faultsOf({ use: 'fairing', mixedDensity: figures(0.5) })).toEqual([]);
    expect(faultsOf({ mixedDensity: figures(0.5) })).toHaveLength(1);
  });

  it('refuses what is no spread, no factor and no number', () => {
    const rows = [
      [10, 60],
      [20, 30],
    ] as const;
    expect(faultsOf(gel(tableLaw(rows, { spread: 0.9 })))).toEqual([
      ['milestones.gel.spread', 'A spread is a factor of 1 to 10, not 0.9'],
    ]);
    expect(faultsOf(gel(tableLaw(rows, { factor: 0 })))).toEqual([
      ['milestones.gel.factor', '0 looks like no factor on times'],
    ]);
    expect(faultsOf({ resinDensity: figure(1.1, 'sheet', 'test', 0.5) })).toEqual([
      ['resinDensity.spread', 'A spread is a factor of 1 to 10, not 0.5'],
    ]);
    expect(faultsOf({ resinDensity: figure(NaN, 'sheet', 'test', 1) })).toEqual([
      ['resinDensity.value', 'It is no number'],
    ]);
    const vague = limitsOf(4, 40, { maximumHumidity: level(85, 'sheet', 'test', -1) });
    expect(faultsOf({ limits: vague })).toEqual([
      ['limits.maximumHumidity.spread', 'A spread is degrees or points of 0 to 30, not -1'],
    ]);
  });

  it('checks fallbacks and rate models', () => {
    const at = { celsius: 20, minutes: 40 };
    expect(faultsOf(gel({ kind: 'activation', at, kjPerMol: 55_000, ...exact }))).toEqual([
      ['milestones.gel.kjPerMol', '55000 kJ/mol looks like joules'],
    ]);
    expect(faultsOf(gel({ kind: 'doubling', at, per10C: 0.5, ...exact }))).toEqual([
      ['milestones.gel.per10C', '0.5 times looks like the inverse'],
    ]);
    const cold = { celsius: 2, minutes: 400 };
    expect(faultsOf(gel({ kind: 'doubling', at: cold, per10C: 2, ...exact }))).toEqual([
      ['milestones.gel.at.celsius', 'Its time is that at 2 °C, outside the limits of 4 to 43 °C'],
    ]);
    // Bogetti & Gillespie (1991), constants from public code: nothing wrong with them.
    const model: ConversionLaw = {
      kind: 'conversion',
      k1: { a: 0, e: 0 },
      k2: { a: 3.7e22, e: 167_400 },
      m: 0.524,
      n: 1.476,
      initial: 0.01,
      reached: 0.5,
    };
    const conversion = (change: Partial<ConversionLaw>): [string, string][] =>
      faultsOf(gel({ ...model, ...change, ...exact }));
    expect(conversion({})).toEqual([]);
    expect(conversion({ k2: { a: 3.7e22, e: 167.4 } })).toEqual([
      ['milestones.gel.k2.e', '0.1674 kJ/mol looks like electronvolts or kilocalories'],
    ]);
    expect(conversion({ k2: { a: 0, e: 0 } })).toEqual([
      ['milestones.gel.k2.a', 'Without a rate nothing cures'],
    ]);
    expect(conversion({ initial: 0 })).toEqual([
      ['milestones.gel.initial', 'A cure that feeds on itself never begins from nothing'],
    ]);
    expect(conversion({ reached: 50 })).toEqual([
      ['milestones.gel.reached', 'A conversion does not go from 0.01 to 50'],
    ]);
  });
});

describe('hardener', () => {
  // Ranges: usual 1 to 2 %, some sheets to 2.5 % (read; the published ranges contradict each other).
  const percent = (
    change: Partial<Extract<Hardener, { kind: 'percent' }>>,
  ): Partial<CureMaterial> => ({
    hardener: {
      kind: 'percent',
      usual: figure(2, 'sheet', 'test', 1),
      used: 2,
      warn: [1, 2],
      block: [1, 2.5],
      effect: null,
      source: 'the sheet',
      ...change,
    },
  });

  it('is right as the sheet has it', () => {
    expect(faultsOf(percent({}))).toEqual([]);
    expect(faultsOf(percent({ used: 1.5, effect: figure(0.6, 'practice', 'test') }))).toEqual([]);
  });

  it('is refused outside its range, naming value and range', () => {
    expect(materialFaults({ ...pipeCoating, ...percent({ used: 3 }) }, 'm')).toEqual([
      {
        code: 'cure.hardener',
        path: 'm.hardener.used',
        value: 3,
        message: 'Pipe-coating epoxy: 3 % of hardener is outside the 1 to 2.5 % that it allows',
        cure: 'Mix 1 to 2.5 % by mass of the resin (the sheet).',
      },
    ]);
    expect(codesOf(percent({ usual: figure(4, 'sheet', 'test', 1) }))).toEqual([
      'cure.hardener m.hardener.usual.value',
    ]);
  });

  it('asks for the line of the sheet where nothing says what another percentage does', () => {
    expect(codesOf(percent({ used: 1.5 }))).toEqual(['cure.missing m.hardener.effect']);
  });

  it('finds millilitres to the kilogram, shares, and ranges that are none', () => {
    expect(faultsOf(percent({ used: 20 }))).toEqual([
      ['hardener.used', '20 % looks like grams or millilitres to a kilogram'],
    ]);
    expect(faultsOf(percent({ used: 0.02 }))).toEqual([
      ['hardener.used', '0.02 % looks like a share of 1'],
    ]);
    expect(codesOf(percent({ block: [2.5, 1] }))).toContain('input.field m.hardener.block');
    expect(codesOf(percent({ warn: [0.5, 2] }))).toEqual(['input.field m.hardener.warn']);
    expect(codesOf(percent({ effect: figure(-0.6, 'practice', 'test') }))).toEqual([
      'cure.implausible m.hardener.effect.value',
    ]);
  });
});
