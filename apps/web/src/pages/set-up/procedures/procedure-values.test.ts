import { describe, expect, it } from 'vitest';
import { blankStep, movedStep, type ProcedureValues, withoutStep } from './procedure-values.ts';

const steps = ['sand', 'coat', 'cure'].map((id) => blankStep(id, id, 'clean', 'skill'));

const values: ProcedureValues = {
  name: 'Coat',
  steps: [
    { ...steps[0], coveredBy: ['coat', 'cure'] },
    steps[1],
    {
      ...steps[2],
      holds: [
        {
          id: 'stand',
          tool: 'stand',
          count: 1,
          until: [
            { kind: 'step', step: 'coat', anchor: 'finish' },
            { kind: 'after', minutes: 5 },
          ],
        },
      ],
    },
  ],
  links: [
    { id: 'a', from: 'sand', to: 'coat', opens: null, closes: null, sweep: 'unknown' },
    { id: 'b', from: 'sand', to: 'cure', opens: null, closes: null, sweep: 'unknown' },
  ],
  choices: [
    {
      id: 'way',
      name: 'Way',
      branches: [{ id: 'one', name: 'One', steps: ['coat'], links: ['a', 'b'] }],
    },
  ],
};

describe('a step that is taken out', () => {
  it('leaves nothing behind that names it', () => {
    const left = withoutStep(values, 'coat');
    expect(left.steps.map(({ id }) => id)).toEqual(['sand', 'cure']);
    expect(JSON.stringify(left)).not.toContain('coat');
    expect(left.links.map(({ id }) => id)).toEqual(['b']);
    expect(left.choices[0].branches[0]).toMatchObject({ steps: [], links: ['b'] });
    expect(left.steps[1].holds[0].until).toEqual([{ kind: 'after', minutes: 5 }]);
  });
});

describe('a step that is moved', () => {
  const order = (at: number, by: -1 | 1) => movedStep(values.steps, at, by).map(({ id }) => id);

  it('changes places with its neighbour, and stays at the ends', () => {
    expect(order(0, 1)).toEqual(['coat', 'sand', 'cure']);
    expect(order(2, -1)).toEqual(['sand', 'cure', 'coat']);
    expect(order(0, -1)).toEqual(['sand', 'coat', 'cure']);
    expect(order(2, 1)).toEqual(['sand', 'coat', 'cure']);
  });
});

describe('a step as it begins', () => {
  it('is of its kind', () => {
    expect(blankStep('w', 'Sign', 'hold', 'coating')).toMatchObject({ skill: null, crewMax: 0 });
    expect(blankStep('w', 'Roll', 'wet', 'coating')).toMatchObject({
      air: 'wet',
      splittable: false,
      skill: 'coating',
      crewMax: 1,
    });
  });
});
