import { describe, expect, it } from 'vitest';
import { check } from '#scheduling/checker/check.ts';
import { solve } from '#scheduling/solve.ts';
import { compiled } from '../../testing/compiled.ts';
import { jobOf } from '../../testing/small-yard.ts';
import type { Yard } from '../../yard/yard.ts';
import { tryPlacement, type PlacementInput, type TriedPlacement } from './try-placement.ts';

/*
 * By hand, as in decode.test.ts: sand Monday 08:00 to 08:50, coat one 09:20 to 10:20, bonds from 12:20
 * until 15:20, coat two 12:20 to 13:20. Ada works Mondays to Fridays 08:00 to 16:00.
 */
type Asked = Partial<Omit<PlacementInput, 'problem' | 'plan' | 'map'>> & { readonly task: string };

function trying(
  change: (draft: Yard) => void = () => undefined,
  circumstances: Parameters<typeof compiled>[1] = {},
): (asked: Asked) => TriedPlacement {
  const { problem, map } = compiled(change, circumstances);
  const { plan } = solve(problem, { seed: 1, iterations: 200 });
  if (plan === null) throw new Error('no plan was found');
  expect(check(problem, plan)).toEqual([]);
  return (asked) => {
    const tried = tryPlacement({ problem, plan, map, now: null, hasBegun: false, ...asked });
    if (tried === null) throw new Error(`the plan lacks ${asked.task}`);
    return tried;
  };
}

const wordsOf = ({ against }: TriedPlacement): string[] => against.map(({ words }) => words);
const monday = (time: string): string => `2026-11-02T${time}:00Z`;

/** Bo coats and sands as Ada does; Cy is learning both. */
const withMore = (draft: Yard): void => {
  const [ada] = draft.people;
  const learning = ada.abilities.map((ability) => ({ ...ability, level: 1 }));
  draft.people.push(
    { ...ada, id: 'bo', name: 'Bo', roles: ['builder'] },
    { ...ada, id: 'cy', name: 'Cy', roles: ['builder'], abilities: learning },
    { ...ada, id: 'di', name: 'Di', roles: ['builder'], abilities: [] },
  );
};

describe('a task put elsewhere by hand', () => {
  const place = trying();

  it('fits where it is, and wherever nothing is against it', () => {
    for (const task of ['lid.sand', 'lid.one', 'lid.two']) {
      const tried = place({ task });
      expect([task, tried.isPossible, tried.against, tried.effects, tried.next]).toEqual([
        task,
        true,
        [],
        [],
        null,
      ]);
    }
    const later = place({ task: 'lid.two', start: monday('14:00') });
    expect(later).toMatchObject({
      isPossible: true,
      start: { local: '2026-11-02T14:00' },
      finish: { local: '2026-11-02T15:00' },
      crew: [{ personId: 'ada', name: 'Ada' }],
    });
    expect(later.effects).toEqual([
      'Gull refit would be finished Mon 2 Nov 15:00, not Mon 2 Nov 13:20',
    ]);
  });

  it('waits for the film, and says from when on it would fit', () => {
    const tried = place({ task: 'lid.two', start: monday('11:00') });
    expect(wordsOf(tried)).toEqual([
      'Coat two (Lid) waits for Coat one (Lid) to be ready to bond (Mon 2 Nov 12:20)',
    ]);
    expect(tried.against[0]).toMatchObject({
      reason: 'lag:bond',
      row: { kind: 'link' },
      tasks: ['lid.one'],
    });
    expect(tried.next?.local).toBe('2026-11-02T12:20');
  });

  it('misses the window, and no later start is offered', () => {
    const tried = place({ task: 'lid.two', start: '2026-11-03T09:00:00Z' });
    expect(wordsOf(tried)).toEqual([
      'Coat two (Lid) has to be over by Mon 2 Nov 15:20, inside the bond window, after Coat one (Lid)',
    ]);
    expect(tried.next).toBeNull();
  });

  it('would leave what follows it behind, with where that is planned', () => {
    const tried = place({ task: 'lid.one', start: monday('11:00') });
    expect(wordsOf(tried)).toEqual([
      'Coat two (Lid) waits for Coat one (Lid) to be ready to bond (Mon 2 Nov 14:00), and is planned for Mon 2 Nov 12:20',
    ]);
  });

  it('would make dust on what is wet, and be two at once on one part', () => {
    const dusty = wordsOf(place({ task: 'lid.sand', start: monday('09:30') }));
    expect(dusty.join('\n')).toContain('makes dust');
    expect(dusty.join('\n')).toContain('Ada, who is on Coat one (Lid)');
  });

  it('begins when its people are at work', () => {
    const saturday = place({ task: 'lid.two', start: '2026-11-07T10:00:00Z' });
    expect(saturday.start.local).toBe('2026-11-09T08:00');
    // An hour in one piece does not begin at half past three.
    expect(place({ task: 'lid.two', start: monday('15:30') }).start.local).toBe('2026-11-03T08:00');
  });

  it('does not begin before now, nor go on beyond the plan', () => {
    const late = place({ task: 'lid.two', start: monday('12:20'), now: monday('12:30') });
    expect(late.isPossible).toBe(false);
    expect(wordsOf(late)).toEqual([
      'Coat two (Lid) cannot begin before Mon 2 Nov 12:30, which is now',
    ]);
    expect(late.next?.local).toBe('2026-11-02T12:30');
    const beyond = wordsOf(place({ task: 'lid.two', start: '2026-12-24T09:00:00Z' }));
    expect(beyond.join('\n')).toContain('where the plan ends');
    // Work that pauses has no stretches there at all.
    const pausing = place({ task: 'lid.sand', start: '2026-12-24T09:00:00Z' });
    expect(wordsOf(pausing).join('\n')).toContain('where the plan ends');
  });

  it('stays where it is once it has begun', () => {
    const tried = place({ task: 'lid.sand', start: monday('10:00'), hasBegun: true });
    expect(tried).toMatchObject({ isPossible: false, start: { local: '2026-11-02T08:00' } });
    expect(wordsOf(tried)).toEqual(['Sand (Lid) has begun, and stays where it is']);
  });

  it('is none where the plan has no such task', () => {
    const { problem, map } = compiled();
    const { plan } = solve(problem, { seed: 1, iterations: 8 });
    if (plan === null) throw new Error('no plan was found');
    expect(
      tryPlacement({ problem, plan, map, task: 'lid.key', now: null, hasBegun: false }),
    ).toBeNull();
  });
});

describe('another crew', () => {
  const place = trying(withMore);

  it('is tried at the planned time', () => {
    const tried = place({ task: 'lid.two', crew: ['bo'] });
    expect(tried).toMatchObject({ isPossible: true, crew: [{ personId: 'bo', name: 'Bo' }] });
  });

  it('may not be able, or be learning alone', () => {
    expect(wordsOf(place({ task: 'lid.two', crew: ['di'] }))).toEqual([
      'Di has not the skill, or not the level of it, that Coat two (Lid) asks for',
    ]);
    expect(wordsOf(place({ task: 'lid.two', crew: ['cy'] }))).toEqual([
      'Cy still learns what Coat two (Lid) asks for, and somebody above that has to be on it too',
    ]);
  });

  it('may be too many', () => {
    expect(wordsOf(place({ task: 'lid.two', crew: ['bo', 'ada'] }))).toEqual([
      'Coat two (Lid) was planned to be done by 1, not by 2',
    ]);
  });

  it('may be elsewhere then', () => {
    const busy = trying((draft) => {
      withMore(draft);
      const [part] = draft.boats[0].refits[0].parts;
      draft.boats[0].refits[0].parts.push({
        ...part,
        id: 'hatch',
        name: 'Hatch',
        jobs: [jobOf('hatch')],
      });
      draft.spaces[0].room = 4;
    });
    const whose = busy({ task: 'hatch.one' }).crew[0].personId;
    const same = busy({ task: 'lid.one' });
    const at = busy({ task: 'hatch.one' }).start.at;
    const tried = busy({ task: 'lid.one', crew: [whose], start: at });
    expect(same.crew[0].personId === whose || !tried.isPossible).toBe(true);
    expect(wordsOf(tried).join('\n')).toMatch(/who is on Coat one \(Hatch/);
  });
});

describe('what the foreman had set of it', () => {
  it('does not hold it: that is what is being changed', () => {
    const place = trying(() => undefined, {
      tasks: { 'lid.two': { fixedStart: monday('13:00'), crew: ['ada'] } },
    });
    expect(place({ task: 'lid.two' }).start.local).toBe('2026-11-02T13:00');
    expect(place({ task: 'lid.two', start: monday('14:00') }).isPossible).toBe(true);
  });
});

describe('a space that is too cold', () => {
  it('is said to be, with the moment from which it is not', () => {
    const place = trying((draft) => {
      draft.spaces[0].climate = {
        kind: 'heated',
        setPoints: [
          { weekdays: [1], from: '00:00', celsius: 2 },
          { weekdays: [1], from: '11:00', celsius: 20 },
        ],
        lagHours: 0,
      };
      draft.materials[0].belowMinimum = 'spoils';
    });
    const tried = place({ task: 'lid.one', start: monday('09:30') });
    expect(wordsOf(tried)[0]).toMatch(
      /^Coat one \(Lid\) waits until Resin may be laid in Shop \(Mon 2 Nov 1\d:\d\d\): before that it would be too cold/,
    );
    expect(tried.next).not.toBeNull();
  });
});
