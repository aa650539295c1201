import type { Hindrance } from '#planning/decode/ready/place.ts';
import { rowsOf, type Rows } from '#planning/decode/reading/rows.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import type { Task, TaskLink, Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { TaskLife } from '../life/life.ts';

/** A window from work that was really done to work that waits, as planning's standing has them. */
export interface SeenWindow {
  readonly linkId: string;
  readonly from: string;
  readonly to: string;
  /** ISO instants; null: never within sight, or no such end. */
  readonly opensAt: string | null;
  readonly closesAt: string | null;
  /** To be over by the closing, with the largest crew at the nominal rate. */
  readonly startBy: string | null;
}

/** A preparation that was added because a window had shut. */
export interface AddedPreparation {
  readonly reworkId: string;
  /** The task that came too late. */
  readonly taskId: string;
  readonly words: string;
}

/** The yard as it is at a moment. */
export interface AlarmsInput {
  readonly yard: Yard;
  readonly workload: Workload;
  /** Of the published plan. */
  readonly sheet: PlanSheet | null;
  /** When that was published; null: none is. */
  readonly publishedAt: string | null;
  /** Of tasks that somebody has touched. */
  readonly lives: ReadonlyMap<string, TaskLife>;
  readonly windows: readonly SeenWindow[];
  /** What keeps a task, or its rest, from beginning now, or kept it at a moment before; null: nothing. */
  readonly whyNot: (taskId: string, at?: Date) => Hindrance | null;
  /** Since the last look. */
  readonly added: readonly AddedPreparation[];
  readonly now: Date;
}

/** The same with what is looked up again and again. */
export interface Site extends AlarmsInput {
  readonly rows: Rows;
  readonly links: ReadonlyMap<string, TaskLink>;
  readonly linksTo: (taskId: string) => readonly TaskLink[];
  /** `Second coat (Hull side, Kittiwake)`. */
  readonly what: (task: Task) => string;
  /** Who has it in hand; empty: nobody. */
  readonly holders: (taskId: string) => readonly string[];
  /** Whom the published plan has it down for; empty: nobody, or no plan. */
  readonly planned: (taskId: string) => readonly string[];
  readonly foremen: readonly string[];
  /** Nobody twice, and only those whom the yard has. */
  readonly people: (...lists: readonly (readonly string[])[]) => string[];
}

export function siteOf(input: AlarmsInput): Site {
  const { yard, workload, sheet, lives } = input;
  const rows = rowsOf(yard, workload);
  const linksTo = new Map<string, TaskLink[]>();
  for (const link of workload.links) {
    const known = linksTo.get(link.to);
    if (known === undefined) linksTo.set(link.to, [link]);
    else known.push(link);
  }
  const planned = new Map(
    sheet?.tasks.map(({ id, crew }) => [id, crew.map(({ personId }) => personId)]),
  );
  const known = new Set(yard.people.map(({ id }) => id));
  return {
    ...input,
    rows,
    links: rows.links,
    linksTo: (taskId) => linksTo.get(taskId) ?? [],
    what: ({ name, partId }) => {
      const home = rows.parts.get(partId);
      return home === undefined ? name : `${name} (${home.part.name}, ${home.boat.name})`;
    },
    holders: (taskId) => lives.get(taskId)?.claim?.crew ?? [],
    planned: (taskId) => planned.get(taskId) ?? [],
    foremen: yard.people.filter(({ roles }) => roles.includes('foreman')).map(({ id }) => id),
    people: (...lists) => [...new Set(lists.flat())].filter((id) => known.has(id)),
  };
}

/** Those who have the task in hand, else those whom the plan has it down for. */
export function whoDoes(site: Site, taskId: string): readonly string[] {
  const holders = site.holders(taskId);
  return holders.length > 0 ? holders : site.planned(taskId);
}

/** Not before now: what is late already is due at once. */
export const dueAt = (site: Site, ms: number): string =>
  new Date(Math.max(ms, site.now.getTime())).toISOString();
