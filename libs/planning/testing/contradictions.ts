import { random, type Random } from '#kernel/random.ts';
import type { ConstraintKind } from '#scheduling/model/constraint.ts';
import { makeWorkload } from '../workload/make.ts';
import type { Task, TaskLink, Workload } from '../workload/workload.ts';
import { partSchema, type Part } from '../yard/boats.ts';
import type { Step } from '../yard/procedures.ts';
import type { Yard } from '../yard/yard.ts';
import { jobOf, smallYard } from './small-yard.ts';

/** A small yard that has a plan but for one row, and that row. */
export interface Contradiction {
  readonly name: string;
  readonly yard: Yard;
  readonly workload: Workload;
  readonly now: string;
  readonly kind: ConstraintKind;
  /** Kind and id of the planted row, as in a constraint's source. */
  readonly source: string;
}

interface Planting {
  readonly change: (yard: Yard, draw: Random) => void;
  readonly kind: ConstraintKind;
  readonly source: string;
  /** What has begun, or is set by the foreman. */
  readonly tasks?: Readonly<Record<string, Partial<Task>>>;
  readonly links?: readonly TaskLink[];
  readonly now?: string;
}

const begins = '2026-11-02T08:00:00Z';

/** Keeps some steps of the procedure and the links between them. */
function only(yard: Yard, ...steps: string[]): Step[] {
  const [procedure] = yard.procedures;
  procedure.steps = procedure.steps.filter(({ id }) => steps.includes(id));
  procedure.links = procedure.links.filter(
    ({ from, to }) => steps.includes(from) && steps.includes(to),
  );
  procedure.choices = [];
  return procedure.steps;
}

const follow = (yard: Yard, from: string, to: string): void => {
  const [procedure] = yard.procedures;
  procedure.links.push({
    id: `${from}-${to}`,
    from,
    to,
    opens: { kind: 'after', minutes: 0 },
    closes: null,
    sweep: 'unknown',
  });
};

const partsOf = (yard: Yard): Part[] => yard.boats[0].refits[0].parts;

/** A second part with the same procedure. */
const twoParts = (yard: Yard): void => {
  partsOf(yard).push({ ...partsOf(yard)[0], id: 'hatch', name: 'Hatch', jobs: [jobOf('hatch')] });
};

const someSize = (yard: Yard, draw: Random): void => {
  partsOf(yard)[0].areaM2 = 1 + 0.1 * draw.below(20);
};

const onDays = (yard: Yard, person: number, weekdays: readonly number[]): void => {
  const { shifts } = yard.people[person];
  yard.people[person].shifts = shifts.filter(({ weekday }) => weekdays.includes(weekday));
};

const addBo = (yard: Yard, level: number): void => {
  const [ada] = yard.people;
  const abilities = ada.abilities.map((ability) => ({ ...ability, level }));
  yard.people.push({ ...structuredClone(ada), id: 'bo', name: 'Bo', abilities });
};

const days = (yard: Yard, count: number): void => {
  yard.horizonDays = count;
};

const done = (from: string, to: string): Partial<Task> => ({
  state: 'done',
  startedAt: from,
  finishedAt: to,
  crew: ['ada'],
});

/** Sanded on Sunday, coat one laid on Monday 06:00 to 07:00: bonds from 09:00 to 12:00. */
const laid = (job: string): Record<string, Partial<Task>> => ({
  [`${job}.sand`]: done('2026-11-01T10:00:00Z', '2026-11-01T11:00:00Z'),
  [`${job}.one`]: done('2026-11-02T06:00:00Z', '2026-11-02T07:00:00Z'),
});

/** An hour of Monday from noon on. */
const late = (draw: Random): string => `2026-11-02T${String(12 + draw.below(4))}:30:00Z`;

const plantings: Readonly<Record<string, Planting>> = {
  'a word expected after the window has shut': {
    change: (yard, draw) => {
      const [, one] = only(yard, 'sand', 'one', 'two');
      yard.procedures[0].steps.push({
        ...one,
        id: 'look',
        name: 'Owner looks at it',
        skill: null,
        crewMin: 0,
        crewMax: 0,
        effort: { ...one.effort, fixed: 0, perM2: 0 },
        air: 'clean',
        material: null,
      });
      follow(yard, 'one', 'look');
      follow(yard, 'look', 'two');
      partsOf(yard)[0].jobs[0].words = [{ step: 'look', expected: late(draw) }];
    },
    tasks: laid('lid'),
    kind: 'release',
    source: 'word:lid.look',
  },
  'a delivery expected after the window has shut': {
    change: (yard, draw) => {
      only(yard, 'sand', 'one', 'two');
      yard.deliveries = [{ id: 'paint', name: 'Paint', expected: late(draw) }];
      partsOf(yard)[0].jobs[0].waitsFor = [{ delivery: 'paint', step: 'two' }];
    },
    tasks: laid('lid'),
    kind: 'release',
    source: 'delivery:paint',
  },
  'a joined part in another space': {
    change: (yard, draw) => {
      someSize(yard, draw);
      const steps = only(yard, 'sand', 'one', 'two');
      steps[2].joins = true;
      yard.spaces.push({ ...yard.spaces[0], id: 'loft', name: 'Loft', dustReaches: [] });
      partsOf(yard).push(
        partSchema.parse({ id: 'frame', name: 'Frame', space: 'loft', areaM2: 1 }),
      );
      partsOf(yard)[0].jobs[0].joins = ['frame'];
    },
    kind: 'part',
    source: 'part:frame',
  },
  'the only sander away': {
    change: (yard, draw) => {
      const [sand] = only(yard, 'sand');
      sand.tools = [{ tool: 'sander', count: 1 }];
      days(yard, 3);
      const from = `2026-11-02T08:${String(10 + draw.below(30))}:00Z`;
      yard.tools[0].away = [{ from, to: '2026-11-05T08:00:00Z', count: 1 }];
    },
    kind: 'resource',
    source: 'tool:sander',
  },
  'hours too few for the work': {
    change: (yard, draw) => {
      const [sand] = only(yard, 'sand');
      sand.effort.fixed = 1000 + 10 * draw.below(50);
      onDays(yard, 0, [1, 2]);
      days(yard, 5);
    },
    kind: 'calendar',
    source: 'calendar:ada',
  },
  'a crane that leaves too early': {
    change: (yard, draw) => {
      const [sand] = only(yard, 'sand');
      sand.effort.fixed = 300 + draw.below(60);
      yard.slotLists = [
        {
          id: 'crane',
          name: 'Crane',
          kind: 'crane',
          slots: [
            {
              from: '2026-11-02T09:00:00Z',
              to: '2026-11-02T12:00:00Z',
              price: 100,
              noticeHours: 0,
              booked: true,
            },
          ],
        },
      ];
      yard.procedures[0].steps.push({
        ...sand,
        id: 'lift',
        name: 'Lift',
        air: 'clean',
        effort: { ...sand.effort, fixed: 60, perM2: 0 },
        slots: 'crane',
        splittable: false,
      });
      follow(yard, 'sand', 'lift');
    },
    kind: 'slots',
    source: 'slot-list:crane',
  },
  'a start set before the film is ready': {
    change: (yard, draw) => {
      someSize(yard, draw);
      only(yard, 'sand', 'one', 'two');
    },
    tasks: { 'lid.two': { fixedStart: '2026-11-02T11:00:00Z' } },
    kind: 'fixed',
    source: 'task:lid.two',
  },
  'an order of the foreman against the procedure': {
    change: (yard, draw) => {
      someSize(yard, draw);
      only(yard, 'sand', 'one', 'two');
    },
    links: [
      {
        id: 'foreman.two-sand',
        from: 'lid.two',
        to: 'lid.sand',
        opens: { kind: 'after', minutes: 0 },
        closes: null,
        sweep: 'unknown',
        setBy: 'foreman',
      },
    ],
    kind: 'lag',
    source: 'link:foreman.two-sand',
  },
  'two parts in one mould for longer than the plan': {
    change: (yard, draw) => {
      const [sand] = only(yard, 'sand');
      yard.tools.push({ ...yard.tools[0], id: 'mould', name: 'Mould' });
      const minutes = (20 + draw.below(10)) * 1440;
      sand.holds = [{ id: 'mould', tool: 'mould', count: 1, until: [{ kind: 'after', minutes }] }];
      twoParts(yard);
    },
    kind: 'hold',
    source: 'hold:lid.sand/mould',
  },
  'more used than there is': {
    change: (yard, draw) => {
      const [sand] = only(yard, 'sand');
      const total = 1 + draw.below(5);
      yard.stocks = [{ id: 'discs', name: 'Sanding discs', unit: 'box', total }];
      const fixed = total * 0.6;
      sand.consumes = [{ stock: 'discs', fixed, perM2: 0, perEdgeM: 0, perJointM: 0 }];
      twoParts(yard);
    },
    kind: 'stock',
    source: 'stock:discs',
  },
  'dusty work on a surface that has to be covered first': {
    change: (yard, draw) => {
      days(yard, 1);
      // A day that the two fill but for some minutes, so that a search is soon through all starts.
      yard.people[0].shifts = [{ weekday: 1, from: '08:00', to: '08:00', breaks: [] }];
      const steps = only(yard, 'sand', 'one', 'two');
      const [sand, one, two] = steps;
      Object.assign(two.effort, { fixed: 700, perM2: 0 });
      one.coveredBy = ['two'];
      yard.procedures[0].links = [];
      const effort = { ...sand.effort, fixed: 690 + draw.below(15), perM2: 0 };
      steps.push({ ...sand, id: 'dress', name: 'Dress the edge', tools: [], effort });
      follow(yard, 'sand', 'one');
      follow(yard, 'one', 'dress');
      follow(yard, 'dress', 'two');
    },
    tasks: laid('lid'),
    kind: 'surface',
    source: 'surface:lid.one',
  },
  'two who are never there together': {
    change: (yard, draw) => {
      const [sand] = only(yard, 'sand');
      addBo(yard, 2);
      Object.assign(sand, { crewMin: 2, crewMax: 2 });
      onDays(yard, 0, [1, 3, 5]);
      onDays(yard, 1, draw.below(2) === 0 ? [2, 4] : [2]);
    },
    kind: 'calendar',
    source: 'calendar:bo',
  },
  'a space open for too little time': {
    change: (yard, draw) => {
      only(yard, 'sand');
      const to = `08:${String(20 + draw.below(25))}`;
      yard.spaces[0].hours = [{ weekday: 1, from: '08:00', to }];
      days(yard, 5);
    },
    kind: 'hours',
    source: 'space-hours:shop',
  },
  'a space that is warm at the weekend only': {
    change: (yard, draw) => {
      only(yard, 'one');
      Object.assign(yard.materials[0], { belowMinimum: 'spoils', minimumC: 15 });
      const setPoints = [
        { weekdays: [6], from: '00:00', celsius: 20 },
        { weekdays: [1], from: '00:00', celsius: 8 + draw.below(5) },
      ];
      yard.spaces[0].climate = { kind: 'heated', setPoints, lagHours: 0 };
      days(yard, 6);
    },
    kind: 'forbidden',
    source: 'material:resin',
  },
  'a boat that comes when the day is over': {
    change: (yard, draw) => {
      only(yard, 'sand');
      days(yard, 2);
      yard.boats[0].refits[0].release = `2026-11-03T15:${String(20 + draw.below(30))}:00Z`;
    },
    kind: 'release',
    source: 'refit:gull-refit',
  },
  'a learner without the senior': {
    change: (yard, draw) => {
      someSize(yard, draw);
      only(yard, 'sand');
      addBo(yard, 1);
      onDays(yard, 0, [1]);
      days(yard, 5);
      yard.boats[0].refits[0].release = '2026-11-03T08:00:00Z';
    },
    kind: 'crew',
    source: 'task:lid.sand',
  },
  'two windows at one time for one builder': {
    change: (yard, draw) => {
      only(yard, 'sand', 'one', 'two');
      partsOf(yard)[0].areaM2 = 4.6 + 0.2 * draw.below(5);
      twoParts(yard);
    },
    tasks: { ...laid('lid'), ...laid('hatch') },
    kind: 'builder',
    source: 'person:ada',
  },
};

export const contradictionNames: readonly string[] = Object.keys(plantings);

/** The small yard with one contradiction planted; its amounts are drawn from the seed. */
export function contradiction(name: string, seed: number): Contradiction {
  const { change, tasks = {}, links = [], kind, source, now = begins } = plantings[name];
  const yard = smallYard((draft) => {
    change(draft, random(seed));
  });
  const made = makeWorkload(yard);
  const workload: Workload = {
    ...made,
    tasks: made.tasks.map((task) => ({ ...task, ...tasks[task.id] })),
    links: [...made.links, ...links],
  };
  return { name, yard, workload, now, kind, source };
}
