import { describe, expect, it } from 'vitest';
import { DomainError, type Fault } from '#kernel/error.ts';
import { compiled } from '../testing/compiled.ts';
import { heatedTo } from '../testing/small-yard.ts';
import type { Yard } from '../yard/yard.ts';

function faultsOf(change: (draft: Yard) => void): readonly Fault[] {
  try {
    compiled(change);
  } catch (error) {
    if (error instanceof DomainError) return error.faults;
    throw error;
  }
  throw new Error('the yard compiled');
}

/** Makes the bond window binding: no choice, no preparation. */
function onlyBond(yard: Yard): void {
  const [procedure] = yard.procedures;
  procedure.steps = procedure.steps.filter(({ id }) => id !== 'key');
  procedure.links = procedure.links.filter(({ id }) => id === 'sand-one' || id === 'bond');
  procedure.choices = [];
}

const heat = (yard: Yard, celsius: number): void => {
  yard.spaces[0].climate = heatedTo(celsius);
};

describe('compile refuses', () => {
  it.each<[string, (draft: Yard) => void, Partial<Fault>]>([
    [
      'a skill that nobody has',
      (yard) => yard.people[0].abilities.pop(),
      {
        code: 'yard.skill',
        path: 'procedures[0].steps[0]',
        value: 'sanding',
        message: '"Sand" on Lid (lid.sand) needs Sanding, which no builder has',
      },
    ],
    [
      'a level that nobody has',
      (yard) => (yard.procedures[0].steps[0].minLevel = 3),
      {
        code: 'yard.skill',
        message: '"Sand" on Lid (lid.sand) needs Sanding at level 3 or above, which no builder has',
      },
    ],
    [
      'a crew larger than those who can',
      (yard) => Object.assign(yard.procedures[0].steps[0], { crewMin: 2, crewMax: 3 }),
      {
        code: 'yard.crew',
        value: 2,
        message: '"Sand" on Lid (lid.sand) needs 2 builders; 1 has Sanding',
      },
    ],
    [
      'a task longer than any shift',
      (yard) => (yard.boats[0].refits[0].parts[0].areaM2 = 40),
      {
        code: 'yard.shift',
        path: 'boats[0].refits[0].parts[0].jobs[0]',
        value: 'lid.one',
        message:
          '"Coat one" on Lid (lid.one) takes 10 h 30 min in one piece even with one builder; the longest shift of anyone with Coating is 8 h',
      },
    ],
    [
      'a crew that is never there together',
      (yard) => {
        const shifts = [{ weekday: 6, from: '08:00', to: '16:00', breaks: [] }];
        yard.people.push({ ...yard.people[0], id: 'bo', name: 'Bo', shifts });
        Object.assign(yard.procedures[0].steps[1], { crewMin: 2, crewMax: 2 });
      },
      {
        code: 'yard.crew',
        message:
          '"Coat one" on Lid (lid.one) takes 30 min in one piece with 2 builders, but so many with Coating are never at work together for so long',
      },
    ],
    [
      'a window that never opens in the cold',
      (yard) => {
        onlyBond(yard);
        heat(yard, 2);
      },
      {
        code: 'yard.window',
        path: 'procedures[0].links[1]',
        value: 'lid.bond',
        message:
          'the window of lid.bond never opens: "Coat one" on Lid (lid.one) is not "bond-opens" before the horizon in Shop, at 2 °C',
      },
    ],
    [
      'a window too short for the work in it',
      (yard) => {
        onlyBond(yard);
        yard.boats[0].refits[0].parts[0].areaM2 = 12;
      },
      {
        code: 'yard.window',
        message:
          'the window of lid.bond is empty: "Coat two" on Lid (lid.two) takes at least 210 min, and there is never so long between "bond-opens" and "bond-closes" of "Coat one" on Lid (lid.one) in Shop, at 20 °C',
      },
    ],
    [
      'a choice whose every branch is closed',
      (yard) => heat(yard, 2),
      { code: 'yard.window', value: 'lid.hard' },
    ],
    [
      'a space where the material spoils all the time',
      (yard) => {
        yard.materials[0].belowMinimum = 'spoils';
        yard.materials[0].minimumC = 25;
      },
      {
        code: 'yard.window',
        message:
          '"Coat one" on Lid (lid.one) can never start: Resin must be laid and set between 25 °C and 35 °C, and it is in Shop, at 20 °C',
      },
    ],
    [
      'a boat that comes after the horizon',
      (yard) =>
        Object.assign(yard.boats[0].refits[0], { release: '2027-11-02T08:00:00Z', promised: null }),
      {
        code: 'yard.horizon',
        path: 'boats[0].refits[0].release',
        value: '2027-11-02T08:00:00Z',
        message:
          'Gull refit is only released on 2027-11-02T08:00:00Z, and the plan ends 14 days after 2026-11-02T08:00:00Z',
      },
    ],
    [
      'an empty yard',
      (yard) => (yard.boats = []),
      { code: 'yard.empty', path: 'boats', message: 'there is no boat' },
    ],
  ])('%s', (_, change, expected) => {
    expect(faultsOf(change)).toContainEqual(expect.objectContaining(expected));
  });

  it('not a window that another branch avoids', () => {
    // Too large for the bond window, but it can be abraded.
    const { problem } = compiled((yard) => (yard.boats[0].refits[0].parts[0].areaM2 = 12));
    expect(problem.choices[0].branches).toHaveLength(2);
  });
});
