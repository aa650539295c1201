import type { Calendar, HoldEnd, Mode } from '../../model/problem.ts';
import { between, chance, pick, range, sample } from '../draw.ts';
import { amendModes, lagFunctions, type Draft } from './draft.ts';

/** Long hours with a pause at noon. */
function hours(draft: Draft): Calendar {
  const { day, days, problem } = draft;
  const shifts = range(days)
    .map((d) => ({ start: d * day + 1, end: Math.min(problem.horizon, (d + 1) * day - 2) }))
    .filter(({ start, end }) => end - start > 1);
  const breaks = shifts.map(({ start }) => {
    const noon = start + Math.floor(day / 2);
    return { start: noon, end: noon + 1 };
  });
  return {
    id: 'tool-hours',
    shifts,
    breaks: breaks.filter(({ end }, k) => end < shifts[k].end),
    overtime: [],
    source: 'tool-hours',
  };
}

const isWork = (mode: Mode): boolean => mode.crew.length > 0 || mode.duration > 0;

/** A tool of which there is too little for all at once. */
function tool(draft: Draft): void {
  const { rng, problem } = draft;
  const most = between(rng, 1, 3);
  const stepped = draft.wants('capacity-steps');
  const cut = between(rng, 1, problem.horizon - 1);
  const steps = [{ from: 0, capacity: most }];
  if (stepped) steps.push({ from: cut, capacity: most - 1 });
  if (stepped) steps.push({ from: cut + between(rng, 2, 8), capacity: most });
  const timed = draft.wants('resource-hours');
  if (timed) problem.calendars.push(hours(draft));
  problem.resources.push({
    id: 'tool',
    steps,
    calendar: timed ? problem.calendars.length - 1 : null,
    source: 'shelf',
  });
  problem.activities.forEach((_, a) => {
    amendModes(draft, a, (mode) =>
      isWork(mode) && chance(rng, 0.4)
        ? {
            ...mode,
            demands: [
              {
                resource: 0,
                amount: between(rng, 1, most),
                keptWhilePaused:
                  mode.splittable && draft.wants('kept-while-paused') && chance(rng, 0.7),
              },
            ],
          }
        : mode,
    );
  });
}

/** Stands that work keeps after it is done. */
function stands(draft: Draft): void {
  const { rng, problem } = draft;
  const capacity = between(rng, 1, 2);
  const resource = problem.resources.length;
  problem.resources.push({
    id: 'stand',
    steps: [{ from: 0, capacity }],
    calendar: null,
    source: 'stands',
  });
  for (const a of sample(rng, range(problem.activities.length), between(rng, 1, 2))) {
    const ends: HoldEnd[] = [];
    if (draft.wants('hold-by-lag'))
      ends.push({ kind: 'lag', fns: lagFunctions(draft, a, between(rng, 1, 6)) });
    const others = range(problem.activities.length).filter((other) => other !== a);
    if (draft.wants('hold-by-activity'))
      ends.push({
        kind: 'activity',
        activity: pick(rng, others),
        anchor: pick(rng, ['start', 'finish']),
      });
    problem.holds.push({
      id: `hold-${problem.holds.length}`,
      activity: a,
      resource,
      amount: between(rng, 1, capacity),
      ends,
      source: `stand-of-${a}`,
    });
  }
  problem.activities.forEach((_, a) => {
    amendModes(draft, a, (mode) =>
      isWork(mode) && chance(rng, 0.15)
        ? { ...mode, demands: [...mode.demands, { resource, amount: 1, keptWhilePaused: false }] }
        : mode,
    );
  });
}

/** Material of which there may be too little for every way of doing everything. */
function stock(draft: Draft): void {
  const { rng, problem } = draft;
  problem.activities.forEach((_, a) => {
    amendModes(draft, a, (mode) =>
      chance(rng, 0.6) ? { ...mode, consumes: [{ stock: 0, amount: between(rng, 1, 3) }] } : mode,
    );
  });
  const amounts = problem.activities.map(({ modes }) =>
    modes.map(({ consumes }) => consumes.at(0)?.amount ?? 0),
  );
  const least = amounts.reduce((sum, own) => sum + Math.min(...own), 0);
  const most = Math.max(...amounts.flat());
  const total = Math.max(most, least + between(rng, -1, 3));
  problem.stocks.push({ id: 'resin', total, source: 'drum' });
}

export function supply(draft: Draft): void {
  const tools = ['capacity-steps', 'resource-hours', 'kept-while-paused'] as const;
  if (tools.some((feature) => draft.wants(feature)) || chance(draft.rng, 0.3)) tool(draft);
  if (draft.wants('hold-by-lag') || draft.wants('hold-by-activity')) stands(draft);
  if (draft.wants('stock')) stock(draft);
}
