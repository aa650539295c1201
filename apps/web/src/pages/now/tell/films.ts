import { api, asked, type Schema } from '../../../api/client.ts';
import { type KeptResource, useKeptResource } from '../../../offline/kept-resource.ts';
import { minutesBetween } from '../../../show/time.ts';
import { type Claim, sheetOf } from '../now-data.ts';
import type { Ended } from '../work/mine.ts';

/** A film that lies and can be touched. */
export interface Film {
  readonly taskId: string;
  readonly task: string;
  readonly part: string;
  readonly boat: string;
  /** ISO 8601. */
  readonly laidAt: string;
  /** What it comes to and how a hand finds it out; empty where the plan does not say. */
  readonly marks: readonly Schema<'FilmMark'>[];
  /** It was laid about when the plan had it, so that the plan's moments hold. */
  readonly isAsPlanned: boolean;
}

interface Films {
  readonly planId: string | null;
  readonly films: readonly Film[];
  /** Finished work that leaves none. */
  readonly dry: readonly string[];
}

/** What was laid before that has cured as far as a finger can tell. Common practice, no source. */
const longestMs = 7 * 24 * 60 * 60_000;
/** So many of the latest are looked up: a crew touches what it has just laid. */
const most = 12;
/** What a film comes to moves with it; told to the hour it is still right. No source. */
const slackMinutes = 30;

/** Films that were laid in the last days, the latest first. */
export const useFilms = (yardId: string, planId: string | null | undefined): KeptResource<Films> =>
  useKeptResource<Films>(
    planId === undefined ? null : `films ${yardId}`,
    (signal, before) => load(yardId, planId ?? null, signal, before),
    { yardId, on: ({ kind }) => changing.has(kind) },
  );

const changing: ReadonlySet<string> = new Set(['task-finished', 'task-undone', 'plan-published']);

async function load(
  yardId: string,
  planId: string | null,
  signal: AbortSignal,
  before: Films | null,
): Promise<Films> {
  const { items } = await asked(
    api.GET('/api/v1/yards/{yardId}/claims', {
      params: { path: { yardId }, query: { status: 'finished', first: 3 * most } },
      signal,
    }),
  );
  const recent = items
    .filter(isRecent)
    .sort((a, b) => Date.parse(b.finishedAt) - Date.parse(a.finishedAt))
    .slice(0, most);
  const known = before?.planId === planId ? before : null;
  const found: Film[] = [];
  const dry: string[] = [];
  await Promise.all(
    recent.map(async (claim) => {
      const { taskId, finishedAt } = claim;
      const same = known?.films.find(
        (film) => film.taskId === taskId && film.laidAt === finishedAt,
      );
      if (same !== undefined) found.push(same);
      else if (known?.dry.includes(taskId) === true) dry.push(taskId);
      else {
        const sheet = planId === null ? null : await sheetOf(yardId, planId, taskId, signal);
        // Of work that the plan does not have nothing is known: the service says whether it leaves one.
        if (sheet !== null && sheet.film.length === 0) dry.push(taskId);
        else found.push(filmOf(claim, sheet));
      }
    }),
  );
  found.sort((a, b) => Date.parse(b.laidAt) - Date.parse(a.laidAt));
  return { planId, films: found, dry };
}

type Finished = Claim & { readonly finishedAt: string };
const isRecent = (claim: Claim): claim is Finished =>
  claim.finishedAt !== null && Date.now() - Date.parse(claim.finishedAt) < longestMs;

const filmOf = (
  { taskId, task, part, boat, finishedAt }: Finished,
  sheet: Schema<'TaskMixSheet'> | null,
): Film => ({
  ...{ taskId, task, part, boat, laidAt: finishedAt },
  marks: sheet?.film ?? [],
  isAsPlanned:
    sheet !== null && Math.abs(minutesBetween(sheet.finish.at, finishedAt)) < slackMinutes,
});

/** With what was finished just now, told or not. */
export function withEnded(known: readonly Film[], ended: readonly Ended[]): readonly Film[] {
  const fresh = ended
    .filter(({ kind, mine }) => kind === 'finish' && (mine.briefing?.mix ?? null) !== null)
    .filter(({ mine }) => !known.some(({ taskId }) => taskId === mine.taskId))
    .map(({ mine: { taskId, name, part, boat }, at }): Film => {
      return { taskId, task: name, part, boat, laidAt: at, marks: [], isAsPlanned: false };
    });
  return [...fresh.reverse(), ...known];
}
