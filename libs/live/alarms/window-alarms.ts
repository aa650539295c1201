import { standingOf } from '#planning/compile/work/choices.ts';
import type { Milestone } from '#cure/material/material.ts';
import type { Task, TaskLink } from '#planning/workload/workload.ts';
import type { WantedAlarm } from './facts.ts';
import { dueAt, type SeenWindow, type Site, whoDoes } from './site.ts';

const MINUTE = 60_000;
/** So long before a window opens its crew is told. */
const OPENS_MINUTES = 15;
/** So long before the work has to begin to be over in time. */
const CLOSES_MINUTES = 40;

/** What one does with what a step lays. */
const verbs: Readonly<Record<NonNullable<Task['quantity']>['kind'], string>> = {
  laminate: 'laminate',
  tabbing: 'tab',
  coat: 'coat',
  fill: 'fill',
  fillet: 'fillet',
  'glue-line': 'glue',
};

const verbOf = ({ quantity }: Task): string | null =>
  quantity === null ? null : verbs[quantity.kind];

/** What is so once a film is past the milestone that a window closes with. */
const past: Readonly<Partial<Record<Milestone, string>>> = {
  'tacky-closes': 'it must be sanded',
  'bond-closes': 'it must be sanded',
  gel: 'it has gelled',
  'open-time': 'it is past its open time',
  'pot-life': 'the mix has gelled',
};

function otherwiseOf({ closes }: TaskLink): string {
  if (closes?.kind === 'milestone') return past[closes.milestone] ?? 'it is too late for it';
  return 'it must be prepared again';
}

/** Tasks and links of ways that the plan does not go. */
export function leftOut({ workload, sheet }: Site): ReadonlySet<string> {
  const { open, dropped, droppedLinks } = standingOf(workload);
  const out = new Set([...dropped, ...droppedLinks]);
  for (const { id, branches } of open) {
    const wanted = sheet?.choices.find((choice) => choice.id === id)?.branch;
    const taken = branches.find((branch) => branch.id === wanted) ?? branches.at(0);
    for (const branch of branches) {
      if (branch === taken) continue;
      for (const one of [...branch.tasks, ...branch.links]) out.add(one);
    }
  }
  return out;
}

/** The windows into each task that waits. */
export function byLater(windows: readonly SeenWindow[]): ReadonlyMap<string, SeenWindow[]> {
  const found = new Map<string, SeenWindow[]>();
  for (const window of windows) {
    const known = found.get(window.to);
    if (known === undefined) found.set(window.to, [window]);
    else known.push(window);
  }
  return found;
}

/** Whether something that comes before the task is left to do. */
export const waitsForWork = (task: Task, out: ReadonlySet<string>, site: Site): boolean =>
  site.linksTo(task.id).some(({ id, from, opens: side }) => {
    if (side === null || out.has(id) || out.has(from)) return false;
    const state = site.rows.tasks.get(from)?.state;
    return state !== 'done' && state !== 'redo';
  });

/** The task opens when the last of its windows does, if nothing else before it is left to do. */
function opens(
  task: Task,
  windows: readonly SeenWindow[],
  out: ReadonlySet<string>,
  site: Site,
): WantedAlarm[] {
  if (waitsForWork(task, out, site)) return [];
  const opening = windows.filter(({ linkId }) => (site.links.get(linkId)?.opens ?? null) !== null);
  if (opening.some(({ opensAt }) => opensAt === null)) return [];
  const last = Math.max(...opening.map(({ opensAt }) => Date.parse(opensAt ?? '')));
  if (!(last > site.now.getTime())) return [];
  const crew = site.people(whoDoes(site, task.id));
  return [
    {
      key: `opens:${task.id}`,
      taskId: task.id,
      dueAt: dueAt(site, last - OPENS_MINUTES * MINUTE),
      audience: crew.length > 0 ? crew : site.people(site.foremen),
      facts: { kind: 'opens', what: site.what(task), opensAt: new Date(last).toISOString() },
    },
  ];
}

/** One warning before it shuts, and a look at it when it can no longer be kept. */
function closes(task: Task, { linkId, closesAt, startBy }: SeenWindow, site: Site): WantedAlarm[] {
  const link = site.links.get(linkId);
  if (link === undefined || closesAt === null) return [];
  const by = startBy ?? closesAt;
  const about = { taskId: task.id, audience: site.people(whoDoes(site, task.id), site.foremen) };
  const what = site.what(task);
  const missed: WantedAlarm = {
    ...about,
    key: `missed:${linkId}`,
    dueAt: dueAt(site, Date.parse(by)),
    facts: { kind: 'missed', what, closesAt, startBy: by, rework: null, otherWay: null },
  };
  if (Date.parse(closesAt) <= site.now.getTime()) return [missed];
  return [
    {
      ...about,
      key: `closes:${linkId}`,
      dueAt: dueAt(site, Date.parse(by) - CLOSES_MINUTES * MINUTE),
      facts: {
        kind: 'closes',
        what,
        verb: verbOf(task),
        closesAt,
        startBy: by,
        otherwise: otherwiseOf(link),
        after: '',
      },
    },
    missed,
  ];
}

/** Openings and closings of what was really laid, for work that has not begun. */
export function windowAlarms(site: Site): WantedAlarm[] {
  const out = leftOut(site);
  const holding = site.windows.filter(
    ({ linkId, from, to }) => !out.has(linkId) && !out.has(from) && !out.has(to),
  );
  return [...byLater(holding)].flatMap(([taskId, windows]) => {
    const task = site.rows.tasks.get(taskId);
    if (task === undefined || task.state !== 'waiting') return [];
    return [
      ...opens(task, windows, out, site),
      ...windows.flatMap((window) => closes(task, window, site)),
    ];
  });
}

/** What was added because a window had shut is told at once, as the end of that window. */
export const preparationAlarms = (site: Site): WantedAlarm[] =>
  site.added.flatMap(({ reworkId, taskId, words }): WantedAlarm[] => {
    const task = site.rows.tasks.get(taskId);
    if (task === undefined) return [];
    const at = site.now.toISOString();
    return [
      {
        key: `missed:${reworkId}`,
        taskId,
        dueAt: at,
        audience: site.people(whoDoes(site, taskId), site.foremen),
        facts: {
          kind: 'missed',
          what: site.what(task),
          closesAt: at,
          startBy: at,
          rework: { id: reworkId, words },
          otherWay: null,
        },
      },
    ];
  });
