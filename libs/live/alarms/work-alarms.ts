import { mixOf, type MixSite } from '#planning/decode/briefing/mix.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { TaskLife } from '../life/life.ts';
import type { WantedAlarm } from './facts.ts';
import type { OpenFilm, Sight } from './sight.ts';
import { dueAt, type Site } from './site.ts';
import { lapsesKey } from './still-so.ts';

const MINUTE = 60_000;
/** Before the end of a cup, and never more than a quarter of its life (common practice, no source). */
const CUP_MINUTES = 5;
/** Before a claim is free again; of a short lease a third of it. */
const LEASE_MINUTES = 5;
/** Whoever has so little time to begin need not be told in between. */
const SHORTEST_LEASE_MINUTES = 3;
/** How far beyond its time work may go before anybody asks: a fifth of it, and that at least. */
const OVERRUN_MINUTES = 15;
const OVERRUN_SHARE = 0.2;

/** Who is at it. */
const crewOf = (site: Site, task: Task): readonly string[] => {
  const holders = site.holders(task.id);
  return holders.length > 0 ? holders : task.crew;
};

/** When running work is to be over: as reported, else by the crew that is at it. */
function expectedEnd(task: Task, startedAt: string): number {
  if (task.finishedAt !== null) return Date.parse(task.finishedAt);
  const hands = Math.max(1, task.crew.length);
  const minutes = Math.max(task.floorMinutes, (task.leftMinutes ?? task.workMinutes) / hands);
  return Date.parse(startedAt) + minutes * MINUTE;
}

function cups(task: Task, startedAt: string, end: number, site: Site, sight: Sight): WantedAlarm[] {
  const { frame, films, at } = sight;
  const start = frame.minuteOf(startedAt);
  const finish = Math.max(start + 1, Math.ceil((end - Date.parse(startedAt)) / MINUTE) + start);
  const mixing: MixSite = { yard: site.yard, films, at };
  const mix = mixOf(task, start, finish, mixing);
  if (mix === null) return [];
  return mix.cups.flatMap((cup): WantedAlarm[] => {
    const [mixedAt, endsAt] = [Date.parse(cup.mixAt.at), Date.parse(cup.potLifeEnds.at)];
    if (endsAt <= site.now.getTime()) return [];
    const lead = Math.min(CUP_MINUTES * MINUTE, (endsAt - mixedAt) / 4);
    return [
      {
        key: `pot-life:${task.id}:${startedAt}:${String(cup.number)}`,
        taskId: task.id,
        dueAt: dueAt(site, endsAt - lead),
        audience: site.people(crewOf(site, task)),
        facts: {
          kind: 'pot-life',
          what: site.what(task),
          cup: cup.number,
          cups: mix.cups.length,
          grams: Math.round(cup.resinGrams + cup.hardenerGrams),
          mixedAt: new Date(mixedAt).toISOString(),
          endsAt: new Date(endsAt).toISOString(),
        },
      },
    ];
  });
}

function overrun(task: Task, startedAt: string, end: number, site: Site): WantedAlarm {
  const late = Math.max(OVERRUN_MINUTES * MINUTE, (end - Date.parse(startedAt)) * OVERRUN_SHARE);
  return {
    key: `overrun:${task.id}`,
    taskId: task.id,
    dueAt: dueAt(site, end + late),
    audience: site.people(crewOf(site, task), site.foremen),
    facts: {
      kind: 'overrun',
      what: site.what(task),
      expectedAt: new Date(end).toISOString(),
    },
  };
}

function lapses(task: Task, { claim }: TaskLife, site: Site): WantedAlarm[] {
  if (claim?.status !== 'open' || claim.lapsesAt === null) return [];
  const [from, to] = [Date.parse(claim.claimedAt), Date.parse(claim.lapsesAt)];
  if (to - from < SHORTEST_LEASE_MINUTES * MINUTE || to <= site.now.getTime()) return [];
  return [
    {
      key: lapsesKey(claim.id),
      taskId: task.id,
      dueAt: dueAt(site, to - Math.min(LEASE_MINUTES * MINUTE, (to - from) / 3)),
      audience: site.people(claim.crew),
      facts: { kind: 'lapses', what: site.what(task), lapsesAt: new Date(to).toISOString() },
    },
  ];
}

/** Cups and lengths of running work, and leases of claims. */
export function workAlarms(
  site: Site,
  films: readonly OpenFilm[],
  sight: () => Sight,
): WantedAlarm[] {
  const wet = new Set(films.map(({ task }) => task.id));
  return [...site.lives].flatMap(([taskId, life]): WantedAlarm[] => {
    const task = site.rows.tasks.get(taskId);
    if (task === undefined) return [];
    if (task.state !== 'working' || task.startedAt === null) return lapses(task, life, site);
    const { startedAt } = task;
    const end = expectedEnd(task, startedAt);
    const mixing = wet.has(taskId) ? cups(task, startedAt, end, site, sight()) : [];
    return task.skill === null ? mixing : [...mixing, overrun(task, startedAt, end, site)];
  });
}
