import { z } from 'zod';
import { until } from '../../support/until.ts';
import type { Journal } from './journal.ts';
import { type Caller, clock, fromNow } from './yard-day.ts';

export const foreman = 'maelle';

export const runSchema = z.looseObject({
  id: z.string(),
  status: z.string(),
  purpose: z.string(),
  seconds: z.number().nullable(),
  planId: z.string().nullable(),
  error: z.string().nullable(),
});
type Run = z.output<typeof runSchema>;
export const isOver = ({ status }: Run): boolean => status !== 'queued' && status !== 'running';

const candidatesSchema = z.object({
  items: z.array(
    z.looseObject({ planId: z.string(), state: z.string(), cause: z.array(z.string()) }),
  ),
});
const candidateSchema = z.looseObject({
  since: z.array(z.string()),
  words: z.array(z.string()),
  cause: z.array(z.string()),
});

const openCandidate = async (caller: Caller): Promise<string | undefined> => {
  const { body } = await caller.call(foreman, 'GET', '/candidates?state=open');
  return candidatesSchema.parse(body).items.at(0)?.planId;
};

/** Goes on in search of something better after a first candidate: the story goes by that. */
const isLong = ({ purpose, seconds }: Run): boolean =>
  purpose === 'disturbance' && (seconds ?? 0) > 10;

/** It may have come to its end meanwhile. */
async function stop(caller: Caller, id: string): Promise<void> {
  await caller.call(foreman, 'POST', `/plan-runs/${id}/stop`).catch((error: unknown) => {
    if (!String(error).includes('run.state')) throw error;
  });
}

/** No plan is being searched for. */
async function isQuiet(caller: Caller): Promise<boolean> {
  const { body } = await caller.call(foreman, 'GET', '/plan-runs?first=20');
  const { items } = z.object({ items: z.array(runSchema) }).parse(body);
  const open = items.filter((run) => !isOver(run));
  for (const run of open.filter(isLong)) await stop(caller, run.id);
  return open.length === 0;
}

/** Writes that a disturbance has been followed by a candidate, and what it answers. */
export async function told(caller: Caller, written: Journal, what: string): Promise<void> {
  written.does('The service', what.charAt(0).toLowerCase() + what.slice(1));
  await until(() => isQuiet(caller), 90_000);
  const planId = await openCandidate(caller);
  if (planId === undefined) return;
  const { cause } = candidateSchema.parse(
    (await caller.call(foreman, 'GET', `/candidates/${planId}`)).body,
  );
  const fresh = cause.filter((one) => !written.text().includes(one));
  if (fresh.length > 0) written.says(`a plan is proposed, because: ${fresh.join(' ')}`);
}

export async function publishedAgain(caller: Caller, written: Journal): Promise<string> {
  written.part('A plan again');
  let planId: string | undefined;
  let changed: readonly string[] = [];
  await until(async () => {
    planId = (await isQuiet(caller)) ? await openCandidate(caller) : undefined;
    if (planId === undefined) return false;
    const { body } = await caller.call(foreman, 'GET', `/candidates/${planId}`);
    const { since, words } = candidateSchema.parse(body);
    changed = words;
    return since.length === 0 && (await isPublished(caller, planId));
  }, 120_000);
  written.does('Maëlle', 'reads what the proposed plan changes');
  written.says(...changed);
  written.does('Maëlle', `publishes it, at ${clock(fromNow(0))}`);
  return planId ?? '';
}

/** A better one may have come while she read it: then she reads that. */
async function isPublished(caller: Caller, planId: string): Promise<boolean> {
  try {
    await caller.call(foreman, 'POST', `/plans/${planId}/publish`);
    return true;
  } catch (error) {
    if (String(error).includes('candidate.state')) return false;
    throw error;
  }
}
