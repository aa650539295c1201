import { rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll } from 'vitest';
import { z } from 'zod';
import { publishedOf, report, type Sheet, workedToPlan } from '../../live/day/follow-plan.ts';
import {
  demoWorker,
  demoYardOn,
  type Caller,
  callers,
  fromNow,
  idOf,
  yardId,
} from '../../live/day/yard-day.ts';
import { type TestApi, testApi } from '../../support/api.ts';
import { testDatabase } from '../../support/database.ts';
import { type Process, startWorkerProcess } from '../../support/processes.ts';
import { publishPlan } from '../../support/published-plan.ts';
import { until } from '../../support/until.ts';

const people = ['maelle', 'tugdual', 'noemie', 'yann', 'solenn', 'gwendal', 'odile', 'ilsa'];
export const emailOf = (who: string): string => `${who}@demo.invalid`;

/** What of the yard the addresses of pages name. */
export interface Named {
  readonly yardId: string;
  /** The published plan, one that is proposed, and the run that made it. */
  readonly planId: string;
  readonly otherPlanId: string;
  readonly runId: string;
  /** The day for which it was planned what somebody is at now. */
  readonly workedOn: string;
  /** The secret of an invitation's link. */
  readonly invitation: string;
}

/**
 * The demo yard in the middle of its work: a plan that is followed for some days, somebody at work,
 * a snag with a photo, a change with its price, a report that is held, and a plan that is proposed
 * since it turned cold.
 */
export function livelyYard(): { readonly api: TestApi; readonly named: () => Named } {
  const database = testDatabase();
  let named: Named | undefined;
  let worker: Process | undefined;
  const photoFolder = join(tmpdir(), `curewright-lively-${crypto.randomUUID()}`);
  const api = testApi(database, { photoFolder });
  const tokens = new Map<string, string>();

  beforeAll(async () => {
    for (const who of people) {
      await api.addAccount(emailOf(who));
      tokens.set(who, await api.signIn(emailOf(who)));
    }
    const sending = { token: tokens.get('maelle') ?? '', body: demoYardOn('2026-12-02') };
    const made = await api.rest('POST', '/yards', sending);
    if (made.status !== 201) throw new Error(JSON.stringify(made.body));
    await api.join(yardId);
    await publishPlan(database, yardId);
    const caller = callers(api, tokens);
    const sheet = await publishedOf(caller, 'maelle');
    await workedToPlan(caller, sheet, new Set(), 'maelle');
    worker = await startWorkerProcess(database.serviceUrl, demoWorker);
    await raiseSnag(caller, sheet.tasks[0].partId);
    await report(caller, 'yann', { kind: 'finish', taskId: sheet.tasks.at(-1)?.id }, fromNow(-5));
    const taken = await takeUp(caller, sheet);
    // The worker prices the one while it plans the other.
    const [proposed] = await Promise.all([afterCold(caller), askForChange(caller)]);
    named = {
      yardId,
      planId: sheet.id,
      ...proposed,
      workedOn: sheet.tasks.find(({ id }) => id === taken)?.start.at.slice(0, 10) ?? '',
      invitation: await invited(caller),
    };
    await worker.end('SIGTERM');
  }, 400_000);
  afterAll(async () => {
    await worker?.end('SIGKILL');
    await rm(photoFolder, { recursive: true, force: true });
  });
  return {
    api,
    named: () => {
      if (named === undefined) throw new Error('the yard is made before the first test');
      return named;
    },
  };
}

async function raiseSnag(caller: Caller, partId: string): Promise<void> {
  const words = 'Sounds dull over a hand’s breadth when tapped, near the forward edge.';
  const body = { kind: 'delamination', words, areaM2: 0.2 };
  const snag = await caller.call('solenn', 'POST', `/parts/${partId}/snags`, body);
  const photo = sharp({ create: { width: 900, height: 600, channels: 3, background: '#b9a48a' } });
  await caller.picture('solenn', `/snags/${idOf(snag)}/photos`, await photo.png().toBuffer());
}

const pricedSchema = z.looseObject({
  proposal: z.looseObject({ state: z.string() }).nullable(),
});

async function askForChange(caller: Caller): Promise<void> {
  const asked = await caller.call('odile', 'POST', '/changes', {
    change: { kind: 'size', partId: 'kornog-lockers', areaM2: 6.5, edgeM: 18, jointM: 18 },
    words: 'A further locker behind the settee, please.',
  });
  await until(async () => {
    const { body } = await caller.call('odile', 'GET', `/changes/${idOf(asked)}`);
    return pricedSchema.parse(body).proposal?.state === 'priced';
  }, 120_000);
}

const readySchema = z.object({ ready: z.array(z.looseObject({ taskId: z.string() })) });

/** Of what is ready, the work that was planned for the earliest moment is begun, by whom it was planned for. */
async function takeUp(caller: Caller, { tasks }: Sheet): Promise<string> {
  const inTurn = tasks.toSorted((a, b) => Date.parse(a.start.at) - Date.parse(b.start.at));
  for (const { id, crew } of inTurn) {
    const who = crew.at(0)?.personId;
    if (who === undefined) continue;
    const { ready } = readySchema.parse((await caller.call(who, 'GET', '/ready')).body);
    if (!ready.some(({ taskId }) => taskId === id)) continue;
    const all = crew.map(({ personId }) => personId);
    const claim = { kind: 'claim', taskId: id, crew: all };
    if ((await report(caller, who, claim, fromNow(-20))).outcome !== 'done') continue;
    const begun = await report(caller, who, { kind: 'start', taskId: id }, fromNow(-19));
    if (begun.outcome === 'done') return id;
  }
  throw new Error('nobody has anything to begin');
}

const candidatesSchema = z.object({ items: z.array(z.looseObject({ planId: z.string() })) });

/** A cold morning: the plan that is proposed for it. */
async function afterCold(caller: Caller): Promise<{ otherPlanId: string; runId: string }> {
  const readings = [-180, -120, -60].map((ago) => ({
    ...{ space: 'shed', at: fromNow(ago), celsius: 6.5, humidity: 70 },
  }));
  await caller.call('yann', 'POST', '/readings', { readings });
  let otherPlanId = '';
  await until(async () => {
    const { body } = await caller.call('maelle', 'GET', '/candidates?state=open');
    otherPlanId = candidatesSchema.parse(body).items.at(0)?.planId ?? '';
    return otherPlanId !== '';
  }, 120_000);
  const { body } = await caller.call('maelle', 'GET', `/plans/${otherPlanId}`);
  return { otherPlanId, runId: z.string().parse(body.runId) };
}

async function invited(caller: Caller): Promise<string> {
  const person = { id: 'klara', name: 'Klara Winter', roles: ['builder'] };
  await caller.call('maelle', 'POST', '/people', person, 201);
  const { body } = await caller.call('maelle', 'POST', '/people/klara/invitations', {}, 201);
  return new URL(z.string().parse(body.link)).hash;
}
