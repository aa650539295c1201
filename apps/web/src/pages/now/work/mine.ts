import type { Command } from '../../../offline/deed.ts';
import { isHeld } from '../held.ts';
import type { Briefing, Claim, NowData, ReadyTask } from '../now-data.ts';

type Person = Claim['holder'];

/** Time at it under a claim; when it was put aside does not count. */
export interface Worked {
  /** Before what runs now. */
  readonly ms: number;
  /** Since when it runs; null: it is not being worked at. */
  readonly since: string | null;
}

export const workedMs = ({ ms, since }: Worked, now: number): number =>
  since === null ? ms : ms + Math.max(0, now - Date.parse(since));

const unworked: Worked = { ms: 0, since: null };

/** A task as it stands for whoever looks, with all that they have done about it. */
export interface Mine {
  readonly taskId: string;
  readonly name: string;
  readonly part: string;
  readonly boat: string;
  readonly state: 'ready' | 'claimed' | 'working' | 'paused';
  readonly claimId: string | null;
  readonly crew: readonly Person[];
  readonly startedAt: string | null;
  /** It cannot be put aside half done. */
  readonly inOneGo: boolean;
  readonly worked: Worked;
  readonly lapsesAt: string | null;
  readonly leftMinutes: number | null;
  /** Of running work: when it is expected to be over. */
  readonly expectedAt: string | null;
  /** From the list of what is ready, where it is on it. */
  readonly ready: ReadyTask | null;
  readonly briefing: Briefing | null;
  /** The service does not know of it yet. */
  readonly isUnsent: boolean;
}

/** Something done that what was read does not show. */
export interface Told {
  readonly command: Command;
  readonly at: string;
  readonly claimId: string | null;
  readonly isUnsent: boolean;
}

/** What was finished, or ended otherwise, since it was read. */
export interface Ended {
  readonly mine: Mine;
  readonly kind: Command['kind'];
  readonly at: string;
}

export interface Standing {
  /** At work first, then paused, then claimed. */
  readonly inHand: readonly Mine[];
  readonly ready: readonly Mine[];
  readonly ended: readonly Ended[];
}

const order: Readonly<Record<Mine['state'], number>> = {
  working: 0,
  paused: 1,
  claimed: 2,
  ready: 3,
};

/** How the work stands by what was read and by what was told since, in order. */
export function standingOf(data: NowData, told: readonly Told[], me: Person): Standing {
  const all = new Map<string, Mine>();
  for (const claim of data.claims.filter(isHeld)) all.set(claim.taskId, ofClaim(claim, data));
  for (const task of data.ready.ready) {
    const held = all.get(task.taskId);
    if (held !== undefined) all.set(task.taskId, { ...held, ready: task });
    else if (task.claim === null) all.set(task.taskId, ofReady(task, data));
  }
  const ended: Ended[] = [];
  for (const one of withoutTakenBack(told)) {
    if (!('taskId' in one.command)) continue;
    const before = all.get(one.command.taskId);
    if (before === undefined) continue;
    const after = become(before, one, me);
    if (after !== null) {
      const isUnsent = before.isUnsent || one.isUnsent;
      all.set(before.taskId, { ...after, isUnsent });
      continue;
    }
    all.delete(before.taskId);
    const mine = { ...before, isUnsent: before.isUnsent || one.isUnsent };
    ended.push({ mine, kind: one.command.kind, at: one.at });
  }
  const list = [...all.values()];
  return {
    inHand: list
      .filter(({ state }) => state !== 'ready')
      .sort((a, b) => order[a.state] - order[b.state]),
    ready: list.filter(({ state }) => state === 'ready'),
    ended,
  };
}

/** Without those that were taken back, and without the taking back of these. */
function withoutTakenBack(told: readonly Told[]): readonly Told[] {
  const kept: Told[] = [];
  for (const one of told) {
    const { command } = one;
    if (command.kind !== 'undo') {
      kept.push(one);
      continue;
    }
    const last = kept.findLastIndex(
      (before) =>
        'taskId' in before.command &&
        before.command.kind !== 'tack-test' &&
        before.command.taskId === command.taskId,
    );
    if (last >= 0) kept.splice(last, 1);
    else kept.push(one);
  }
  return kept;
}

/** Null: it is in hand no more. */
function become(mine: Mine, { command, at, claimId }: Told, me: Person): Mine | null {
  switch (command.kind) {
    case 'claim':
      return {
        ...mine,
        state: 'claimed',
        claimId,
        crew: crewOf(command.crew, mine, me),
        lapsesAt: null,
      };
    case 'start':
      return {
        ...mine,
        state: 'working',
        startedAt: at,
        worked: { ms: 0, since: at },
        lapsesAt: null,
      };
    case 'resume':
      return {
        ...mine,
        state: 'working',
        startedAt: mine.startedAt ?? at,
        worked: { ...mine.worked, since: at },
      };
    case 'pause':
      return {
        ...mine,
        state: 'paused',
        worked: { ms: workedMs(mine.worked, Date.parse(at)), since: null },
        leftMinutes: command.leftMinutes ?? mine.leftMinutes,
      };
    case 'progress':
      return { ...mine, leftMinutes: command.leftMinutes };
    case 'join':
      return { ...mine, crew: [...mine.crew.filter(({ id }) => id !== me.id), me] };
    case 'release':
      return mine.state === 'claimed'
        ? { ...mine, state: 'ready', claimId: null, crew: [], lapsesAt: null }
        : null;
    case 'leave':
    case 'finish':
    case 'abandon':
    case 'fail-batch':
      return null;
    case 'undo':
    case 'tack-test':
    case 'reading':
      return mine;
  }
}

/** Who was named, by the names that are known here. */
function crewOf(named: readonly string[] | undefined, { ready }: Mine, me: Person): Person[] {
  if (named === undefined) return [me];
  const names = new Map(ready?.planned?.crew.map(({ personId, name }) => [personId, name]));
  names.set(me.id, me.name);
  return named.map((id) => ({ id, name: names.get(id) ?? id }));
}

function ofClaim(claim: Claim, { tasks, briefings }: NowData): Mine {
  const { taskId, task: name, part, boat, status, crew, startedAt, lapsesAt } = claim;
  const task = tasks[taskId];
  const briefing = briefings[taskId];
  const state = status === 'working' || status === 'paused' ? status : 'claimed';
  return {
    ...{ taskId, name, part, boat, state, crew, startedAt, lapsesAt },
    claimId: claim.id,
    inOneGo: task?.inOneGo ?? (briefing?.mix ?? null) !== null,
    worked: workedUnder(claim, task),
    leftMinutes: task?.leftMinutes ?? null,
    expectedAt: task?.finishedAt ?? null,
    ready: null,
    briefing: briefing ?? null,
    isUnsent: false,
  };
}

/** By the spans of the claim; as long as these are not known, as if it had never been put aside. */
function workedUnder({ id, status, startedAt }: Claim, task: NowData['tasks'][string]): Worked {
  if (task === undefined) return { ms: 0, since: status === 'working' ? startedAt : null };
  return task.spans
    .filter(({ claimId }) => claimId === id)
    .reduce<Worked>(
      ({ ms, since }, { start, end }) =>
        end === null
          ? { ms, since: start }
          : { ms: ms + Date.parse(end) - Date.parse(start), since },
      unworked,
    );
}

function ofReady(task: ReadyTask, { briefings }: NowData): Mine {
  const { taskId, name, part, boat } = task;
  const briefing = briefings[taskId];
  return {
    ...{ taskId, name, part, boat, state: 'ready', claimId: null, crew: [] },
    ...{ startedAt: null, lapsesAt: null, leftMinutes: null, expectedAt: null },
    ...{ inOneGo: task.inOneGo, worked: unworked },
    ready: task,
    briefing: briefing ?? null,
    isUnsent: false,
  };
}
