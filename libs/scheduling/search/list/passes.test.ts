import { describe, expect, it } from 'vitest';
import { random } from '#kernel/random.ts';
import { isFeasible, makespanOf, toPureModel, type PureModel } from '../exact/pure.ts';
import { EventPass } from './pass-events.ts';
import { PeriodPass } from './pass-periods.ts';
import { EventProfile } from './profile-events.ts';
import type { Project } from './project.ts';
import { toProject } from './to-project.ts';
import { Sampler } from './sampling.ts';
import type { Direction, Pass } from './scheme.ts';
import { Sorter } from './sorter.ts';
import { drawProject, type ProjectSize } from './testing/draw-project.ts';

const SMALL: ProjectSize = { count: 25, resources: 3, most: 9, longest: 7 };

/** What the packing and the profiles have to deal with. */
const KINDS: Readonly<Record<string, ProjectSize>> = {
  'one word': SMALL,
  'four full lanes': { ...SMALL, resources: 4, most: 127 },
  'more than four resources': { ...SMALL, resources: 6 },
  'lanes of 16 bits': { ...SMALL, resources: 3, most: 30_000 },
  'lanes of 32 bits': { ...SMALL, resources: 2, most: 2_000_000_000 },
  'long work': { ...SMALL, longest: 997 },
};

function projectOf(seed: number, size: ProjectSize): { model: PureModel; project: Project } {
  const model = toPureModel(drawProject(seed, size));
  const project = toProject(model);
  if (project === null) throw new Error(`seed ${seed} drew no project`);
  return { model, project };
}

const startsOf = (
  model: PureModel,
  finish: Int32Array,
  direction: Direction,
  makespan: number,
): Int32Array =>
  finish.map((done, i) => (direction === 0 ? done - model.duration[i] : makespan - done));

/** The finishes of a list by looking at every activity placed so far, at each moment work could begin. */
function plainly(model: PureModel, list: Int32Array, direction: Direction): number[] {
  const { duration, demand, capacity, lags } = model;
  const start = new Map<number, number>();
  const use = (r: number, t: number): number =>
    [...start].reduce((sum, [k, s]) => sum + (s <= t && t < s + duration[k] ? demand[r][k] : 0), 0);
  for (const i of list) {
    const ready = lags.map(({ from, to }) => {
      const [before, after] = direction === 0 ? [from, to] : [to, from];
      return after === i ? (start.get(before) ?? Infinity) + duration[before] : 0;
    });
    const earliest = Math.max(0, ...ready);
    const ends = [...start].map(([k, s]) => s + duration[k]).filter((t) => t > earliest);
    const fits = (t: number): boolean => {
      if (duration[i] === 0) return true;
      const changes = [...start.values()].filter((s) => t < s && s < t + duration[i]);
      return [t, ...changes].every((at) =>
        capacity.every((most, r) => use(r, at) + demand[r][i] <= most),
      );
    };
    const at = [earliest, ...ends].sort((a, b) => a - b).find(fits);
    start.set(i, at ?? Infinity);
  }
  return Array.from(duration, (d, i) => (start.get(i) ?? Infinity) + d);
}

describe.each(Object.entries(KINDS))('serial generation, %s', (_, size) => {
  it('places each activity where looking at every moment places it, in both directions', () => {
    for (let seed = 1; seed <= 12; seed++) {
      const { model, project } = projectOf(seed, size);
      const sampler = new Sampler(project, random(seed));
      const list = new Int32Array(project.count);
      const finish = new Int32Array(project.count);
      const pass = project.pass();
      for (const direction of [0, 1, 0, 1] as const) {
        sampler.draw(direction, 1, list);
        const makespan = pass.run(list, direction, finish);
        expect([...finish], `seed ${seed}`).toEqual(plainly(model, list, direction));
        const starts = startsOf(model, finish, direction, makespan);
        expect(isFeasible(model, starts), `seed ${seed}`).toBe(true);
        expect(makespanOf(model, starts)).toBe(makespan);
      }
    }
  });

  it('never lengthens a plan that it presses to the other side', () => {
    for (let seed = 1; seed <= 25; seed++) {
      const { model, project } = projectOf(seed, size);
      const list = new Int32Array(project.count);
      const finish = new Int32Array(project.count);
      const pass = project.pass();
      const sorter = new Sorter(project);
      new Sampler(project, random(seed)).draw(0, 1, list);
      let direction: Direction = 0;
      let makespan = pass.run(list, direction, finish);
      for (let turn = 0; turn < 6; turn++) {
        sorter.sort(finish, makespan, direction, list, 0);
        direction = direction === 0 ? 1 : 0;
        const next = pass.run(list, direction, finish);
        expect(next, `seed ${seed}`).toBeLessThanOrEqual(makespan);
        makespan = next;
        const starts = startsOf(model, finish, direction, makespan);
        expect(isFeasible(model, starts), `seed ${seed}`).toBe(true);
      }
    }
  });
});

describe('sorting by finishes', () => {
  it('keeps the order of equal ones, however late they are', () => {
    const { project } = projectOf(3, { ...SMALL, count: 40 });
    const sorter = new Sorter(project);
    const rng = random(3);
    const list = new Int32Array(project.count);
    const before = Array.from(project.order[1]);
    for (let bits = 1; bits <= 30; bits++) {
      const finish = Int32Array.from(list, () => rng.below(2 ** bits));
      finish[1] = finish[0];
      sorter.sort(finish, Math.max(...finish), 0, list, 0);
      const expected = before.toSorted((a, b) => finish[b] - finish[a]);
      expect([...list], `${bits} bits`).toEqual(expected);
    }
  });
});

describe('the passes', () => {
  it('agree: a cell a period and a list of events', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const { project } = projectOf(seed, { ...SMALL, count: 40, resources: 4, most: 20 });
      const passes: Pass[] = [new PeriodPass(project), new EventPass(project)];
      const sampler = new Sampler(project, random(seed));
      const list = new Int32Array(project.count);
      for (const direction of [0, 1] as const) {
        sampler.draw(direction, 1, list);
        const [periods, events] = passes.map((pass) => {
          const finish = new Int32Array(project.count);
          pass.run(list, direction, finish);
          return [...finish];
        });
        expect(events, `seed ${seed}`).toEqual(periods);
      }
    }
  });
});

describe.each(Object.entries(KINDS))('the profile, %s', (_, size) => {
  it('finds the room that looking at every period finds, while work is taken out again', () => {
    for (let seed = 1; seed <= 8; seed++) {
      const { model, project } = projectOf(seed, { ...size, longest: 7 });
      const { packing, duration, span, count } = project;
      const rng = random(seed);
      const profile = new EventProfile(packing, duration);
      const placed = new Map<number, number>();
      const use = (r: number, t: number): number =>
        [...placed].reduce(
          (sum, [k, at]) => sum + (at <= t && t < at + duration[k] ? model.demand[r][k] : 0),
          0,
        );
      const isRoom = (i: number, t: number): boolean =>
        model.capacity.every((most, r) => use(r, t) + model.demand[r][i] <= most);
      for (let k = 0; k < 200; k++) {
        const i = rng.below(count);
        const at = placed.get(i);
        if (at !== undefined) {
          profile.give(i, at);
          placed.delete(i);
          continue;
        }
        const from = rng.below(span);
        let start = from;
        for (let t = from; t < start + duration[i]; t++) if (!isRoom(i, t)) start = t + 1;
        expect(profile.earliest(i, from), `seed ${seed}`).toBe(start);
        profile.take(i, start);
        placed.set(i, start);
      }
    }
  });
});

describe('parallel generation', () => {
  it('makes plans in which nothing could begin earlier, from any order', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const { model, project } = projectOf(seed, SMALL);
      const finish = new Int32Array(project.count);
      const rng = random(seed);
      const list = Int32Array.from(
        [...Array(project.count).keys()]
          .map((i) => ({ i, key: rng.unit() }))
          .sort((a, b) => a.key - b.key)
          .map(({ i }) => i),
      );
      for (const direction of [0, 1] as const) {
        const makespan = project.parallel?.().run(list, direction, finish) ?? 0;
        const starts = startsOf(model, finish, direction, makespan);
        expect(isFeasible(model, starts), `seed ${seed}`).toBe(true);
        for (let i = 0; i < project.count; i++) {
          // What begins at once cannot begin earlier; backwards the plan has no such wall.
          if (finish[i] === project.duration[i]) continue;
          const earlier = finish.slice();
          earlier[i]--;
          const moved = startsOf(model, earlier, direction, makespan);
          expect(isFeasible(model, moved), `seed ${seed}, activity ${i}`).toBe(false);
        }
      }
    }
  });
});
