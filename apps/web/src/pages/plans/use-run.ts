import { useEffect, useState } from 'preact/hooks';
import { api, asked, type Schema } from '../../api/client.ts';
import { follow, type Following } from '../../api/live.ts';
import { type Resource, useResource } from '../../api/resource.ts';
import { useYard } from '../../frame/yard.tsx';
import type { Progress } from './progress.ts';

const fields = `eventId at status stopRequested iterations bestFinish bestLateness bestFinishes
  boundLateness boundFinishes bestMoney bestDisturbance gap planId error`;

const query = `subscription Progress($yardId: ID!, $id: ID!, $after: ID) {
  planRun(yardId: $yardId, id: $id, after: $after) { ${fields} }
}`;

export interface RunFollowed {
  readonly run: Resource<Schema<'PlanRun'>>;
  /** All that was told of it, from its beginning. */
  readonly told: readonly Progress[];
}

/** GraphQL writes the members of an enumeration in capitals. */
type Told = Omit<Progress, 'status'> & { readonly status: Uppercase<Progress['status']> };

const states = {
  QUEUED: 'queued',
  RUNNING: 'running',
  FINISHED: 'finished',
  STOPPED: 'stopped',
  FAILED: 'failed',
  INFEASIBLE: 'infeasible',
} as const;

/** Before a line is tried again that the service has ended. */
const pauseMs = 5_000;

const hasEnded = ({ status }: Pick<Progress, 'status'>): boolean =>
  status !== 'queued' && status !== 'running';

/** A run as it goes: what was told of it before too, so that its course can be drawn at any time. */
export function useRun(runId: string): RunFollowed {
  const { id: yardId } = useYard();
  const run = useResource(`run ${runId}`, (signal) =>
    asked(
      api.GET('/api/v1/yards/{yardId}/plan-runs/{id}', {
        params: { path: { yardId, id: runId } },
        signal,
      }),
    ),
  );
  const [told, setTold] = useState<readonly Progress[]>([]);
  const { again } = run;
  useEffect(() => {
    // All since the first event; after a break of the line, since the last that was heard.
    let after = '0';
    setTold([]);
    const progress: Following<{ readonly planRun: Told }> = {
      query,
      variables: () => ({ yardId, id: runId, after }),
    };
    let isOver = false;
    let end: () => void;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const hear = ({ planRun }: { readonly planRun: Told }): void => {
      const now: Progress = { ...planRun, status: states[planRun.status] };
      after = now.eventId;
      setTold((was) => [...was, now]);
      if (!hasEnded(now)) return;
      isOver = true;
      // What only the run itself says: why there is none, and where it can be put right.
      again();
    };
    const begin = (): void => {
      end = follow(progress, hear, () => {
        if (isOver) return;
        // The service let go of it before the end: what happened meanwhile is read, then heard.
        again();
        timer = setTimeout(begin, pauseMs);
      });
    };
    begin();
    return () => {
      isOver = true;
      clearTimeout(timer);
      end();
    };
  }, [yardId, runId, again]);
  return { run, told };
}

/** The last that was told, or what was read where nothing was told yet. */
export function standingOf(run: Schema<'PlanRun'>, told: readonly Progress[]): Progress {
  const last = told.at(-1);
  if (last !== undefined && (hasEnded(last) || !hasEnded(run))) return last;
  return { ...run, eventId: '', at: run.finishedAt ?? run.startedAt ?? run.createdAt };
}
