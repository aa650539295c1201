import { type Interval, intersect, normalise, union } from '#calendar/intervals.ts';
import type { SheetTask } from '#planning/decode/sheet.ts';
import { isOver } from '#planning/workload/standing.ts';
import type { Task } from '#planning/workload/workload.ts';
import { presenceOf } from '../learning/worked.ts';
import type { WantedAlarm } from './facts.ts';
import { dueAt, type SeenWindow, type Site } from './site.ts';
import { byLater, leftOut, waitsForWork } from './window-alarms.ts';

const MINUTE = 60_000;
const DAY = 1440 * MINUTE;
/** Of its crew's hours: so late work may begin before anybody asks (common practice, no source). */
const GRACE_MINUTES = 30;
/** No yard is shut for longer without a word in its log, at which is looked anew (common practice, no source). */
const AHEAD_DAYS = 14;

/** A task as the published plan has it, and as it is. */
interface Told {
  readonly planned: SheetTask;
  readonly task: Task;
  readonly start: number;
  readonly finish: number;
}

/** What may hold it up, of a plan of thousands of tasks that which counts. */
interface Around {
  /** Who is at work now, whatever the plan says of that. */
  readonly busy: ReadonlySet<string>;
  /** When people last left off, of any work. */
  readonly leftOff: ReadonlyMap<string, number>;
  /** Over, since the first of those that are looked at was to begin. */
  readonly lately: readonly Told[];
  readonly windows: ReadonlyMap<string, readonly SeenWindow[]>;
}

const finishedAt = ({ task }: Pick<Told, 'task'>): number =>
  task.finishedAt === null ? 0 : Date.parse(task.finishedAt);

const isFor = ({ planned }: Told, people: ReadonlySet<string>): boolean =>
  planned.crew.some(({ personId }) => people.has(personId));

const crewOf = ({ planned }: Pick<Told, 'planned'>): ReadonlySet<string> =>
  new Set(planned.crew.map(({ personId }) => personId));

const busyAt = ({ rows, holders }: Site): ReadonlySet<string> =>
  new Set(
    [...rows.tasks.values()]
      .filter(({ state }) => state === 'working')
      .flatMap(({ id, crew }) => [...crew, ...holders(id)]),
  );

function leftOffAt({ rows, lives }: Site): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  const note = (crew: readonly string[], ms: number): void => {
    for (const person of crew) found.set(person, Math.max(ms, found.get(person) ?? 0));
  };
  for (const task of rows.tasks.values()) if (isOver(task)) note(task.crew, finishedAt({ task }));
  for (const { spans } of lives.values()) {
    for (const { crew, end } of spans) if (end !== null) note(crew, Date.parse(end));
  }
  return found;
}

/** Since when it could have begun, as far as what comes before it by the plan and the links says. */
function freeSince(one: Told, { leftOff, lately, windows }: Around, site: Site): number {
  const crew = crewOf(one);
  const before = lately.filter((other) => other.finish <= one.start && isFor(other, crew));
  const openers = site.linksTo(one.task.id).flatMap(({ from }) => {
    const task = site.rows.tasks.get(from);
    return task !== undefined && isOver(task) ? [finishedAt({ task })] : [];
  });
  const openings = (windows.get(one.task.id) ?? []).map(({ opensAt }) => Date.parse(opensAt ?? ''));
  return Math.max(
    one.start,
    // Nobody has known of it before.
    Date.parse(site.publishedAt ?? ''),
    ...[...crew].map((person) => leftOff.get(person) ?? 0),
    ...before.map(finishedAt),
    ...openers,
    ...openings.filter((ms) => !Number.isNaN(ms)),
  );
}

/**
 * When the crew has been there for the grace time, or is to have been at it by the plan; null where
 * nobody of it is of the yard any more, or they are never there together.
 */
function afterGrace(
  { planned }: Pick<Told, 'planned'>,
  since: number,
  { yard }: Site,
): number | null {
  const from = Math.ceil(since / MINUTE);
  const span = { start: from, end: from + (AHEAD_DAYS * DAY) / MINUTE };
  const people = crewOf({ planned });
  const crew = yard.people.filter(({ id }) => people.has(id));
  const together = crew
    .map((person) => presenceOf(person, yard.timeZone, span).shifts)
    .reduce<Interval[]>((all, shifts) => intersect(all, shifts), [span]);
  if (crew.length === 0 || together.length === 0) return null;
  const own = planned.segments.map(({ start, finish }) => ({
    start: Date.parse(start.at) / MINUTE,
    end: Date.parse(finish.at) / MINUTE,
  }));
  let left = GRACE_MINUTES;
  for (const { start, end } of intersect(union(normalise(own), together), [span])) {
    if (end - start >= left) return (start + left) * MINUTE;
    left -= end - start;
  }
  return null;
}

/** When it is to be told; null while something holds it up, nobody knows for how long. */
function dueOf(one: Told, around: Around, site: Site): number | null {
  const { task } = one;
  const now = site.now.getTime();
  const hindrance = site.whyNot(task.id);
  const free = freeSince(one, around, site);
  const opens = hindrance?.opens ?? null;
  const lapsesAt = site.lives.get(task.id)?.claim?.lapsesAt ?? null;
  // Whoever has taken it says that they will begin, and is told themselves before that lapses.
  const lapses = lapsesAt === null ? 0 : Date.parse(lapsesAt);
  const since = opens === null ? free : Math.max(free, Date.parse(opens.at));
  const grace = afterGrace(one, since, site);
  if (grace === null) return null;
  const due = Math.max(grace, lapses);
  if (due > now) return due;
  if (hindrance !== null) return null;
  // What held it up may be over for a moment only: a tool is free, the dust has settled.
  const before = site.whyNot(task.id, new Date(now - GRACE_MINUTES * MINUTE));
  if (before === null) return due;
  return afterGrace(
    one,
    Math.min(now, Date.parse(before.opens?.at ?? site.now.toISOString())),
    site,
  );
}

const alarmOf = ({ planned, task, start }: Told, due: number, site: Site): WantedAlarm => ({
  key: `unbegun:${task.id}`,
  taskId: task.id,
  dueAt: dueAt(site, due),
  audience: site.people([...crewOf({ planned })], site.holders(task.id), site.foremen),
  facts: {
    kind: 'unbegun',
    what: site.what(task),
    startsAt: new Date(start).toISOString(),
  },
});

/**
 * Work that the published plan has begin by then and nobody does, by who is to do it. Only what
 * nothing before it holds up, by a link or for its crew: whoever is at work is not asked for other
 * work, of a chain that is late the first is told, and what hangs on it is looked at anew once that
 * is done. `only`: of that task.
 */
export function unbegunAlarms(site: Site, only: string | null = null): WantedAlarm[] {
  const { sheet, publishedAt, now } = site;
  if (sheet === null || publishedAt === null) return [];
  const out = leftOut(site);
  const told = sheet.tasks.flatMap((planned): Told[] => {
    const task = site.rows.tasks.get(planned.id);
    if (task === undefined || out.has(task.id)) return [];
    const [start, finish] = [Date.parse(planned.start.at), Date.parse(planned.finish.at)];
    return [{ planned, task, start, finish }];
  });
  const first = told
    .filter(
      ({ planned, task, start }) =>
        task.state === 'waiting' &&
        task.skill !== null &&
        planned.crew.length > 0 &&
        start < now.getTime() + AHEAD_DAYS * DAY &&
        !waitsForWork(task, out, site),
    )
    // What may hold up another comes before it.
    .sort((a, b) => a.start - b.start || a.finish - b.finish);
  const since = first.at(0)?.start ?? Infinity;
  const around: Around = {
    busy: busyAt(site),
    leftOff: leftOffAt(site),
    lately: told.filter((one) => isOver(one.task) && finishedAt(one) > since),
    windows: byLater(site.windows),
  };
  const alarms: WantedAlarm[] = [];
  /** By the plan, of the first that each is told of and could do. */
  const doneBy = new Map<string, number>();
  for (const one of first) {
    const crew = [...crewOf(one)];
    const isHeldUp = crew.some(
      (person) => around.busy.has(person) || (doneBy.get(person) ?? Infinity) <= one.start,
    );
    const due = isHeldUp ? null : dueOf(one, around, site);
    if (due === null) continue;
    alarms.push(alarmOf(one, due, site));
    if (site.whyNot(one.task.id) !== null) continue;
    for (const person of crew)
      doneBy.set(person, Math.min(one.finish, doneBy.get(person) ?? Infinity));
  }
  return only === null ? alarms : alarms.filter(({ taskId }) => taskId === only);
}
