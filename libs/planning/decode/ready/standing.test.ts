import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { smallYard } from '../../testing/small-yard.ts';
import { makeWorkload } from '../../workload/make.ts';
import type { Task, Workload } from '../../workload/workload.ts';
import type { Yard } from '../../yard/yard.ts';
import { standing, type Standing } from './standing.ts';

/** Six parts in two spaces, of which one gets the other's dust. */
const yard = smallYard((draft) => {
  draft.spaces.push({ ...draft.spaces[0], id: 'loft', name: 'Loft', dustReaches: ['shop'] });
  const { parts } = draft.boats[0].refits[0];
  const [lid] = parts;
  for (let k = 1; k < 6; k += 1) {
    const id = `part-${String(k)}`;
    const space = k % 2 === 0 ? 'shop' : 'loft';
    parts.push({ ...lid, id, name: id, space, jobs: [{ ...lid.jobs[0], id }] });
  }
});

const isoAt = (minute: number): string =>
  new Date(Date.parse('2026-11-02T08:00:00Z') + minute * 60_000).toISOString();

/** One thing that happens: the k-th of those that may begin, or of those in hand. */
const happening = fc.record({
  after: fc.integer({ min: 1, max: 700 }),
  what: fc.constantFrom('begin', 'end', 'end', 'pause'),
  which: fc.nat(20),
});
type Happening = typeof happening extends fc.Arbitrary<infer T> ? T : never;

function changed(
  workload: Workload,
  stand: Standing,
  { what, which }: Happening,
  at: string,
): Workload {
  const inHand = workload.tasks.filter(({ state }) => state === 'working').map(({ id }) => id);
  const from = what === 'begin' ? stand.ready : inHand;
  if (from.length === 0) return workload;
  const chosen = from[which % from.length];
  const change = (task: Task): Task => {
    if (what === 'begin')
      return { ...task, state: 'working', startedAt: task.startedAt ?? at, crew: ['ada'] };
    if (what === 'end') return { ...task, state: 'done', finishedAt: at };
    return task.splittable ? { ...task, state: 'paused', leftMinutes: 10 } : task;
  };
  return {
    ...workload,
    tasks: workload.tasks.map((task) => (task.id === chosen ? change(task) : task)),
  };
}

/** Of objects that nobody has asked about before. */
const anew = (own: Yard, workload: Workload, now: string): Standing =>
  standing({ yard: structuredClone(own), workload: structuredClone(workload), sheet: null, now });

const history = fc.array(happening, { minLength: 5, maxLength: 25 });

describe('standing', () => {
  it('says after any history what it says of the same yard seen for the first time', () => {
    fc.assert(
      fc.property(history, (happenings) => {
        let workload = makeWorkload(yard);
        let minute = 0;
        for (const one of happenings) {
          minute += one.after;
          const now = isoAt(minute);
          const stand = standing({ yard, workload, sheet: null, now });
          const fresh = anew(yard, workload, now);
          expect(stand.all()).toEqual(fresh.all());
          expect(stand.windows()).toEqual(fresh.windows());
          expect(standing({ yard, workload, sheet: null, now })).toBe(stand);
          workload = changed(workload, stand, one, now);
        }
      }),
      { numRuns: 6 },
    );
  });

  it('has each task that is to come on one list, in one order, whatever the pages', () => {
    fc.assert(
      fc.property(history, fc.integer({ min: 1, max: 7 }), (happenings, page) => {
        let workload = makeWorkload(yard);
        let minute = 0;
        for (const one of happenings) {
          minute += one.after;
          const now = isoAt(minute);
          workload = changed(workload, standing({ yard, workload, sheet: null, now }), one, now);
        }
        const stand = standing({ yard, workload, sheet: null, now: isoAt(minute) });
        const { waiting } = stand;
        const listed = workload.tasks.filter(({ id }) => stand.task(id) !== null);
        expect([...stand.ready, ...waiting].sort()).toEqual(listed.map(({ id }) => id).sort());
        for (const id of stand.ready) expect(stand.whyNot(id)).toBeNull();
        for (const id of waiting) expect(stand.whyNot(id)).not.toBeNull();
        const paged: string[] = [];
        for (;;) {
          const last = paged.at(-1);
          const rest = last === undefined ? waiting : stand.waitingAfter(last);
          const next = rest.slice(0, page);
          if (next.length === 0) break;
          paged.push(...next);
        }
        expect(paged).toEqual(waiting);
      }),
      { numRuns: 10 },
    );
  });

  it('puts first what a window presses, then by the plan, and says how long it stays open', () => {
    const made = makeWorkload(yard);
    const laid = { state: 'done', startedAt: isoAt(60), finishedAt: isoAt(120) } as const;
    const sanded = { state: 'done', startedAt: isoAt(0), finishedAt: isoAt(50) } as const;
    const tasks = made.tasks.map((task) => {
      if (task.id === 'lid.sand') return { ...task, ...sanded };
      return task.id === 'lid.one' ? { ...task, ...laid } : task;
    });
    const workload = { ...made, tasks };
    // Bonds from two hours after its end, at 240, until six hours after its start, at 420.
    const at = (minute: number): Standing =>
      standing({ yard, workload, sheet: null, now: isoAt(minute) });
    expect(at(239).whyNot('lid.two')?.why).toMatch(/^Coat one \(Lid\) is not ready to bond yet/);
    const two = at(240).task('lid.two');
    expect(at(240).ready[0]).toBe('lid.two');
    expect(two).toMatchObject({
      isReady: true,
      closes: { at: isoAt(420) },
      openMinutes: 180,
      // Sixty builder-minutes by one.
      startBy: { at: isoAt(360) },
      neededBy: { at: isoAt(360) },
      because: 'the window of Coat one (Lid) shuts',
    });
    expect(at(361).whyNot('lid.two')?.why).toMatch(/^too late: the window of Coat one \(Lid\)/);
    expect(
      at(240)
        .windows()
        .find(({ to }) => to === 'lid.two'),
    ).toMatchObject({
      opensAt: isoAt(240),
      closesAt: isoAt(420),
      startBy: isoAt(360),
      milestones: { opens: 'bond-opens', closes: 'bond-closes' },
    });
  });

  it('knows of a moment that is past what was so then, and nothing of what came after', () => {
    const made = makeWorkload(yard);
    const sanded = (from: number, until: number) =>
      ({ state: 'done', startedAt: isoAt(from), finishedAt: isoAt(until) }) as const;
    const begun = new Map([
      ['lid.sand', sanded(0, 10)],
      ['part-2.sand', sanded(60, 110)],
    ]);
    const tasks = made.tasks.map((task) => ({ ...task, ...begun.get(task.id) }));
    const workload = { ...made, tasks };
    const why = (taskId: string, minute: number): string | undefined =>
      standing({ yard, workload, sheet: null, now: isoAt(minute) }).whyNot(taskId)?.why;
    expect(why('lid.one', 5)).toBe('Sand (Lid) is still being done');
    // Its own dust settles half an hour after its end, the other's is not made yet.
    expect(why('lid.one', 40)).toBeUndefined();
    for (const minute of [60, 109, 139])
      expect(why('lid.one', minute)).toBe('the dust of Sand (part-2) has not settled');
    expect(why('lid.one', 140)).toBeUndefined();
    expect(why('part-2.sand', 59)).toBeUndefined();
    expect(why('part-2.sand', 109)).toBe('it is being done');
  });

  it('counts a window that was given up as open until it shuts, and says what that spares', () => {
    const made = makeWorkload(yard);
    const laid = { state: 'done', startedAt: isoAt(60), finishedAt: isoAt(120) } as const;
    const sanded = { state: 'done', startedAt: isoAt(0), finishedAt: isoAt(50) } as const;
    const key = {
      id: 'lid.again',
      name: 'Abrade again',
      rework: 'given-up',
      air: 'clean',
    } as const;
    const tasks = made.tasks.flatMap((task) => {
      if (task.id === 'lid.sand')
        return [
          { ...task, ...sanded },
          { ...task, ...key },
        ];
      if (task.id === 'lid.key') return [];
      return task.id === 'lid.one' ? [{ ...task, ...laid }] : [task];
    });
    // The bond window, from 240 to 420, gave way to the abrading.
    const links = made.links.filter(({ from, to }) => from === 'lid.one' && to === 'lid.two');
    expect(links).toHaveLength(1);
    const after = { ...links[0], id: 'again', from: key.id, opens: null, closes: null };
    const opens = { kind: 'after', minutes: 0 } as const;
    const others = made.links.filter(
      (link) => link !== links[0] && link.from !== 'lid.key' && link.to !== 'lid.key',
    );
    const workload = {
      tasks,
      links: [...others, { ...after, opens }],
      choices: [],
    };
    const stillOpen = [{ taskId: 'lid.two', until: isoAt(360), links, spares: [key.id] }];
    const at = (minute: number, open = stillOpen): Standing =>
      standing({ yard, workload, sheet: null, stillOpen: open, now: isoAt(minute) });
    expect(at(300, []).whyNot('lid.two')?.why).toBe('Abrade again (Lid) is not done');
    expect(at(300, []).task(key.id)).toMatchObject({ isReady: true, notes: [] });
    expect(at(239).whyNot('lid.two')?.why).toMatch(/^Coat one \(Lid\) is not ready to bond yet/);
    expect(at(300).ready[0]).toBe('lid.two');
    expect(at(300).task('lid.two')).toMatchObject({
      isReady: true,
      closes: { at: isoAt(420) },
      startBy: { at: isoAt(360) },
      notes: ['Still open: begun by Mon 2 Nov 14:00, it does not need “Abrade again”.'],
    });
    expect(at(300).task(key.id)).toMatchObject({
      isReady: true,
      notes: [
        'Needed only if “Coat two” is not begun by Mon 2 Nov 14:00: its window is still open.',
      ],
    });
    expect(at(359).whyNot('lid.two')).toBeNull();
    expect(at(360).whyNot('lid.two')?.why).toBe('Abrade again (Lid) is not done');
    expect(at(360).task(key.id)).toMatchObject({ isReady: true, notes: [] });
    // What is asked without it is not answered with it.
    expect(standing({ yard, workload, sheet: null, now: isoAt(300) }).whyNot('lid.two')).not.toBe(
      null,
    );
    expect(at(300)).toBe(at(300));
  });

  it('says of what has begun, and of what is not there, that it has and that it is not', () => {
    const made = makeWorkload(yard);
    const begun = { state: 'working', startedAt: isoAt(0), crew: ['ada'] } as const;
    const tasks = made.tasks.map((task) => (task.id === 'lid.sand' ? { ...task, ...begun } : task));
    const stand = standing({ yard, workload: { ...made, tasks }, sheet: null, now: isoAt(10) });
    expect(stand.whyNot('lid.sand')?.why).toBe('it is being done');
    expect(stand.whyNot('nothing')?.why).toBe('it is no part of the work');
    expect([stand.task('lid.sand'), stand.task('nothing')]).toEqual([null, null]);
  });
});
