import { describe, expect, it } from 'vitest';
import { check } from '../checker/check.ts';
import type { Problem } from '../model/problem.ts';
import { validate } from '../model/validate.ts';
import { range } from './draw.ts';
import { plantedProblem, tinyProblem, type Planted } from './planted.ts';

const large = (seed: number): Planted => plantedProblem(seed, 4 + (seed % 37));

type Placed = Planted['plan']['placements'][number];

const modeOf = (
  problem: Problem,
  { activity, mode }: Placed,
): Problem['activities'][number]['modes'][number] => problem.activities[activity].modes[mode];

/** What a problem and its plan may have, and whether they do. */
const features: Readonly<Record<string, (problem: Problem, placed: readonly Placed[]) => boolean>> =
  {
    'several modes': ({ activities }) => activities.some(({ modes }) => modes.length > 1),
    'several people': (_, placed) => placed.some(({ crew }) => crew.length > 1),
    'several skills': (p, placed) => placed.some((one) => modeOf(p, one).crew.length > 1),
    'a level above the first': (p, placed) =>
      placed.some((one) => modeOf(p, one).crew.some(({ minLevel }) => minLevel > 1)),
    learners: (p, placed) =>
      placed.some((one) =>
        one.crew.some(
          ({ builder, demand }) =>
            p.activities[one.activity].fixed?.kind !== 'frozen' &&
            p.builders[builder].abilities.find(
              ({ skill }) => skill === modeOf(p, one).crew[demand].skill,
            )?.needsSenior,
        ),
      ),
    'work in pieces': (_, placed) => placed.some(({ segments }) => segments.length > 1),
    'work in pieces without a crew': (_, placed) =>
      placed.some(({ segments, crew }) => segments.length > 1 && crew.length === 0),
    'observed breaks': (p, placed) =>
      placed.some((one) => modeOf(p, one).breaks === 'observed' && !modeOf(p, one).splittable),
    'overtime worked': (p, placed) =>
      placed.some(
        ({ overtime, crew, segments }) =>
          overtime &&
          crew.some(({ builder }) =>
            p.calendars[p.builders[builder].calendar].overtime.some((extra) =>
              segments.some(({ start, end }) => start < extra.end && extra.start < end),
            ),
          ),
      ),
    'clean-down': (p, placed) => placed.some((one) => modeOf(p, one).cleanDown > 0),
    'resources kept while paused': (p, placed) =>
      placed.some(
        (one) =>
          one.segments.length > 1 &&
          modeOf(p, one).demands.some((demand) => demand.keptWhilePaused),
      ),
    'resources let go while paused': (p, placed) =>
      placed.some(
        (one) =>
          one.segments.length > 1 &&
          modeOf(p, one).demands.some((demand) => !demand.keptWhilePaused),
      ),
    'steps of capacity': ({ resources }) => resources.some(({ steps }) => steps.length > 1),
    'resources with hours': (p, placed) =>
      placed.some((one) =>
        modeOf(p, one).demands.some(({ resource }) => p.resources[resource].calendar !== null),
      ),
    stocks: (p, placed) => placed.some((one) => modeOf(p, one).consumes.length > 0),
    'holds until lags': ({ holds }) =>
      holds.some(({ ends }) => ends.some(({ kind }) => kind === 'lag')),
    'holds until others': ({ holds }) =>
      holds.some(({ ends }) => ends.some(({ kind }) => kind === 'activity')),
    'parts that are moved': (p, placed) => placed.some((one) => modeOf(p, one).movesTo !== null),
    'several parts': (p, placed) =>
      placed.some(({ activity }) => p.activities[activity].parts.length > 1),
    'work at moments': (_, placed) => placed.some(({ start, finish }) => start === finish),
    'lags by mode': ({ lags }) => lags.some(({ fns }) => fns.length > 1),
    'lags by table': ({ lags }) => lags.some(({ fns }) => fns.some(({ kind }) => kind === 'table')),
    'lags by lines': ({ lags, tables }) =>
      lags.some(({ fns }) => fns.some((fn) => fn.kind === 'table' && 'at' in tables[fn.table])),
    'three branches': ({ choices }) => choices.some(({ branches }) => branches.length === 3),
    'lags of branches': ({ choices }) =>
      choices.some(({ branches }) => branches.some(({ lags }) => lags.length > 0)),
    'acts on barriers': (p, placed) => placed.some((one) => modeOf(p, one).barrier !== null),
    'dust through barriers': (p, placed) =>
      placed.some((one) => {
        const { air, space } = modeOf(p, one);
        return (
          air === 'dusty' &&
          space !== null &&
          p.spaces[space].dustReaches.some(({ barrier }) => barrier !== null)
        );
      }),
    settling: ({ spaces }) => spaces.some(({ settling }) => settling > 0),
    'wet work': (p, placed) => placed.some((one) => modeOf(p, one).air === 'wet'),
    'films on work that is not wet': ({ surfaces, activities }) =>
      surfaces.some(({ activity }) => activities[activity].modes[0].air === 'clean'),
    'films covered': ({ surfaces }, placed) =>
      surfaces.some(({ coveredBy }) => placed.some(({ activity }) => coveredBy.includes(activity))),
    'films moved': (p, placed) =>
      p.surfaces.some(({ activity }) => {
        const [carrier] = p.activities[activity].parts;
        const owner = placed.find((one) => one.activity === activity);
        return (
          owner !== undefined &&
          placed.some(
            (one) =>
              one.start >= owner.finish &&
              modeOf(p, one).movesTo !== null &&
              p.activities[one.activity].parts.includes(carrier),
          )
        );
      }),
    slots: (_, placed) => placed.some(({ slot }) => slot !== null),
    'slots too late to book': ({ slotLists, now }) =>
      slotLists.some(({ slots }) => slots.some(({ bookBy }) => bookBy < now)),
    'several releases': ({ activities }) => activities.some(({ releases }) => releases.length > 1),
    'forbidden finishes': ({ activities }) =>
      activities.some(({ modes }) =>
        modes.some(({ forbidden }) =>
          forbidden.some(({ anchor, spans }) => anchor === 'finish' && spans.length > 0),
        ),
      ),
    'frozen work': ({ activities }) => activities.some(({ fixed }) => fixed?.kind === 'frozen'),
    'frozen work that had begun': ({ activities }) =>
      activities.some(({ fixed }) => fixed?.kind === 'frozen' && (fixed.start ?? 0) < 0),
    'set work': ({ activities }) => activities.some(({ fixed }) => fixed?.kind === 'set'),
    handovers: ({ refits }) => refits.some(({ handovers }) => handovers.length > 0),
    'a published plan': ({ published }) => published !== null,
    'tolerances of three ranks': ({ tolerances }) => tolerances.every((tolerance) => tolerance > 0),
  };

describe('planted problems', { timeout: 60_000 }, () => {
  it('come with a plan that the checker accepts', () => {
    for (const seed of range(200)) {
      const { problem, plan } = large(seed);
      expect(validate(problem), `seed ${seed}`).toEqual([]);
      expect(check(problem, plan), `seed ${seed}`).toEqual([]);
    }
  });

  it('do so when they are tiny', () => {
    for (const seed of range(400)) {
      const { problem, plan } = tinyProblem(seed, 2 + (seed % 5));
      expect(validate(problem), `seed ${seed}`).toEqual([]);
      expect(check(problem, plan), `seed ${seed}`).toEqual([]);
    }
  });

  it('are the same for the same seed, and plain JSON', () => {
    for (const seed of range(10)) {
      expect(large(seed)).toEqual(large(seed));
      expect(JSON.parse(JSON.stringify(large(seed)))).toEqual(large(seed));
    }
    expect(large(1)).not.toEqual(plantedProblem(2, 5));
  });

  const many = range(150).map(large);

  it.each(Object.entries(features))('have %s in at least one of twenty', (_, has) => {
    const having = many.filter(({ problem, plan }) => has(problem, plan.placements));
    expect(having.length).toBeGreaterThan(7);
  });

  it.each([0, 1, 2, 3])('have plans whose rank %i is worth something', (rank) => {
    expect(many.filter(({ plan }) => plan.values[rank] > 0).length).toBeGreaterThan(30);
  });

  it(
    'are checked in less than 200 ms of processor with a thousand activities in five weeks',
    { timeout: 60_000 },
    () => {
      const { problem, plan } = plantedProblem(1, 1000, { day: 1440, days: 35 });
      const times = range(5).map(() => {
        const start = process.cpuUsage();
        expect(check(problem, plan)).toEqual([]);
        const { user, system } = process.cpuUsage(start);
        return (user + system) / 1000;
      });
      expect(Math.min(...times)).toBeLessThan(200);
    },
  );
});
