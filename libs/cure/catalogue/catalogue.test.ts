import { createHash } from 'node:crypto';

import { describe, expect, it } from 'vitest';

import { DomainError } from '#kernel/error.ts';

import { TRUSTS, type Figure } from '../evidence/evidence.ts';
import { materialFaults } from '../material/faults.ts';
import { lawOf } from '../material/law.ts';
import { MILESTONES, type CureLaw, type CureMaterial } from '../material/material.ts';
import { rateOf } from '../material/rate.ts';
import { CATALOGUE_VERSION, CLASSES, classOf } from './classes.ts';
import { FABRICS } from './fabrics.ts';

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null;

/** Every figure and law anywhere in a material, with the path to it. */
function numbers(value: unknown, path: string): [string, Record<string, unknown>][] {
  if (!isObject(value)) return [];
  const own: [string, Record<string, unknown>][] = 'spread' in value ? [[path, value]] : [];
  return [
    ...own,
    ...Object.entries(value).flatMap(([key, inner]) => numbers(inner, `${path}.${key}`)),
  ];
}

/** Numbers that stand alone: not inside a figure, a law or the hardener's allowed percentages. */
function bare(value: unknown, path: string): string[] {
  if (typeof value === 'number') return [path];
  if (!isObject(value) || 'spread' in value) return [];
  return Object.entries(value).flatMap(([key, inner]) => bare(inner, `${path}.${key}`));
}

const laws = CLASSES.flatMap((material) =>
  MILESTONES.flatMap((milestone): [CureMaterial, (typeof MILESTONES)[number], CureLaw][] => {
    const law = material.milestones[milestone];
    return law === undefined ? [] : [[material, milestone, law]];
  }),
);

const get = (id: string): CureMaterial => {
  const found = classOf(id);
  if (found === undefined) throw new Error(id);
  return found;
};

describe('catalogue', () => {
  it('has the classes that a yard starts from, each under its own id', () => {
    expect(CATALOGUE_VERSION).not.toBe('');
    expect(CLASSES.map((material) => material.id)).toEqual([
      'laminating-polyester',
      'finish-polyester',
      'gel-coat',
      'finish-gel-coat',
      'vinyl-ester',
      'epoxy-fast',
      'epoxy-slow',
      'laminating-polyester-glue',
      'laminating-polyester-fillet',
      'vinyl-ester-glue',
      'vinyl-ester-fillet',
      'epoxy-fast-glue',
      'epoxy-fast-fillet',
      'epoxy-slow-glue',
      'epoxy-slow-fillet',
      'polyester-fairing',
      'epoxy-fairing',
    ]);
    for (const material of CLASSES) {
      expect(material.classId).toBe(material.id);
      expect(classOf(material.id)).toBe(material);
    }
    expect(classOf('epoxy')).toBeUndefined();
  });

  it('has another version with any other value', () => {
    // Plans name the version they were made with: raise it together with this digest.
    const values = JSON.stringify([CLASSES, FABRICS]);
    const digest = createHash('sha256').update(values).digest('hex').slice(0, 16);
    expect([CATALOGUE_VERSION, digest]).toEqual(['1', '7a7b393df8f63dce']);
  });

  it('names no maker or product', () => {
    const brands =
      /west|scott|crystic|butanox|glen|awl|evercoat|powercrete|boatcraft|totalboat|rage|epifanes/i;
    for (const { id, name } of [...CLASSES, ...FABRICS])
      expect(`${id} ${name}`).not.toMatch(brands);
  });

  it('gives every number its evidence and spread', () => {
    const all = CLASSES.flatMap((material) => numbers(material, material.id));
    expect(all.length).toBeGreaterThan(150);
    for (const [path, number] of all) {
      expect(TRUSTS, path).toContain(number.trust);
      expect(String(number.source).length, path).toBeGreaterThan(10);
      expect(number.overridden, path).toBe(false);
      const level = /C$|Humidity$/.test(path);
      expect(number.spread, path).toBeGreaterThanOrEqual(level ? 0 : 1);
    }
  });

  it('has no number without evidence, but for the percentages of hardener that it allows', () => {
    const left = CLASSES.flatMap((material) => bare(material, ''));
    expect(new Set(left.map((path) => path.replace(/\.[01]$/, '')))).toEqual(
      new Set(['.hardener.used', '.hardener.warn', '.hardener.block']),
    );
    for (const { hardener } of CLASSES) {
      if (hardener?.kind === 'percent') expect(hardener.source.length).toBeGreaterThan(10);
    }
  });

  it('accounts for all twelve milestones of every class: a law, or the line of the sheet', () => {
    for (const material of CLASSES) {
      const given = MILESTONES.filter((milestone) => material.milestones[milestone] !== undefined);
      const missing = material.missing.map(({ milestone }) => milestone);
      expect([...given, ...missing].sort(), material.id).toEqual([...MILESTONES].sort());
      for (const { line } of material.missing) expect(line).toMatch(/time|cure|life/);
    }
  });

  it('says which line to enter where it has no number', () => {
    const cureOf = (run: () => unknown): string => {
      try {
        run();
      } catch (error) {
        if (error instanceof DomainError && error.code === 'cure.missing') return error.cure;
      }
      return '';
    };
    expect(cureOf(() => lawOf(get('epoxy-slow'), 'bond-closes'))).toContain(
      'recoat or overlaminating time without sanding, longest',
    );
    expect(cureOf(() => lawOf(get('epoxy-slow'), 'cured'))).toBe('');
  });

  it('takes no opening from memory or custom', () => {
    const closings = new Set(['pot-life', 'open-time', 'tacky-closes', 'bond-closes']);
    for (const [material, milestone, { trust }] of laws) {
      if (trust === 'memory' || trust === 'practice') {
        expect(closings, `${material.id} ${milestone}`).toContain(milestone);
      }
    }
  });

  it('has pairs in order and times that fall with warmth', () => {
    expect(CLASSES.flatMap((material) => materialFaults(material, material.id))).toEqual([]);
  });

  it('has a touch test for each milestone, with its source', () => {
    for (const { id, touchTests } of CLASSES) {
      expect(touchTests.map((test) => test.milestone).sort(), id).toEqual([...MILESTONES].sort());
      for (const test of touchTests) expect(test.source.length).toBeGreaterThan(10);
    }
  });

  it('has hardness follow temperature more than gel does, from one temperature', () => {
    // The pipe-coating chart: gel about 1.9 times for 10 degrees, Shore D65 about 3 (contradiction X1: by milestone).
    const per10 = (law: CureLaw): number => {
      if (law.kind === 'conversion') throw new Error(law.kind);
      const rate = rateOf(law, 'expected', -Infinity);
      return rate(30) / rate(20);
    };
    const { 'open-time': open, sandable } = get('epoxy-fast').milestones;
    if (open === undefined || sandable === undefined) throw new Error('laws');
    expect(per10(open)).toBeCloseTo(2.11, 2);
    expect(per10(sandable)).toBeCloseTo(3.08, 2);
  });
});

describe('what a film leaves', () => {
  it.each([
    // Unwaxed polyester stays tacky by design (Evercoat, Great Midwest Yacht, read); wax seals it.
    ['laminating-polyester', 'inhibited', false, false],
    ['gel-coat', 'inhibited', false, false],
    ['vinyl-ester', 'inhibited', false, false],
    ['finish-polyester', 'sealed', true, false],
    ['finish-gel-coat', 'sealed', true, false],
    // Watson: every amine-cured epoxy may blush (read).
    ['epoxy-fast', 'sealed', false, true],
    ['epoxy-slow-fillet', 'sealed', false, true],
    ['epoxy-fairing', 'sealed', false, true],
  ])('%s: %s, wax %s, amine film %s', (id, surface, waxed, blushes) => {
    const material = get(id);
    expect([material.surface, material.waxed, material.blushes]).toEqual([surface, waxed, blushes]);
  });

  it('is refused in damp air where it is a coating, and only warned of where it is covered', () => {
    // Refusing follows the coatings' standard (ISO 8502-4 summary, read), warning the moulding shop's rule.
    const refusing = CLASSES.filter(({ limits }) => limits.dampAir === 'refuse');
    expect(refusing.map(({ id }) => id)).toEqual([
      'finish-polyester',
      'gel-coat',
      'finish-gel-coat',
      'epoxy-fast',
      'epoxy-slow',
      'epoxy-fairing',
    ]);
  });
});

describe('limits', () => {
  it('has every fallback start from a temperature within them, and stretch no time below them', () => {
    for (const [{ id, limits }, milestone, law] of laws) {
      if (law.kind !== 'activation' && law.kind !== 'doubling') continue;
      const { celsius } = law.at;
      const name = `${id} ${milestone}`;
      expect(celsius, name).toBeGreaterThanOrEqual(limits.minimumC.value);
      expect(celsius, name).toBeLessThanOrEqual(limits.maximumC.value);
      const minimumC = limits.minimumC.value;
      const [opening, closing] = [rateOf(law, 'open', minimumC), rateOf(law, 'close', minimumC)];
      expect(opening(minimumC - 0.1), name).toBe(0);
      expect(opening(minimumC), name).toBeGreaterThan(0);
      expect(closing(minimumC - 0.1), name).toBe(closing(minimumC));
      expect(closing(minimumC), name).toBeGreaterThan(0);
    }
  });

  it('never follows a gel-coat chart with a doubling rule: rows only, and refused below them (X2)', () => {
    for (const id of ['gel-coat', 'finish-gel-coat']) {
      const { milestones, limits } = get(id);
      for (const law of Object.values(milestones)) expect(law.kind).toBe('table');
      expect(limits.belowMinimum).toBe('spoils');
      const { gel } = milestones;
      if (gel?.kind !== 'table') throw new Error(id);
      const [first] = gel.rows;
      expect(first.celsius).toBeLessThanOrEqual(limits.minimumC.value);
      // BoatCraft's chart, 240 min at 15 °C and 30 at 25: eight times over 10 degrees.
      expect(first.minutes / gel.rows[2].minutes).toBe(8);
    }
  });

  it('warns below 18 and refuses below 15 degrees where no product says otherwise (X7)', () => {
    for (const id of ['laminating-polyester', 'vinyl-ester']) {
      const { limits } = get(id);
      expect([limits.minimumC.value, limits.warnBelowC?.value]).toEqual([15, 18]);
      expect(limits.belowMinimum).toBe('spoils');
    }
    // A product's own: fast 4 °C, slow 16 °C (technical data sheets, read).
    const epoxies = ['epoxy-fast', 'epoxy-slow'].map((id) => get(id).limits);
    expect(epoxies.map((limits) => limits.minimumC.value)).toEqual([4, 16]);
    expect(epoxies.map((limits) => limits.belowMinimum)).toEqual(['stalls', 'stalls']);
  });

  it('keeps to the published environment', () => {
    // ICS Rules for FRP Ships 2014 ch. 3, 102 (24 h before; 80 %); ISO 8502-4 summary (3 °C, 85 %); Epifanes (70 %).
    const value = (figure: Figure | null): number | null => figure?.value ?? null;
    const of = (id: string): (number | null)[] => {
      const { limits } = get(id);
      return [
        value(limits.maximumHumidity),
        value(limits.minimumDewMarginC),
        value(limits.preheatHours),
        value(limits.holdHours),
      ];
    };
    expect(of('laminating-polyester')).toEqual([80, 3, 24, 48]);
    expect(of('epoxy-fast')).toEqual([85, 3, null, 48]);
    expect(of('epoxy-fairing')).toEqual([70, 3, null, 48]);
    // Heating before and after is of laminates; filler is kept at 64 °F (Overson, read) while it cures.
    expect(of('polyester-fairing')).toEqual([80, 3, null, null]);
    expect(get('polyester-fairing').limits.minimumC.value).toBeCloseTo((64 - 32) / 1.8, 1);
  });

  it('keeps each use to the temperatures that were published for it', () => {
    // ICS workshop 15; Scott Bader 18 to 25; 60 to 80 °F; Epifanes 15 to 25 (read). 30: practice, memory.
    const range = (id: string): number[] => {
      const { minimumC, maximumC } = get(id).limits;
      return [minimumC.value, maximumC.value];
    };
    expect(range('laminating-polyester')).toEqual([15, 30]);
    expect(range('vinyl-ester')).toEqual([15, 30]);
    expect(range('gel-coat')).toEqual([18, 25]);
    expect(range('finish-gel-coat')).toEqual([15.6, 26.7]);
    expect(range('finish-polyester')).toEqual([15.6, 26.7]);
    expect(range('epoxy-fairing')).toEqual([15, 25]);
    expect(get('vinyl-ester').limits.maximumC.trust).toBe('memory');
  });
});
