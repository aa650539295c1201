import { describe, expect, it } from 'vitest';
import { type Answers, emptyYard, type StartingKit, yardWithKit } from './new-yard.ts';

const answers: Answers = {
  name: '  Quai Neuf ',
  timeZone: 'Europe/Paris',
  currency: 'EUR',
  way: 'with-others',
  ownBoats: false,
  days: ['1', '6'],
  from: '08:00',
  to: '17:00',
  breakFrom: '12:30',
  breakTo: '13:00',
  place: 'Big shed',
  celsius: 17.5,
  isHeld: true,
};
const effort = { source: 'invented' };
const step = {
  id: 'turn',
  name: 'Turn',
  effort,
  crewMin: 2,
  crewMax: 3,
  splittable: false,
} as const;
const kit: StartingKit = {
  skills: [{ id: 'joinery', name: 'Joinery' }],
  tools: [],
  stocks: [],
  materials: [],
  fabrics: [],
  procedures: [
    {
      id: 'panel',
      version: 1,
      name: 'Panel',
      steps: [
        { ...step, air: 'clean', skill: 'joinery' },
        { ...step, id: 'word', air: 'clean', skill: null, crewMin: 0, crewMax: 0 },
      ],
      links: [],
    },
  ],
};
const me = { name: 'Inès Le Goff', email: 'ines@yard.test' };
const now = Date.parse('2026-11-30T07:41:59.400Z');
const made = (more: Partial<Answers> = {}) => yardWithKit({ ...answers, ...more }, me, kit, now);

describe('a new yard', () => {
  it('is bare where nothing is known but its name, and plans from the minute it is made', () => {
    expect(emptyYard(answers, now)).toEqual({
      format: 'curewright-yard',
      version: 1,
      id: 'quai-neuf',
      name: 'Quai Neuf',
      timeZone: 'Europe/Paris',
      currency: 'EUR',
      planFrom: '2026-11-30T07:41:00.000Z',
    });
  });

  it('has whoever begins it in the hours they gave, able at all that the kit names', () => {
    const [person] = made().people ?? [];
    expect(person).toMatchObject({
      id: 'ines-le-goff',
      email: 'ines@yard.test',
      roles: ['foreman', 'builder'],
      abilities: [{ skill: 'joinery', level: 2 }],
    });
    expect(person.shifts?.map(({ weekday }) => weekday)).toEqual([1, 6]);
    expect(person.shifts?.[0].breaks).toEqual([{ from: '12:30', to: '13:00' }]);
    const [without] = made({ breakTo: '' }).people ?? [];
    expect(without.shifts?.[0].breaks).toEqual([]);
  });

  it('asks no work of who leads only, and lets who owns boats own them', () => {
    const [person] = made({ way: 'lead', ownBoats: true }).people ?? [];
    expect(person).toMatchObject({ roles: ['foreman', 'owner'], abilities: [], shifts: [] });
  });

  it('lets one pair of hands do what takes two, and leaves what waits for a word', () => {
    const [alone] = made({ way: 'alone' }).procedures ?? [];
    expect(alone.steps.map(({ crewMin, crewMax }) => [crewMin, crewMax])).toEqual([
      [1, 1],
      [0, 0],
    ]);
    expect(made().procedures).toBe(kit.procedures);
  });

  it('has its first space as warm as said, and less surely where nothing holds it', () => {
    const [held] = made().spaces ?? [];
    expect(held).toMatchObject({ id: 'big-shed', bandC: null, dustReaches: ['big-shed'] });
    expect(held.climate).toMatchObject({ setPoints: [{ celsius: 17.5 }] });
    expect(made({ isHeld: false }).spaces?.[0].bandC).toBe(5);
  });
});
