import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { DomainError, type Fault } from '#kernel/error.ts';
import { jobOf, smallYard } from '../testing/small-yard.ts';
import { readYard } from './read.ts';
import type { Yard } from './yard.ts';

/** The faults of a yard that is refused; fails where it is accepted. */
function faultsOf(json: unknown): readonly Fault[] {
  try {
    readYard(json, 'test.json');
  } catch (error) {
    if (error instanceof DomainError) return error.faults;
    throw error;
  }
  throw new Error('the yard was accepted');
}

const broken = (change: (draft: Yard) => void): readonly Fault[] => faultsOf(smallYard(change));

/** JSON with one value of any kind put in the place of another. */
function withValue(path: readonly (string | number)[], value: unknown): unknown {
  const json: unknown = structuredClone(smallYard());
  let here = json as Record<string | number, unknown>;
  for (const segment of path.slice(0, -1)) here = here[segment] as Record<string | number, unknown>;
  const last = path[path.length - 1];
  if (value === undefined) Reflect.deleteProperty(here, last);
  else here[last] = value;
  return json;
}

const job = 'boats[0].refits[0].parts[0].jobs[0]';

describe('readYard accepts', () => {
  it('the small yard, and gives it back as it stands', () => {
    expect(readYard(smallYard(), 'test.json')).toEqual(smallYard());
  });

  it.each(['demo-yard', 'yard-of-one'])('the seed %s', (name) => {
    const path = new URL(`../../../seeds/${name}.json`, import.meta.url);
    const yard = readYard(JSON.parse(readFileSync(path, 'utf8')), name);
    expect(yard.id).toBe(name);
  });
});

describe('readYard refuses a wrong shape in plain words, naming the value', () => {
  it.each([
    [['name'], undefined, 'name', 'this field is missing'],
    [['name'], '', 'name', '"" is too short; at least 1 characters'],
    [['horizonDays'], 2.5, 'horizonDays', '2.5 is not a whole number'],
    [['horizonDays'], 'long', 'horizonDays', '"long" is not a number'],
    [
      ['planFrom'],
      'Monday',
      'planFrom',
      '"Monday" is not an instant with its offset, like 2026-11-30T07:00:00+01:00',
    ],
    [
      ['people', 0, 'roles', 0],
      'boss',
      'people[0].roles[0]',
      '"boss" is not one of "foreman", "builder", "owner"',
    ],
    [
      ['people', 0, 'shifts', 0, 'from'],
      '7',
      'people[0].shifts[0].from',
      '"7" cannot be used here: use HH:MM, 00:00 to 23:59',
    ],
    [['people', 0, 'email'], 'ada', 'people[0].email', '"ada" is not an e-mail address'],
    [
      ['spaces', 0, 'climate', 'kind'],
      'oven',
      'spaces[0].climate.kind',
      '"oven" is not one of "heated", "outdoors"',
    ],
    [['spaces', 0, 'room'], 0, 'spaces[0].room', '0 is too small; at least 1'],
    [
      ['procedures', 0, 'steps'],
      [],
      'procedures[0].steps',
      'the list has 0 entries; at least 1 allowed',
    ],
    [['boats', 0, 'colour'], 'red', 'boats[0].colour', 'there is no field "colour" here'],
    [
      ['boats', 0, 'refits', 0, 'parts', 0, 'areaM2'],
      -1,
      'boats[0].refits[0].parts[0].areaM2',
      '-1 is too small; at least 0',
    ],
    [
      ['materials', 0, 'milestones', 0, 'rows', 0, 'minutes'],
      0,
      'materials[0].milestones[0].rows[0].minutes',
      '0 is too small; more than 0',
    ],
    [['version'], 2, 'version', '2 is not 1'],
  ] as const)('%j = %j', (path, value, where, message) => {
    const faults = faultsOf(withValue(path, value));
    expect(faults).toHaveLength(1);
    expect(faults[0]).toMatchObject({ code: 'input.field', path: where, message });
    expect(faults[0].cure).not.toBe('');
    expect(faults[0].value).toEqual(value);
  });

  it('with every fault at once', () => {
    const json = withValue(['name'], 7) as Yard;
    Object.assign(json, { timeZone: 9 });
    expect(faultsOf(json).map(({ path }) => path)).toEqual(['name', 'timeZone']);
  });

  it('something that is no object at all', () => {
    expect(faultsOf('yard')[0].message).toBe('"yard" is not an object');
    expect(() => readYard(null, 'my.json')).toThrow(/^my\.json: null is not an object$/);
  });
});

describe('readYard refuses what makes no sense', () => {
  it.each<[string, (draft: Yard) => void, Partial<Fault>]>([
    [
      'an unknown skill of a step',
      (yard) => (yard.procedures[0].steps[0].skill = 'welding'),
      {
        code: 'yard.reference',
        path: 'procedures[0].steps[0].skill',
        value: 'welding',
        message: 'there is no skill "welding"; there are: coating, sanding',
      },
    ],
    [
      'an unknown skill of a person',
      (yard) => (yard.people[0].abilities[0].skill = 'welding'),
      { code: 'yard.reference', path: 'people[0].abilities[0].skill', value: 'welding' },
    ],
    [
      'an unknown space',
      (yard) => (yard.boats[0].refits[0].parts[0].space = 'attic'),
      {
        path: 'boats[0].refits[0].parts[0].space',
        message: 'there is no space "attic"; there are: shop',
      },
    ],
    [
      'an unknown procedure',
      (yard) => (yard.boats[0].refits[0].parts[0].jobs[0].procedure = 'magic'),
      { path: `${job}.procedure`, message: 'there is no procedure "magic"; there are: two-coats' },
    ],
    [
      'an unknown material',
      (yard) => (yard.procedures[0].steps[1].material = 'glue'),
      {
        path: 'procedures[0].steps[1].material',
        message: 'there is no material "glue"; there are: resin',
      },
    ],
    [
      'an unknown tool',
      (yard) => yard.procedures[0].steps[0].tools.push({ tool: 'crane', count: 1 }),
      {
        path: 'procedures[0].steps[0].tools[0].tool',
        message: 'there is no tool "crane"; there are: sander',
      },
    ],
    [
      'more tools than there are',
      (yard) => yard.procedures[0].steps[0].tools.push({ tool: 'sander', count: 2 }),
      {
        path: 'procedures[0].steps[0].tools[0].count',
        message: 'Sand needs 2 of sander; the yard has 1',
      },
    ],
    [
      'an unknown owner',
      (yard) => (yard.boats[0].owner = 'eve'),
      { path: 'boats[0].owner', message: 'there is no person "eve"; there are: ada' },
    ],
    [
      'a job after an unknown job',
      (yard) => yard.boats[0].refits[0].parts[0].jobs[0].after.push('hull'),
      { path: `${job}.after[0]`, message: 'there is no job "hull"; there are: lid' },
    ],
    [
      'dust that reaches nowhere',
      (yard) => yard.spaces[0].dustReaches.push('attic'),
      { path: 'spaces[0].dustReaches[1]', value: 'attic' },
    ],
    [
      'two jobs of one id',
      (yard) => yard.boats[0].refits[0].parts[0].jobs.push(jobOf('lid')),
      {
        code: 'yard.duplicate',
        path: 'boats[0].refits[0].parts[0].jobs[1].id',
        message: `the id "lid" is that of another job too (${job})`,
      },
    ],
    [
      'two jobs that make one task',
      (yard) => {
        const [procedure] = yard.procedures;
        const step = { ...procedure.steps[0], id: 'b.sand' };
        yard.procedures.push({ ...procedure, id: 'dotted', steps: [step], links: [], choices: [] });
        yard.boats[0].refits[0].parts[0].jobs.push(jobOf('a.b'), jobOf('a', [], 'dotted'));
      },
      { code: 'yard.duplicate', message: 'the jobs "a.b" and "a" both make a task "a.b.sand"' },
    ],
    [
      'wet work without a material',
      (yard) => (yard.procedures[0].steps[1].material = null),
      {
        code: 'input.field',
        path: 'procedures[0].steps[1].material',
        message: 'Coat one is wet work and names no material',
      },
    ],
    [
      'a link to a step that is not there',
      (yard) => (yard.procedures[0].links[0].to = 'three'),
      {
        path: 'procedures[0].links[0].to',
        message: 'there is no step "three"; there are: sand, one, key, two',
      },
    ],
    [
      'steps in a circle',
      (yard) =>
        yard.procedures[0].links.push({
          ...yard.procedures[0].links[0],
          id: 'back',
          from: 'two',
          to: 'sand',
        }),
      {
        code: 'yard.cycle',
        path: 'procedures[0].links',
        message: 'steps wait for each other in a circle: sand -> one -> two -> sand',
      },
    ],
    [
      'jobs in a circle',
      (yard) => {
        const { jobs } = yard.boats[0].refits[0].parts[0];
        jobs[0].after = ['more'];
        jobs.push(jobOf('more', ['lid']));
      },
      { code: 'yard.cycle', message: 'jobs wait for each other in a circle: lid -> more -> lid' },
    ],
    [
      'a crew of more than its most',
      (yard) => (yard.procedures[0].steps[0].crewMin = 3),
      {
        path: 'procedures[0].steps[0].crewMin',
        value: 3,
        message: 'Sand needs at least 3 and at most 1 builders',
      },
    ],
    [
      'a promise before the release',
      (yard) => (yard.boats[0].refits[0].promised = '2026-11-01T12:00:00Z'),
      {
        code: 'yard.promise',
        path: 'boats[0].refits[0].promised',
        value: '2026-11-01T12:00:00Z',
        message:
          'Gull refit is promised for 2026-11-01T12:00:00Z, but only released on 2026-11-02T08:00:00Z',
      },
    ],
    [
      'shifts that overlap',
      (yard) => yard.people[0].shifts.push({ weekday: 1, from: '15:00', to: '17:00', breaks: [] }),
      {
        code: 'yard.shifts-overlap',
        path: 'people[0].shifts[5]',
        message: 'Ada: Monday 08:00-16:00 and Monday 15:00-17:00 overlap',
      },
    ],
    [
      'a night shift into the next morning',
      (yard) => yard.people[0].shifts.push({ weekday: 1, from: '22:00', to: '09:00', breaks: [] }),
      {
        code: 'yard.shifts-overlap',
        message: 'Ada: Monday 22:00-09:00 and Tuesday 08:00-16:00 overlap',
      },
    ],
    [
      'a night shift of an exception into the next morning',
      (yard) => {
        const shifts = [{ from: '20:00', to: '08:30', breaks: [] }];
        yard.people[0].exceptions.push({ date: '2026-11-03', shifts, reason: '' });
      },
      {
        code: 'yard.shifts-overlap',
        message: 'Ada: 2026-11-03 20:00-08:30 and 2026-11-04 08:00-16:00 overlap',
      },
    ],
    [
      'an unknown time zone',
      (yard) => (yard.timeZone = 'Europe/Atlantis'),
      { code: 'input.field', path: 'timeZone', message: '"Europe/Atlantis" is not a time zone' },
    ],
    [
      'a milestone that the data sheet lacks',
      (yard) => (yard.procedures[0].links[2].opens = { kind: 'milestone', milestone: 'handle' }),
      {
        code: 'cure.missing',
        path: 'procedures[0].links[2].opens.milestone',
        message:
          'the data sheet of Resin has no line "handle", which a link from Coat one waits for; its lines: pot-life, bond-opens, bond-closes, tack-free, dust-safe, sandable',
      },
    ],
    [
      'wet work without a line for dust',
      (yard) =>
        (yard.materials[0].milestones = yard.materials[0].milestones.filter(
          ({ milestone }) => milestone !== 'dust-safe',
        )),
      { path: 'procedures[0].steps[1].material', value: 'dust-safe' },
    ],
    [
      'a milestone of a step that lays no film',
      (yard) => (yard.procedures[0].links[0].opens = { kind: 'milestone', milestone: 'sandable' }),
      {
        path: 'procedures[0].links[0].opens.milestone',
        message: 'Sand lays no film, so nothing of it becomes "sandable"',
      },
    ],
    [
      'a window that closes before it opens at every temperature',
      (yard) => (yard.procedures[0].links[1].opens = { kind: 'milestone', milestone: 'sandable' }),
      {
        code: 'yard.window',
        path: 'procedures[0].links[1].closes',
        message:
          'the window of "bond" opens at "sandable" and closes at "bond-closes", which comes first at any temperature on the sheet of Resin',
      },
    ],
    [
      'a sheet out of order',
      (yard) => (yard.materials[0].milestones[1].rows[1].celsius = 5),
      {
        code: 'input.field',
        path: 'materials[0].milestones[1].rows[1].celsius',
        message: 'Resin: 5 °C follows 10 °C',
      },
    ],
    [
      'a space outdoors without a table',
      (yard) => (yard.spaces[0].climate = { kind: 'outdoors', lagHours: 1, warmerBy: 0 }),
      {
        path: 'spaces[0].climate',
        message: 'Shop follows the outdoors, but the yard has no outdoor temperatures',
      },
    ],
  ])('%s', (_, change, expected) => {
    const faults = broken(change);
    expect(faults).toContainEqual(expect.objectContaining(expected));
    for (const { cure } of faults) expect(cure).not.toBe('');
  });

  it('with every fault at once', () => {
    const faults = broken((yard) => {
      yard.timeZone = 'Nowhere';
      yard.boats[0].owner = 'eve';
      yard.procedures[0].steps[0].skill = 'welding';
    });
    expect(faults.map(({ path }) => path)).toEqual([
      'timeZone',
      'procedures[0].steps[0].skill',
      'boats[0].owner',
    ]);
  });

  it('an empty yard, saying what is missing', () => {
    const empty = {
      format: 'curewright-yard',
      version: 1,
      id: 'new',
      name: 'New',
      timeZone: 'Etc/UTC',
      planFrom: '2026-11-02T08:00:00Z',
    };
    const faults = faultsOf(empty);
    expect(faults.map(({ code, path, message }) => ({ code, path, message }))).toEqual([
      { code: 'yard.empty', path: 'people', message: 'nobody in the yard is a builder' },
      { code: 'yard.empty', path: 'spaces', message: 'there is no space to work in' },
      { code: 'yard.empty', path: 'boats', message: 'there is no boat' },
    ]);
    expect(broken((yard) => (yard.boats[0].refits[0].parts = []))[0].message).toBe(
      'no refit has a part',
    );
    expect(broken((yard) => (yard.people[0].shifts = []))[0].message).toBe(
      'no builder has a shift',
    );
  });
});
