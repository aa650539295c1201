import { untouched, type ClaimLife, type TaskLife } from '#live/life/life.ts';
import type { YardState } from '#persistence/live/yard-state.ts';
import type { PlanSheet, SheetTask } from '#planning/decode/sheet.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { Viewer } from '../../platform/access/viewer.ts';

/** The work of a yard as one of its people looks at it. */
export interface Eyes {
  readonly memberId: string;
  readonly name: (memberId: string) => string;
  readonly planned: (taskId: string) => SheetTask | undefined;
  readonly life: (taskId: string) => TaskLife;
  /** Who has it in hand; a claim that has lapsed holds nothing. */
  readonly claim: (taskId: string) => ClaimLife | null;
  /** Theirs to take: the skill is there, and nobody else holds it or is set for it. */
  readonly isMine: (taskId: string) => boolean;
  readonly notFor: (taskId: string) => string | null;
}

const sheets = new WeakMap<PlanSheet, ReadonlyMap<string, SheetTask>>();

function plannedIn(sheet: PlanSheet | null): ReadonlyMap<string, SheetTask> {
  if (sheet === null) return new Map();
  const known = sheets.get(sheet);
  if (known !== undefined) return known;
  const made = new Map(sheet.tasks.map((task) => [task.id, task]));
  sheets.set(sheet, made);
  return made;
}

const works = new WeakMap<readonly Task[], ReadonlyMap<string, Task>>();

function tasksOf({ workload: { tasks } }: YardState): ReadonlyMap<string, Task> {
  const known = works.get(tasks);
  if (known !== undefined) return known;
  const made = new Map(tasks.map((task) => [task.id, task]));
  works.set(tasks, made);
  return made;
}

const list = new Intl.ListFormat('en');

export function eyesOf(viewer: Viewer, state: YardState, now: Date): Eyes {
  const { yard, sheet, lives } = state;
  const tasks = tasksOf(state);
  const planned = plannedIn(sheet);
  const { memberId } = viewer;
  const isForeman = viewer.roles.includes('foreman');
  const names = new Map(yard.people.map(({ id, name }) => [id, name]));
  const name = (id: string): string => names.get(id) ?? id;
  const skills = new Map(yard.skills.map((skill) => [skill.id, skill.name]));
  const me = yard.people.find(({ id }) => id === memberId);
  const levels = new Map(me?.abilities.map(({ skill, level }) => [skill, level]));
  const claim = (taskId: string): ClaimLife | null => {
    const held = lives.get(taskId)?.claim ?? null;
    const isOver =
      held?.status === 'open' &&
      held.lapsesAt !== null &&
      Date.parse(held.lapsesAt) <= now.getTime();
    return isOver ? null : held;
  };
  const lacks = ({ skill, minLevel }: Task): string | null => {
    if (skill === null) return null;
    const level = levels.get(skill) ?? 0;
    if (level >= minLevel) return null;
    const what = skills.get(skill) ?? skill;
    return level === 0
      ? `you have not the skill ${what}`
      : `you have level ${String(level)} in ${what}, and ${String(minLevel)} is needed`;
  };
  const others = (taskId: string): string | null => {
    const held = claim(taskId);
    if (held !== null) {
      return held.crew.includes(memberId) ? null : `${list.format(held.crew.map(name))} has it`;
    }
    const set = lives.get(taskId)?.setCrew ?? [];
    if (set.length === 0 || set.includes(memberId)) return null;
    return `the foreman has set it for ${list.format(set.map(name))}`;
  };
  const isMine = (taskId: string): boolean => {
    const task = tasks.get(taskId);
    if (task === undefined || me === undefined) return false;
    if (claim(taskId) !== null) return others(taskId) === null;
    // A hold point waits for somebody's word, and is nobody's work.
    return task.skill !== null && lacks(task) === null && others(taskId) === null;
  };
  return {
    memberId,
    name,
    planned: (taskId) => planned.get(taskId),
    life: (taskId) => lives.get(taskId) ?? untouched(),
    claim,
    isMine,
    notFor: (taskId) => {
      const task = tasks.get(taskId);
      if (task === undefined) return null;
      const held = claim(taskId);
      if (held?.crew.includes(memberId) === true) return null;
      // The foreman sends others, but takes nothing out of anybody's hands by it.
      if (isForeman) return held === null ? null : others(taskId);
      return others(taskId) ?? lacks(task);
    },
  };
}
