import { describe, expect, it } from 'vitest';
import { random } from '#kernel/random.ts';
import type { Evidence } from './evidence.ts';
import { productivityOf } from './productivity.ts';

const truth = {
  yard: 1.1,
  step: { fair: 1.4, coat: 0.9, sand: 1 },
  person: { ada: 0.85, ben: 1.3, cy: 1 },
  space: { bay: 1, cabin: 1.25 },
} as const;

const pick = <T extends object>(of: T, k: number): keyof T & string =>
  Object.keys(of)[k % Object.keys(of).length] as keyof T & string;

/** Work that takes what the truth says, give or take some 20 %. */
function worked(tasks: number, seed = 7): Evidence[] {
  const from = random(seed);
  return Array.from({ length: tasks }, (_, k) => {
    const step = pick(truth.step, from.below(3));
    const person = pick(truth.person, from.below(3));
    const space = pick(truth.space, from.below(2));
    const noise = Math.exp((from.unit() + from.unit() + from.unit() - 1.5) * 0.4);
    const planned = 40 + from.below(200);
    const takes = truth.yard * truth.step[step] * truth.person[person] * truth.space[space];
    return {
      taskId: `t${String(k)}`,
      procedure: 'deck',
      step,
      skill: 'finishing',
      space,
      planned,
      actual: planned * takes * noise,
      shares: [{ person, share: 1 }],
    };
  });
}

/** Effects of a factor are told apart up to what is common to all, which is the yard's. */
const relative = <T extends object>(of: T, key: keyof T): number => {
  const logs = Object.values(of).map((value: number) => Math.log(value));
  return Math.exp(Math.log(of[key] as number) - logs.reduce((a, b) => a + b, 0) / logs.length);
};

describe('productivity', () => {
  it('tells steps, people and spaces apart', () => {
    const found = productivityOf(worked(150));
    for (const { person, factor, low, high } of found.people) {
      const real = relative(truth.person, person as 'ada');
      expect(factor / real).toBeGreaterThan(0.9);
      expect(factor / real).toBeLessThan(1.1);
      expect(low).toBeLessThan(factor);
      expect(high).toBeGreaterThan(factor);
    }
    const cabin = found.spaces.find(({ space }) => space === 'cabin');
    expect(cabin?.factor).toBeCloseTo(relative(truth.space, 'cabin'), 1);
    const fair = found.steps.find(({ step }) => step === 'fair');
    const coat = found.steps.find(({ step }) => step === 'coat');
    expect((fair?.factor ?? 0) / (coat?.factor ?? 1)).toBeCloseTo(1.4 / 0.9, 0);
    expect(fair).toMatchObject({ advised: true, procedure: 'deck' });
    expect(found.setAside).toEqual([]);
  });

  it('says little of little: drawn towards 1, with a wide interval, and advised to nobody', () => {
    const [many, few] = [productivityOf(worked(150)), productivityOf(worked(2))];
    const width = ({ low, high }: { low: number; high: number }): number => Math.log(high / low);
    for (const one of few.people) {
      expect(one.advised).toBe(false);
      expect(width(one)).toBeGreaterThan(2 * width(many.people[0]));
    }
    expect(few.yard?.tasks).toBe(2);
    expect(productivityOf([]).yard).toBeNull();
  });

  it('shares a slow step that one person alone does, and says how little is known', () => {
    const evidence = worked(60).filter(
      ({ step, shares }) => step !== 'fair' && shares[0].person !== 'cy',
    );
    const alone = worked(30, 11).map((one): Evidence => {
      const planned = 100;
      return {
        ...one,
        step: 'fair',
        shares: [{ person: 'cy', share: 1 }],
        planned,
        actual: 200,
        space: 'bay',
      };
    });
    const found = productivityOf([...evidence, ...alone]);
    const fair = found.steps.find(({ step }) => step === 'fair');
    const cy = found.people.find(({ person }) => person === 'cy');
    const bay = found.spaces.find(({ space }) => space === 'bay');
    const [a, b, c] = [fair?.factor ?? 0, cy?.factor ?? 0, bay?.factor ?? 0];
    expect(a * b * c).toBeGreaterThan(1.9);
    expect(a * b * c).toBeLessThan(2.1);
    expect(b).toBeGreaterThan(1.1);
    const ada = found.people.find(({ person }) => person === 'ada');
    const width = (one: typeof cy): number => Math.log((one?.high ?? 1) / (one?.low ?? 1));
    expect(width(cy)).toBeGreaterThan(width(ada));
  });

  it('sets a forgotten clock aside', () => {
    const evidence = worked(40);
    const [first, ...rest] = evidence;
    const forgotten = { ...first, actual: first.planned * 20 };
    const found = productivityOf([forgotten, ...rest]);
    expect(found.setAside).toEqual([{ taskId: 't0', factor: 20 }]);
    expect(found.yard?.tasks).toBe(39);
    expect(found.yard?.factor).toBeCloseTo(productivityOf(rest).yard?.factor ?? 0, 9);
  });
});
