/**
 * What the first week's engine stored beside a plan, version 1 of everything: two tasks of Ann,
 * the second no earlier than an hour after the first.
 */
const mode = {
  duration: 0,
  work: 6000,
  floor: 0,
  crew: [{ skill: 0, minLevel: 1, count: 1 }],
  demands: [],
  splittable: false,
  breaks: 'observed',
  forbiddenStarts: [],
  space: null,
  air: 'clean',
};

const activity = (id: string) => ({
  id,
  refit: 0,
  modes: [mode],
  release: 0,
  fixed: null,
  source: `task:${id}`,
});

export const problem = {
  version: 1,
  origin: '2027-01-04T08:00:00Z',
  horizon: 1000,
  skills: ['laminate'],
  calendars: [{ id: 'c', shifts: [{ start: 0, end: 480 }], breaks: [] }],
  builders: [
    {
      id: 'ann',
      calendar: 0,
      abilities: [{ skill: 0, level: 3, speed: 100 }],
      source: 'person:ann',
    },
  ],
  resources: [],
  spaces: [],
  activities: [activity('first'), activity('second')],
  tables: [],
  lags: [
    {
      id: 'l',
      from: 0,
      fromAnchor: 'finish',
      to: 1,
      toAnchor: 'start',
      bound: 'open',
      fn: { kind: 'constant', minutes: 60 },
      kind: 'wait',
      source: 'link:l',
    },
  ],
  choices: [],
  surfaces: [],
  refits: [{ id: 'r', release: 0, due: null, weight: 1, source: 'refit:heron-27' }],
  tolerances: [0, 240],
};

export const map = {
  version: 1,
  yardId: 'y',
  timeZone: 'Europe/London',
  origin: problem.origin,
  horizon: 1000,
  tasks: ['first', 'second'],
  people: ['ann'],
  spaces: [],
  refits: ['heron-27'],
  skills: ['laminate'],
  resources: [],
  lags: ['l'],
  choices: [],
  decided: [],
  dropped: [],
};

const when = { at: '2027-01-04T08:00:00Z', local: '2027-01-04T08:00' };
const rank = { value: 180, bound: 180, gapMinutes: 0, gap: 0, proof: 'critical-path' };

export const sheet = {
  version: 1,
  yardId: 'y',
  yard: 'Yard',
  timeZone: 'Europe/London',
  origin: when,
  horizon: when,
  status: 'optimal',
  tasks: [],
  choices: [],
  boats: [],
  lateness: { ...rank, value: 0, bound: 0 },
  finishes: rank,
  caution: 'Test the film first.',
};
