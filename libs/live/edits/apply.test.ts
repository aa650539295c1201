import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jobOf, smallYard } from '#planning/testing/small-yard.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import type { Task, TaskLink, Workload } from '#planning/workload/workload.ts';
import { partSchema, type Part } from '#planning/yard/boats.ts';
import { circles } from '#planning/yard/circle.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { applyEdits } from './apply.ts';
import { noEdits, type WorkEdits } from './edits.ts';

const shelf = (jobs: Part['jobs'], id = 'shelf'): Part =>
  partSchema.parse({ id, name: `Part ${id}`, space: 'shop', areaM2: 1, jobs });

/** Lid, then shelf, then rail: each with the two coats of `two-coats`. */
function threeParts(): Yard {
  return smallYard((draft) => {
    draft.boats[0].refits[0].parts.push(
      shelf([jobOf('shelf', ['lid'])]),
      shelf([jobOf('rail', ['shelf'])], 'rail'),
    );
  });
}

function begin(workload: Workload, states: Readonly<Record<string, Task['state']>>): Workload {
  return {
    ...workload,
    tasks: workload.tasks.map((task): Task => {
      const state = states[task.id] ?? 'waiting';
      if (state === 'waiting') return task;
      const over = state === 'done' || state === 'redo';
      return {
        ...task,
        state,
        startedAt: '2026-11-02T08:00:00Z',
        finishedAt: over ? '2026-11-02T09:00:00Z' : null,
        crew: ['ada'],
      };
    }),
  };
}

const ids = (records: readonly { readonly id: string }[]): string[] => records.map(({ id }) => id);
const edits = (some: Partial<WorkEdits>): WorkEdits => ({ ...noEdits, ...some });
const between = (links: readonly TaskLink[], from: string, to: string): TaskLink[] =>
  links.filter((link) => link.from === from && link.to === to);

describe('a part that is dropped', () => {
  const yard = threeParts();
  const all = makeWorkload(yard);

  it('takes its waiting work with it, and leaves the order of what it stood between', () => {
    const { workload, yard: after } = applyEdits(yard, all, edits({ dropParts: ['shelf'] }));
    expect(ids(workload.tasks)).toEqual(
      ids(all.tasks).filter((task) => !task.startsWith('shelf.')),
    );
    expect(after).toBe(yard);
    // The rail waited for the shelf, which waited for the last coat of the lid.
    expect(between(workload.links, 'lid.two', 'rail.sand')).toEqual([
      {
        id: 'lid.two..rail.sand',
        from: 'lid.two',
        to: 'rail.sand',
        opens: { kind: 'after', minutes: 0 },
        closes: null,
        sweep: 'unknown',
        setBy: 'job',
      },
    ]);
    expect(ids(workload.choices)).toEqual(['lid.next', 'rail.next']);
  });

  it('keeps what has begun, with the wait for its film before what came after', () => {
    const begun = begin(all, { 'shelf.sand': 'done', 'shelf.one': 'done' });
    const { workload } = applyEdits(yard, begun, edits({ dropParts: ['shelf'] }));
    expect(workload.tasks.filter(({ partId }) => partId === 'shelf')).toEqual(
      begun.tasks.filter(({ state }) => state === 'done'),
    );
    // As coat two would have, had nobody sanded in between.
    expect(between(workload.links, 'shelf.one', 'rail.sand')).toMatchObject([
      { opens: { kind: 'milestone', milestone: 'bond-opens' }, closes: null },
    ]);
    expect(workload.choices.find(({ id }) => id === 'shelf.next')).toBeUndefined();
  });

  it('leaves nothing out where all of it has begun', () => {
    const begun = begin(
      all,
      Object.fromEntries(
        all.tasks.filter(({ partId }) => partId === 'shelf').map(({ id }) => [id, 'done']),
      ),
    );
    expect(applyEdits(yard, begun, edits({ dropParts: ['shelf'] })).workload).toEqual(begun);
  });
});

describe('a task that is dropped', () => {
  const yard = smallYard();
  const all = makeWorkload(yard);

  it('between coats of the same resin leaves the film its window', () => {
    const { procedures } = yard;
    const steps = procedures[0].steps.filter(({ id }) => id !== 'key');
    const links = procedures[0].links.filter(({ id }) => id === 'sand-one' || id === 'bond');
    const third = { ...steps[2], id: 'three', name: 'Coat three' };
    const flat: Yard = {
      ...yard,
      procedures: [
        {
          ...procedures[0],
          steps: [...steps, third],
          links: [...links, { ...links[1], id: 'bond-two', from: 'two', to: 'three' }],
          choices: [],
        },
      ],
    };
    const { workload } = applyEdits(flat, makeWorkload(flat), edits({ drop: ['lid.two'] }));
    expect(between(workload.links, 'lid.one', 'lid.three')).toMatchObject([
      {
        opens: { kind: 'milestone', milestone: 'bond-opens' },
        closes: { kind: 'milestone', milestone: 'bond-closes' },
      },
    ]);
  });

  it('ends its branch: what stands in the other one holds', () => {
    const { workload } = applyEdits(yard, all, edits({ drop: ['lid.key'] }));
    expect(workload.choices).toEqual([]);
    expect(between(workload.links, 'lid.one', 'lid.two')).toEqual(
      between(all.links, 'lid.one', 'lid.two'),
    );
  });

  it('ends what was kept until it, or covered by it', () => {
    const held: Workload = {
      ...all,
      tasks: all.tasks.map((task) =>
        task.id === 'lid.one'
          ? {
              ...task,
              coveredBy: ['lid.two'],
              holds: [
                {
                  id: 'stand',
                  tool: 'sander',
                  count: 1,
                  until: [{ kind: 'task', task: 'lid.two', anchor: 'start' }],
                },
              ],
            }
          : task,
      ),
    };
    const { workload } = applyEdits(yard, held, edits({ drop: ['lid.two'] }));
    const one = workload.tasks.find(({ id }) => id === 'lid.one');
    expect(one?.coveredBy).toEqual([]);
    expect(one?.holds[0].until).toEqual([{ kind: 'after', minutes: 0 }]);
  });

  it('has not begun', () => {
    const begun = begin(all, { 'lid.sand': 'working' });
    expect(() => applyEdits(yard, begun, edits({ drop: ['lid.sand'] }))).toThrow(
      '"Sand" is working, so it cannot be dropped.',
    );
    expect(() => applyEdits(yard, all, edits({ drop: ['lid.gone'] }))).toThrow(
      'There is no task "lid.gone".',
    );
  });
});

describe('new measures', () => {
  it('size what waits, and neither what has begun nor rework', () => {
    const yard = smallYard();
    const begun = begin(makeWorkload(yard), { 'lid.sand': 'done' });
    const sand = begun.tasks[0];
    const again: Task = {
      ...sand,
      id: 'lid.sand~r',
      state: 'waiting',
      startedAt: null,
      finishedAt: null,
      crew: [],
      rework: 'a-rework',
      replaces: sand.id,
    };
    const work = { ...begun, tasks: [...begun.tasks, again] };
    const after = applyEdits(yard, work, edits({ resize: [{ partId: 'lid', areaM2: 4 }] }));
    expect(after.yard.boats[0].refits[0].parts[0]).toMatchObject({ areaM2: 4, edgeM: 0 });
    expect(after.workload.tasks.map(({ id, workMinutes }) => [id, workMinutes])).toEqual([
      ['lid.sand', 50],
      ['lid.one', 90],
      ['lid.key', 50],
      ['lid.two', 90],
      ['lid.sand~r', 50],
    ]);
    expect(after.workload.tasks[0]).toBe(sand);
  });

  it('are of a part there is', () => {
    const yard = smallYard();
    expect(() =>
      applyEdits(yard, makeWorkload(yard), edits({ resize: [{ partId: 'door', areaM2: 4 }] })),
    ).toThrow('There is no part "door".');
  });
});

describe('a further part', () => {
  const yard = threeParts();
  const all = makeWorkload(yard);
  const door = { refitId: 'gull-refit', part: shelf([jobOf('door', ['shelf'])], 'door') };

  it('comes with the work of its jobs, as if it had been there', () => {
    const { yard: after, workload } = applyEdits(yard, all, edits({ addParts: [door] }));
    expect(workload).toEqual(makeWorkload(after));
    expect(between(workload.links, 'shelf.two', 'door.sand')).toHaveLength(1);
  });

  it('comes after what its job came after, where that was dropped', () => {
    const dropped = applyEdits(yard, all, edits({ dropParts: ['shelf'] }));
    const { workload } = applyEdits(dropped.yard, dropped.workload, edits({ addParts: [door] }));
    expect(ids(workload.links.filter(({ to }) => to === 'door.sand'))).toEqual([
      'lid.two..door.sand',
    ]);
  });

  it('comes after what a rework does again', () => {
    const done = begin(all, Object.fromEntries(ids(all.tasks).map((id) => [id, 'done'])));
    const last = done.tasks.find(({ id }) => id === 'shelf.two');
    if (last === undefined) throw new Error('the shelf has a last coat');
    const again: Task = {
      ...last,
      id: 'shelf.two~r',
      state: 'waiting',
      startedAt: null,
      finishedAt: null,
      crew: [],
      rework: 'a-rework',
      replaces: last.id,
    };
    const reworked = applyEdits(yard, done, edits({ addTasks: [again], redo: [last.id] }));
    expect(reworked.workload.tasks.find(({ id }) => id === last.id)?.state).toBe('redo');
    const { workload } = applyEdits(reworked.yard, reworked.workload, edits({ addParts: [door] }));
    expect(workload.links.filter(({ to }) => to === 'door.sand').map(({ from }) => from)).toEqual([
      'shelf.two~r',
    ]);
  });

  it('is not there yet, and its refit is', () => {
    const again = { refitId: 'gull-refit', part: shelf([], 'lid') };
    expect(() => applyEdits(yard, all, edits({ addParts: [again] }))).toThrow(
      'There is a part "lid" already.',
    );
    expect(() =>
      applyEdits(yard, all, edits({ addParts: [{ ...door, refitId: 'nothing' }] })),
    ).toThrow('There is no refit "nothing".');
  });
});

describe('edits that make no sense', () => {
  const yard = smallYard();
  const all = makeWorkload(yard);
  const order = (id: string, from: string, to: string): TaskLink => ({
    id,
    from,
    to,
    opens: { kind: 'after', minutes: 0 },
    closes: null,
    sweep: 'unknown',
    setBy: 'job',
  });

  it.each([
    [{ addLinks: [order('back', 'lid.two', 'lid.sand')] }, 'they wait for each other'],
    [{ addLinks: [order('out', 'lid.two', 'nothing')] }, 'links the task "nothing"'],
    [{ addLinks: [order('lid.bond', 'lid.sand', 'lid.two')] }, 'a link "lid.bond" already'],
    [{ addTasks: [all.tasks[0]] }, 'a task "lid.sand" already'],
    [{ redo: ['lid.sand'] }, '"Sand" is waiting, so there is nothing to do again.'],
    [
      { branchLinks: [{ choice: 'lid.next', branch: 'other', link: 'lid.bond' }] },
      'The choice "lid.next" has no branch "other".',
    ],
  ] as const)('are refused: %j', (some, words) => {
    expect(() => applyEdits(yard, all, edits(some))).toThrow(words);
  });
});

/** Whether `to` comes after `from` by links that always open something. */
function comesAfter(links: readonly TaskLink[], from: string, to: string): boolean {
  const seen = new Set<string>([from]);
  const open = [from];
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    for (const link of links) {
      if (link.from !== at || link.opens === null || seen.has(link.to)) continue;
      if (link.to === to) return true;
      seen.add(link.to);
      open.push(link.to);
    }
  }
  return false;
}

it('whatever is edited: ids are unique, links lead somewhere, order stays, what has begun stays', () => {
  const yard = threeParts();
  const all = makeWorkload(yard);
  const names = ids(all.tasks);
  const parts = ['lid', 'shelf', 'rail'];
  const arbitrary = fc.record({
    /** So many of the tasks, in order, have begun, the last of them not to its end. */
    begun: fc.nat({ max: names.length }),
    drop: fc.subarray(names),
    dropParts: fc.subarray(parts),
    resize: fc.subarray(parts),
    adds: fc.boolean(),
  });
  fc.assert(
    fc.property(arbitrary, ({ begun, drop, dropParts, resize, adds }) => {
      const states = Object.fromEntries(
        names.slice(0, begun).map((id, k) => [id, k === begun - 1 ? 'working' : 'done'] as const),
      );
      const before = begin(all, states);
      const wanted = edits({
        drop: drop.filter((id) => !(id in states)),
        dropParts,
        resize: resize.map((partId) => ({ partId, areaM2: 3 })),
        addParts: adds
          ? [{ refitId: 'gull-refit', part: shelf([jobOf('door', ['rail'])], 'door') }]
          : [],
      });
      const { workload } = applyEdits(yard, before, wanted);
      const now = new Set(ids(workload.tasks));
      expect(now.size).toBe(workload.tasks.length);
      expect(new Set(ids(workload.links)).size).toBe(workload.links.length);
      for (const { from, to } of workload.links)
        expect([now.has(from), now.has(to)]).toEqual([true, true]);
      const index = new Map(ids(workload.tasks).map((id, k) => [id, k]));
      const arcs = workload.links.map(
        ({ from, to }) => [index.get(from) ?? -1, index.get(to) ?? -1] as const,
      );
      expect(circles(workload.tasks.length, arcs)).toEqual([]);
      for (const { branches } of workload.choices)
        for (const { tasks, links } of branches)
          expect(
            [...tasks, ...links].filter((id) => !now.has(id) && !ids(workload.links).includes(id)),
          ).toEqual([]);
      const left = names.filter((id) => now.has(id));
      for (const from of left)
        for (const to of left) {
          if (to in states || !comesAfter(all.links, from, to)) continue;
          expect([from, to, comesAfter(workload.links, from, to)]).toEqual([from, to, true]);
        }
      for (const task of before.tasks.filter(({ state }) => state !== 'waiting'))
        expect(workload.tasks.find(({ id }) => id === task.id)).toEqual(task);
      expect(applyEdits(yard, before, wanted).workload).toEqual(workload);
    }),
    { numRuns: 300 },
  );
});
