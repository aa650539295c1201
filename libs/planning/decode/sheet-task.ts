import { lagAt } from '#scheduling/model/lag.ts';
import type { Placement } from '#scheduling/model/plan.ts';
import type { Lag } from '#scheduling/model/problem.ts';
import { inCents } from '../compile/frame/money.ts';
import { isToPlan } from '../workload/standing.ts';
import type { Task } from '../workload/workload.ts';
import { briefingOf } from './briefing/briefing.ts';
import { filmOf } from './reading/film.ts';
import type { HazardSite } from './briefing/hazards.ts';
import { overtimeOf } from './money.ts';
import { spanOf, type Reading } from './reading/reading.ts';
import type { SheetSlot, SheetTask, SheetWindow, When } from './sheet.ts';

function limit(reading: Reading, lags: readonly Lag[], from: Placement): When | null {
  if (lags.length === 0) return null;
  const { problem, at } = reading;
  const minutes = lags.map((lag) => lagAt(problem, lag, from.mode, from[lag.fromAnchor]));
  const tightest = lags[0].bound === 'open' ? Math.max(...minutes) : Math.min(...minutes);
  return tightest > problem.horizon ? null : at.when(tightest);
}

/** The windows that a placed task gives to what follows it. */
function windowsOf(reading: Reading, activity: number, from: Placement): SheetWindow[] {
  const { problem, placed, holds, rows } = reading;
  const byLink = new Map<string, Lag[]>();
  problem.lags.forEach((lag, k) => {
    if (lag.from !== activity || !holds[k] || placed[lag.to] === undefined) return;
    byLink.set(lag.source, [...(byLink.get(lag.source) ?? []), lag]);
  });
  return [...byLink].map(([source, lags]) => {
    const to = problem.activities[lags[0].to].id;
    return {
      // Of a batch, which is no link: its task.
      linkId: source.slice(source.indexOf(':') + 1),
      toTask: to,
      toName: rows.tasks.get(to)?.name ?? to,
      kind: (lags.find((lag) => lag.bound === 'close') ?? lags[0]).kind,
      opens: limit(
        reading,
        lags.filter((lag) => lag.bound === 'open' && lag.toAnchor === 'start'),
        from,
      ),
      closes: limit(
        reading,
        lags.filter((lag) => lag.bound === 'close' && lag.toAnchor === 'finish'),
        from,
      ),
    };
  });
}

/** Until when the weather matters to a task: until the last of what waits for its film may begin. */
function waitedFor(reading: Reading, activity: number, finish: number): number {
  const { problem, placed, holds } = reading;
  return problem.lags.reduce((latest, lag, k) => {
    const to = placed[lag.to];
    if (lag.from !== activity || !holds[k] || to === undefined) return latest;
    return Math.max(latest, to.start);
  }, finish);
}

/** A placed task in the yard's words. */
export function sheetTask(
  reading: Reading,
  site: HazardSite,
  task: Task,
  activity: number,
  placement: Placement,
  float: number | null,
): SheetTask {
  const { rows, map, at, problem } = reading;
  const home = rows.parts.get(task.partId);
  const { start, finish } = spanOf(reading, task, placement);
  const crew = isToPlan(task)
    ? placement.crew.map(({ builder }) => map.people[builder])
    : task.crew;
  const { cleanDown } = problem.activities[activity].modes[placement.mode];
  // Of what was put aside the rest; when it was at hand before, the spans of its life say.
  const segments = isToPlan(task) ? placement.segments : [{ start, end: finish }];
  return {
    id: task.id,
    name: task.name,
    refitId: task.refitId,
    boatId: home?.boat.id ?? '',
    boat: home?.boat.name ?? '',
    partId: task.partId,
    part: home?.part.name ?? task.partId,
    jobId: task.jobId,
    stepId: task.stepId,
    spaceId: task.space,
    space: rows.spaceName(task.space),
    air: task.air,
    skill: task.skill,
    material:
      task.material === null ? null : (rows.materials.get(task.material)?.name ?? task.material),
    state: task.state,
    start: at.when(start),
    finish: at.when(finish),
    segments: segments.map((segment) => ({
      start: at.when(segment.start),
      finish: at.when(segment.end),
    })),
    crew: crew.map((personId) => ({ personId, name: rows.personName(personId) })),
    overtimeMinutes: overtimeOf(problem, placement).minutes,
    cleanedDown: cleanDown === 0 ? null : at.when(finish + cleanDown),
    movesTo:
      task.movesTo === null ? null : { spaceId: task.movesTo, space: rows.spaceName(task.movesTo) },
    slot: slotOf(reading, placement),
    floatMinutes: float,
    film: task.material === null ? [] : filmOf(task, task.material, start, finish, reading),
    windows: windowsOf(reading, activity, placement),
    ...briefingOf(task, start, finish, waitedFor(reading, activity, finish), site),
  };
}

/** The slot that a placement uses, as the yard has it. */
function slotOf({ problem, map, rows, at, yard }: Reading, placement: Placement): SheetSlot | null {
  const { slots: list } = problem.activities[placement.activity].modes[placement.mode];
  if (list === null || placement.slot === null) return null;
  const { id, slots } = map.slotLists[list];
  const place = slots[placement.slot];
  const row = yard.slotLists.find((one) => one.id === id)?.slots[place];
  const { start, end, bookBy, cost } = problem.slotLists[list].slots[placement.slot];
  return {
    listId: id,
    list: rows.slotListName(id),
    from: at.when(start),
    until: at.when(end),
    price: inCents(cost),
    bookBy: row?.booked === true ? null : at.when(bookBy),
  };
}
