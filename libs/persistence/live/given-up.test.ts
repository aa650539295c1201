import { describe, expect, it } from 'vitest';
import { untouched, type TaskLife } from '#live/life/life.ts';
import { smallYard } from '#planning/testing/small-yard.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import type { Task, TaskLink, Workload } from '#planning/workload/workload.ts';
import { stillOpen, type GivenUp } from './given-up.ts';
import { tracesOf } from './withdraw-rework.ts';

/** The lid and a hatch, each sanded and then coated. */
const plain = makeWorkload(
  smallYard((draft) => {
    const { parts } = draft.boats[0].refits[0];
    const [lid] = parts;
    parts.push({ ...lid, id: 'hatch', name: 'Hatch', jobs: [{ ...lid.jobs[0], id: 'hatch' }] });
  }),
);

interface Made {
  readonly work: Workload;
  readonly givenUp: GivenUp;
}

const linksInto = ({ links }: Workload, id: string): TaskLink[] =>
  links.filter(({ to }) => to === id);

/** The window of a coat is given up: instead of what leads to it there is a wiping before it. */
function givenUpIn(work: Workload, taskId: string, reworkId: string, until: string): Made {
  const [like] = work.tasks;
  const wipe: Task = { ...like, id: `${taskId}-${reworkId}`, rework: reworkId };
  const into = linksInto(work, taskId);
  const link: TaskLink = { ...into[0], id: `${wipe.id}-link`, from: wipe.id };
  const links = [...work.links.filter(({ to }) => to !== taskId), link];
  const after = { ...work, tasks: [...work.tasks, wipe], links };
  const traces = tracesOf(work, after);
  return { work: after, givenUp: { taskId, until, made: { reworkId, lives: [], traces } } };
}

const claimed = (id: string): ReadonlyMap<string, TaskLife> => {
  const life = untouched();
  const claim = {
    ...{ id: crypto.randomUUID(), status: 'open' as const, holder: 'ada', crew: ['ada'] },
    ...{ claimedAt: '2026-11-02T08:00:00.000Z', lapsesAt: '2026-11-02T08:30:00.000Z' },
    ...{ startedAt: null, override: null },
  };
  return new Map([[id, { ...life, claim }]]);
};
const nobody: ReadonlyMap<string, TaskLife> = new Map();

const [early, late] = ['2026-11-02T10:00:00.000Z', '2026-11-02T12:00:00.000Z'];

describe('windows that were given up', () => {
  const lid = givenUpIn(plain, 'lid.one', 'a', early);
  const both = givenUpIn(lid.work, 'hatch.one', 'b', late);
  const work = { workload: both.work, givenUp: [both.givenUp, lid.givenUp] };

  it('are none where none was', () => {
    expect(stillOpen({ workload: plain, givenUp: [], lives: nobody })).toBeUndefined();
  });

  it('are open with the links there were, and say what they spare', () => {
    const open = stillOpen({ ...work, lives: nobody });
    expect(open).toEqual([
      {
        ...{ taskId: 'hatch.one', until: late, spares: ['hatch.one-b'] },
        links: linksInto(plain, 'hatch.one'),
      },
      {
        taskId: 'lid.one',
        until: early,
        spares: ['lid.one-a'],
        links: linksInto(plain, 'lid.one'),
      },
    ]);
    expect(stillOpen({ ...work, lives: claimed('lid.sand') })).toBe(open);
  });

  it('are not those whose preparation somebody has in hand: the same list for the same of them', () => {
    const open = stillOpen({ ...work, lives: claimed('lid.one-a') });
    expect(open?.map(({ taskId }) => taskId)).toEqual(['hatch.one']);
    expect(stillOpen({ ...work, lives: claimed('lid.one-a') })).toBe(open);
    const other = stillOpen({ ...work, lives: claimed('hatch.one-b') });
    expect(other?.map(({ taskId }) => taskId)).toEqual(['lid.one']);
    const all = new Map([...claimed('lid.one-a'), ...claimed('hatch.one-b')]);
    expect(stillOpen({ ...work, lives: all })).toBeUndefined();
  });

  it('are not those whose preparation has begun', () => {
    const tasks = both.work.tasks.map((task): Task =>
      task.id === 'lid.one-a' ? { ...task, state: 'working' } : task,
    );
    const begun = { ...work, workload: { ...both.work, tasks }, lives: nobody };
    expect(stillOpen(begun)?.map(({ taskId }) => taskId)).toEqual(['hatch.one']);
  });

  it('are not those about which the work has changed since', () => {
    const links = both.work.links.filter(({ id }) => id !== 'lid.one-a-link');
    const changed = { ...work, workload: { ...both.work, links }, lives: nobody };
    expect(stillOpen(changed)?.map(({ taskId }) => taskId)).toEqual(['hatch.one']);
  });
});

describe('two windows of one task', () => {
  const first = givenUpIn(plain, 'lid.one', 'a', early);
  const second = givenUpIn(first.work, 'lid.one', 'b', late);
  const workload = second.work;

  it('are withdrawn the last first, and are kept by whoever begins by the earlier', () => {
    const givenUp = [second.givenUp, first.givenUp];
    const open = stillOpen({ workload, givenUp, lives: nobody });
    expect(open).toEqual([
      {
        ...{ taskId: 'lid.one', until: early, spares: ['lid.one-a', 'lid.one-b'] },
        links: linksInto(plain, 'lid.one'),
      },
    ]);
    expect(stillOpen({ workload, givenUp, lives: claimed('lid.one-a') })).toBeUndefined();
  });

  it('are none in another order: what the second changed is not as the first left it', () => {
    const givenUp = [first.givenUp, second.givenUp];
    expect(stillOpen({ workload: { ...workload }, givenUp, lives: nobody })).toBeUndefined();
  });
});
