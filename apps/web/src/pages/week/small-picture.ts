import { type Model, modelOf, type Picture, type PictureTask } from './model.ts';

/** A moment of the first day (`08:30`), or of a later one (`1 08:30`), in UTC. */
export const moment = (when: string): string => {
  const [clock, day = '0'] = when.split(' ').reverse();
  return `2026-11-${String(30 + Number(day)).padStart(2, '0')}T${clock}:00Z`.replace(
    '2026-11-31',
    '2026-12-01',
  );
};

type Given = Partial<PictureTask> & { readonly id: string; readonly at: [string, string][] };

/** A task with what tests of the picture do not look at left plain; `at` are its segments. */
export function task({ at, ...given }: Given): PictureTask {
  const segments = at.map(([from, until]) => ({ from: moment(from), until: moment(until) }));
  return {
    name: given.id,
    refitId: 'petrel-refit',
    partId: 'hatch',
    part: 'Hatch',
    spaceId: 'bay',
    air: 'clean',
    skill: 'laminating',
    material: null,
    start: segments[0].from,
    finish: segments[segments.length - 1].until,
    segments,
    crew: ['bram'],
    cleanedDown: null,
    floatMinutes: 0,
    film: [],
    filmUntil: null,
    windows: [],
    warnings: [],
    fixedStart: null,
    crewIsSet: false,
    now: { state: 'waiting', crew: [], startedAt: null, finishedAt: null },
    ...given,
  };
}

/** Two days of a yard with two builders, two spaces and a boat; for tests. */
export function small(tasks: readonly PictureTask[], given: Partial<Picture> = {}): Model {
  const shifts = (...days: string[]) =>
    days.map((day) => ({ from: moment(`${day} 07:00`), until: moment(`${day} 16:00`) }));
  return modelOf({
    planId: 'plan',
    isPublished: true,
    at: moment('06:00'),
    from: '2026-11-30',
    days: 2,
    begins: moment('00:00'),
    ends: '2026-12-02T00:00:00Z',
    planFrom: moment('00:00'),
    planUntil: '2026-12-31T00:00:00Z',
    tasks: [...tasks],
    people: [
      { id: 'bram', name: 'Bram', hours: shifts('0', '1') },
      { id: 'anke', name: 'Anke', hours: shifts('0') },
    ],
    spaces: [
      { id: 'bay', name: 'Bench bay', room: 2, dustReaches: ['hull'] },
      { id: 'hull', name: 'Hull', room: 1, dustReaches: [] },
    ],
    boats: [
      {
        boatId: 'petrel',
        boat: 'Petrel',
        refitId: 'petrel-refit',
        refit: 'Hatch',
        promised: null,
        finish: moment('1 16:00'),
        lateMinutes: 0,
        chain: [],
      },
    ],
    ...given,
  });
}
