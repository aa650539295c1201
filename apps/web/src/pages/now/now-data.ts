import { useEffect } from 'preact/hooks';
import { api, asked, type Schema } from '../../api/client.ts';
import { problemOf } from '../../api/problem.ts';
import type { YardEvent } from '../../api/live.ts';
import { isHeld } from './held.ts';
import { type KeptResource, useKeptResource } from '../../offline/kept-resource.ts';

export type ReadyTask = Schema<'ReadyTask'>;
export type WaitingTask = Schema<'WaitingTask'>;
export type Claim = Schema<'Claim'>;

/** What a crew has to know of a task once it has it in hand. */
export interface Briefing extends Pick<
  ReadyTask,
  'mix' | 'bond' | 'consumables' | 'warnings' | 'cautions' | 'spaceId' | 'space'
> {
  readonly partId: string | null;
  readonly closes: ReadyTask['closes'];
  readonly startBy: ReadyTask['startBy'];
  /** Reckoned for the moment that the plan has it, not for when it was taken up. */
  readonly isPlanned: boolean;
  /** Null: as the rest was read; else the last moment at which the list had it, it may have moved since. */
  readonly asOf: string | null;
}

/** All that the upper part of the page is made of. */
export interface NowData {
  readonly ready: Schema<'Ready'>;
  /** Of the caller, the latest first. */
  readonly claims: readonly Claim[];
  /** Of those begun. */
  readonly tasks: Readonly<Record<string, Schema<'Task'> | undefined>>;
  readonly briefings: Readonly<Record<string, Briefing | undefined>>;
  /** Of tasks, by id; also of those that have left the lists since. */
  readonly names: readonly (readonly [taskId: string, name: string])[];
}

/** More than anybody looks through on a phone; what there is in all is counted. */
const most = 60;

async function load(yardId: string, signal: AbortSignal, before: NowData | null): Promise<NowData> {
  const path = { yardId };
  const [ready, { items: claims }] = await Promise.all([
    asked(
      api.GET('/api/v1/yards/{yardId}/ready', {
        params: { path, query: { whose: 'mine', first: most } },
        signal,
      }),
    ),
    asked(
      api.GET('/api/v1/yards/{yardId}/claims', {
        params: { path, query: { mine: 'true', first: most } },
        signal,
      }),
    ),
  ]);
  const held = claims.filter(isHeld);
  const briefings: Record<string, Briefing | undefined> = {};
  for (const task of ready.ready) briefings[task.taskId] = briefingOf(task);
  const tasks: Record<string, Schema<'Task'>> = {};
  await Promise.all(
    held.map(async ({ taskId, status }) => {
      const earlier = before === null ? null : copyIn(before, taskId);
      const known = briefings[taskId] ?? earlier;
      const [briefing, task] = await Promise.all([
        // What a plan says is read anew: another may have been published.
        known === null || known.isPlanned
          ? plannedBriefing(yardId, ready.planId, taskId, signal).then((now) => now ?? known)
          : Promise.resolve(known),
        status === 'open' ? Promise.resolve(null) : taskOf(yardId, taskId, signal),
      ]);
      if (briefing !== null) briefings[taskId] = briefing;
      if (task !== null) tasks[taskId] = task;
    }),
  );
  return { ready, claims, tasks, briefings, names: namesOf(ready, claims, before) };
}

/** So many names of work that is over are remembered: what was reported of it may be held for days. */
const mostNames = 300;

function namesOf(
  { ready, waiting }: Schema<'Ready'>,
  claims: readonly Claim[],
  before: NowData | null,
): NowData['names'] {
  const names = new Map(before?.names);
  for (const { taskId, task } of claims) names.set(taskId, task);
  for (const { taskId, name } of [...ready, ...waiting]) names.set(taskId, name);
  return [...names].slice(-mostNames);
}

const briefingOf = (task: ReadyTask): Briefing => {
  const { mix, bond, consumables, warnings, cautions, spaceId, space } = task;
  const { partId, closes, startBy } = task;
  return {
    ...{ mix, bond, consumables, warnings, cautions, spaceId, space },
    ...{ partId, closes, startBy, isPlanned: false, asOf: null },
  };
};

/** Of work begun the list says nothing any more: what it said last, and when that was. */
function copyIn({ briefings, ready }: NowData, taskId: string): Briefing | null {
  const known = briefings[taskId];
  return known === undefined ? null : { ...known, asOf: known.asOf ?? ready.at };
}

/** Null where there is none. */
const orNone = (error: unknown): null => {
  if (problemOf(error).status === 404) return null;
  throw error;
};

const taskOf = (yardId: string, id: string, signal: AbortSignal) =>
  asked(
    api.GET('/api/v1/yards/{yardId}/tasks/{id}', { params: { path: { yardId, id } }, signal }),
  ).catch(orNone);

/** What the published plan says of a task; null: it does not have it. */
export const sheetOf = (
  yardId: string,
  planId: string,
  taskId: string,
  signal: AbortSignal,
): Promise<Schema<'TaskMixSheet'> | null> =>
  asked(
    api.GET('/api/v1/yards/{yardId}/plans/{id}/tasks/{taskId}/mix-sheet', {
      params: { path: { yardId, id: planId, taskId } },
      signal,
    }),
  ).catch(orNone);

async function plannedBriefing(
  yardId: string,
  planId: string | null,
  taskId: string,
  signal: AbortSignal,
): Promise<Briefing | null> {
  const sheet = planId === null ? null : await sheetOf(yardId, planId, taskId, signal);
  if (sheet === null) return null;
  const { mix, bond, consumables, warnings, cautions, spaceId, space, closes } = sheet;
  return {
    ...{ mix, bond, consumables, warnings, cautions, spaceId, space },
    ...{ partId: null, closes, startBy: null, isPlanned: true, asOf: null },
  };
}

/** What becomes of these changes nothing that can be done now. */
const quiet: ReadonlySet<string> = new Set(['alarm', 'photo', 'snag', 'plan-run', 'person']);
const ofWork = ({ subject }: YardEvent): boolean => !quiet.has(subject);

/** A moment that is known needs no event to come: so long at most nothing is read anew. */
const longestMs = 5 * 60_000;

/** Raised with each field that the page cannot do without: what an older page kept is passed over. */
const shape = 2;

export function useNow(yardId: string): KeptResource<NowData> {
  const now = useKeptResource<NowData>(
    `now ${shape} ${yardId}`,
    (signal, before) => load(yardId, signal, before),
    { yardId, on: ofWork },
  );
  const { data, again } = now;
  useEffect(() => {
    if (data === undefined) return undefined;
    const { ready, waiting } = data.ready;
    const next = [...waiting.map(({ opens }) => opens), ...ready.map(({ startBy }) => startBy)]
      .map((when) => (when === null ? Infinity : Date.parse(when.at) - Date.now()))
      .filter((ms) => ms > 0);
    const timer = setTimeout(again, Math.min(longestMs, ...next) + 1_000);
    return () => {
      clearTimeout(timer);
    };
  }, [data, again]);
  return now;
}
