import { describe, expect, it } from 'vitest';
import { classOf } from '#cure/catalogue/classes.ts';
import type { Figure } from '#cure/evidence/evidence.ts';
import { HARDNESS_SPREAD } from '#cure/material/law.ts';
import type { CureMaterial } from '#cure/material/material.ts';
import { DomainError } from '#kernel/error.ts';
import { smallYard } from '../testing/small-yard.ts';
import { cureMaterial } from './cure-material.ts';
import { materialSchema, type Material } from './materials.ts';

const SOURCE = 'made up for tests';
const own = (value: number, spread: number | null = null) => ({
  value,
  source: SOURCE,
  trust: 'measured' as const,
  spread,
});

const classed = (given: object = {}): Material =>
  materialSchema.parse({
    id: 'lam',
    name: 'Laminating resin',
    classId: 'laminating-polyester',
    resinSystem: 'polyester',
    ...given,
  });
const base = classOf('laminating-polyester');
if (base === undefined) throw new Error('the catalogue has no laminating polyester');

const codeOf = (given: Material): string => {
  try {
    cureMaterial(given);
  } catch (error) {
    if (error instanceof DomainError) return error.code;
    throw error;
  }
  return 'none';
};

describe('a material of a class', () => {
  it('is the class under its own name, where the yard gives nothing', () => {
    expect(cureMaterial(classed())).toEqual({ ...base, id: 'lam', name: 'Laminating resin' });
  });

  it('has the yard’s numbers in the place of the class’s, and they say so', () => {
    const { limits, gramsPerM2, mass } = cureMaterial(
      classed({
        minimumC: 12,
        maximumHumidity: own(70),
        holdHours: own(24),
        gramsPerM2: own(300),
        massPower: own(0.3, 1.2),
      }),
    );
    const evidence = { trust: 'measured', source: SOURCE, overridden: true };
    expect(limits.minimumC).toEqual({
      value: 12,
      spread: 0,
      trust: 'sheet',
      source: 'data sheet of Laminating resin',
      overridden: true,
    });
    // Of what is measured, where no spread is stated: half a point, and 1.05 times.
    expect(limits.maximumHumidity).toEqual({ value: 70, spread: 0.5, ...evidence });
    expect(limits.holdHours).toEqual({ value: 24, spread: 1.05, ...evidence });
    expect(gramsPerM2).toEqual({ value: 300, spread: 1.05, ...evidence });
    expect(mass.massPower).toEqual({ value: 0.3, spread: 1.2, ...evidence });
    expect(limits.maximumC).toEqual(base.limits.maximumC);
    expect(mass.thicknessPower).toEqual(base.mass.thicknessPower);
  });

  it.each<[string, number, (sheet: CureMaterial) => Figure | null]>([
    ['maximumHumidity', 70, ({ limits }) => limits.maximumHumidity],
    ['minimumDewMarginC', 4, ({ limits }) => limits.minimumDewMarginC],
    ['preheatHours', 12, ({ limits }) => limits.preheatHours],
    ['holdHours', 0, ({ limits }) => limits.holdHours],
    ['massPower', 0.4, ({ mass }) => mass.massPower],
    ['thicknessPower', 0.2, ({ mass }) => mass.thicknessPower],
    ['referenceGrams', 150, ({ mass }) => mass.referenceGrams],
    ['referenceMm', 30, ({ mass }) => mass.referenceMm],
    ['resinDensity', 1.07, ({ resinDensity }) => resinDensity],
    ['hardenerDensity', 1.01, ({ hardenerDensity }) => hardenerDensity],
    ['mixedDensity', 1.09, ({ mixedDensity }) => mixedDensity],
    ['gramsPerM2', 333, ({ gramsPerM2 }) => gramsPerM2],
    ['shelfLifeDays', 77, ({ shelfLifeDays }) => shelfLifeDays],
  ])(
    'has the yard’s %s, marked, with the spread it states or its trust gives',
    (field, value, of) => {
      const evidence = { value, trust: 'measured', source: SOURCE, overridden: true };
      const degrees = ['maximumHumidity', 'minimumDewMarginC'].includes(field);
      expect(of(base)?.value).not.toBe(value);
      expect(of(cureMaterial(classed({ [field]: own(value, 1) })))).toEqual({
        ...evidence,
        spread: 1,
      });
      expect(of(cureMaterial(classed({ [field]: own(value) })))).toEqual({
        ...evidence,
        spread: degrees ? 0.5 : 1.05,
      });
      if (degrees)
        expect(of(cureMaterial(classed({ [field]: own(value, 0) })))).toEqual({
          ...evidence,
          spread: 0,
        });
    },
  );

  it('has the yard’s words in the place of the class’s', () => {
    const given = {
      use: 'glue',
      surface: 'sealed',
      waxed: true,
      blushes: true,
      belowMinimum: 'spoils',
      dampAir: base.limits.dampAir === 'warn' ? 'refuse' : 'warn',
    } as const;
    const { belowMinimum, dampAir, ...film } = given;
    expect(base).not.toMatchObject({ limits: { dampAir } });
    expect(cureMaterial(classed(given))).toMatchObject({
      ...film,
      limits: { belowMinimum, dampAir },
    });
  });

  it('no longer warns at a temperature outside the yard’s limits', () => {
    expect(base.limits.warnBelowC?.value).toBe(18);
    expect(cureMaterial(classed({ minimumC: 19 })).limits.warnBelowC).toBeNull();
    expect(cureMaterial(classed({ minimumC: 12 })).limits.warnBelowC?.value).toBe(18);
  });

  it('lacks no line that the yard has entered', () => {
    const { milestones, missing } = cureMaterial(
      classed({
        milestones: [
          {
            milestone: 'bond-opens',
            rows: [
              { celsius: 15, minutes: 180 },
              { celsius: 25, minutes: 90 },
            ],
            source: SOURCE,
          },
        ],
      }),
    );
    expect(base.missing.map(({ milestone }) => milestone)).toContain('bond-opens');
    expect(missing).toEqual(base.missing.filter(({ milestone }) => milestone !== 'bond-opens'));
    expect(milestones['bond-opens']).toEqual({
      kind: 'table',
      rows: [
        { celsius: 15, minutes: 180 },
        { celsius: 25, minutes: 90 },
      ],
      trust: 'sheet',
      source: SOURCE,
      spread: 1.1,
      factor: 1,
      overridden: true,
    });
  });

  it('is mixed as the yard mixes it, within the class’s range', () => {
    if (base.hardener?.kind !== 'percent') throw new Error('no percentage');
    const mixed = cureMaterial(classed({ hardener: { kind: 'percent', used: 1.5 } })).hardener;
    expect(mixed).toEqual({ ...base.hardener, used: 1.5 });
    const sheet = { kind: 'percent', usual: own(1.8), block: { low: 1.2, high: 3 } };
    expect(cureMaterial(classed({ hardener: sheet })).hardener).toMatchObject({
      used: 1.8,
      warn: [1.2, 3],
      block: [1.2, 3],
      source: 'data sheet of Laminating resin',
    });
  });

  it('changes with its hardener as the yard says, or is mixed in the yard’s ratio', () => {
    const effect = {
      value: 0.7,
      trust: 'measured',
      source: SOURCE,
      overridden: true,
      spread: 1.05,
    };
    expect(
      cureMaterial(classed({ hardener: { kind: 'percent', used: 1.5, effect: own(0.7) } }))
        .hardener,
    ).toMatchObject({ used: 1.5, effect });
    const per100 = { value: 20, trust: 'measured', source: SOURCE, overridden: true, spread: 1 };
    expect(
      cureMaterial(classed({ hardener: { kind: 'ratio', per100: own(20, 1) } })).hardener,
    ).toEqual({ kind: 'ratio', per100 });
  });

  it('of another catalogue is refused', () => {
    expect(codeOf(classed({ classId: 'tar' }))).toBe('yard.reference');
  });
});

describe('a line of a sheet', () => {
  const withLine = (line: object) =>
    cureMaterial(classed({ milestones: [{ source: SOURCE, rows: [], ...line }] }));

  it('of one temperature is followed to others by a fallback that says so', () => {
    const rows = [{ celsius: 20, minutes: 900 }];
    const sandable = withLine({ milestone: 'sandable', rows }).milestones.sandable;
    expect(sandable).toMatchObject({
      kind: 'activation',
      at: { celsius: 20, minutes: 900 },
      kjPerMol: 83.2,
      spread: HARDNESS_SPREAD,
      trust: 'sheet',
    });
    expect(sandable?.source).toMatch(
      /made up for tests; away from 20 °C a fallback: 83\.2 kJ\/mol/,
    );
    expect(withLine({ milestone: 'gel', rows }).milestones.gel).toMatchObject({ kjPerMol: 55 });
  });

  it('of one temperature is none of a gel coat, whose times no rule follows', () => {
    const rows = [{ celsius: 20, minutes: 30 }];
    const line = { milestone: 'sandable', rows, source: SOURCE };
    for (const use of ['gel-coat', 'finish']) {
      const { milestones, missing } = cureMaterial(classed({ use, milestones: [line] }));
      expect(milestones.sandable).toBeUndefined();
      expect(missing.map(({ milestone }) => milestone)).toContain('sandable');
    }
  });

  it('with a spread of its own keeps it, also 1', () => {
    const rows = [
      { celsius: 15, minutes: 900 },
      { celsius: 25, minutes: 300 },
    ];
    const spread = (given: object) =>
      withLine({ milestone: 'sandable', rows, ...given }).milestones.sandable?.spread;
    expect(spread({ spread: 1 })).toBe(1);
    expect(spread({})).toBe(HARDNESS_SPREAD);
  });

  it('may be a rate model', () => {
    const conversion = {
      k1: { a: 0, e: 0 },
      k2: { a: 1e6, e: 55_000 },
      m: 0.5,
      n: 1.5,
      initial: 0.01,
      reached: 0.5,
    };
    expect(withLine({ milestone: 'gel', conversion }).milestones.gel).toMatchObject({
      kind: 'conversion',
      ...conversion,
      overridden: true,
    });
  });

  it('is multiplied by what the yard observed, and is as certain as that', () => {
    const rows = [
      { celsius: 15, minutes: 900 },
      { celsius: 25, minutes: 300 },
    ];
    const material = classed({ milestones: [{ milestone: 'gel', rows, source: SOURCE }] });
    const prior = { factor: 1, spread: 1.1 };
    const found = { factor: 1.3, spread: 1.07, prior, evidence: [] };
    const { gel, handle } = cureMaterial(material, [
      { milestone: 'gel', ...found },
      { milestone: 'handle', ...found },
    ]).milestones;
    expect(gel).toMatchObject({ rows, factor: 1.3, spread: 1.07 });
    expect(handle).toEqual(base.milestones.handle);
  });
});

describe('a material of no class', () => {
  const [resin] = smallYard().materials;

  it('is what its sheet says, and asks for nothing that it does not say', () => {
    const { limits, hardener, milestones, missing, classId } = cureMaterial(resin);
    expect(classId).toBeNull();
    expect(limits).toMatchObject({ maximumHumidity: null, preheatHours: null, holdHours: null });
    expect(hardener).toBeNull();
    expect(milestones.sandable).toMatchObject({ overridden: false, spread: 1 });
    expect(missing.map(({ milestone }) => milestone)).toEqual([
      'open-time',
      'gel',
      'tacky-opens',
      'tacky-closes',
      'handle',
      'cured',
    ]);
  });

  it('stays tacky if it is polyester without wax, and may blush if it is epoxy', () => {
    const plain = { ...resin, surface: null, waxed: null, blushes: null };
    expect(cureMaterial(plain)).toMatchObject({ surface: 'sealed', waxed: false, blushes: true });
    const polyester = { ...plain, resinSystem: 'polyester' as const };
    expect(cureMaterial(polyester)).toMatchObject({ surface: 'inhibited', blushes: false });
    expect(cureMaterial({ ...polyester, waxed: true }).surface).toBe('sealed');
  });

  it('has to give its limits of temperature, and of epoxy the range of its hardener', () => {
    expect(codeOf({ ...resin, minimumC: null })).toBe('cure.missing');
    const hardener = { kind: 'percent', usual: own(2), used: null, warn: null, block: null };
    expect(codeOf(materialSchema.parse({ ...resin, hardener }))).toBe('cure.missing');
    const polyester = materialSchema.parse({ ...resin, resinSystem: 'polyester', hardener });
    expect(cureMaterial(polyester).hardener).toMatchObject({ warn: [1, 2], block: [1, 2.5] });
  });
});
