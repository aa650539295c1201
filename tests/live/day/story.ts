import { z } from 'zod';
import { tinyPng } from '../../access/world/picture.ts';
import { until } from '../../support/until.ts';
import type { Journal } from './journal.ts';
import { foreman, isOver, publishedAgain, runSchema, told } from './replanned.ts';
import { publishedOf, report, type Sheet, type SheetTask, workedToPlan } from './follow-plan.ts';
import { type Caller, datesFrom, fromNow, idOf } from './yard-day.ts';

const minutes = 60_000;

/**
 * Runs the story to its end; returns the id of the plan that is published then. While the days before
 * are told the worker is away: it comes after all of it at once, in place of a plan each second.
 */
export async function theDay(
  caller: Caller,
  written: Journal,
  whileAway: (work: () => Promise<void>) => Promise<void>,
): Promise<string> {
  const first = await firstPlan(caller, written);
  const chosen = whatGoesWrong(first);
  await whileAway(() => daysBefore(caller, written, first, chosen));
  await coldMorning(caller, written);
  await earlyGel(caller, written, chosen.gelled);
  await illBuilder(caller, written);
  await missedWindow(caller, written, chosen.late);
  await snag(caller, written, chosen.faulty);
  await change(caller, written);
  return publishedAgain(caller, written);
}

async function firstPlan(caller: Caller, written: Journal): Promise<Sheet> {
  written.part('The plan that the week began with');
  const yard = await caller.call(foreman, 'GET', '');
  const notBefore = z.string().parse(yard.body.planFrom);
  const asked = await caller.call(foreman, 'POST', '/plan-runs', {
    iterations: 64,
    seed: 1,
    notBefore,
  });
  const path = `/plan-runs/${idOf(asked)}`;
  const read = async () => runSchema.parse((await caller.call(foreman, 'GET', path)).body);
  await until(async () => isOver(await read()), 120_000);
  const { planId, error } = await read();
  if (planId === null) throw new Error(error ?? 'the first run has no plan');
  await caller.call(foreman, 'POST', `/plans/${planId}/publish`);
  const sheet = await publishedOf(caller, foreman);
  written.does('Maëlle, foreman', 'asks for a plan and publishes it');
  written.says(`${String(sheet.tasks.length)} tasks are planned`);
  return sheet;
}

interface WhatGoesWrong {
  /** Resin that gels in the bucket, the last wet work before now that others wait for. */
  readonly gelled: SheetTask;
  /** Whose window shuts before anybody comes to it. */
  readonly late: SheetTask;
  /** Finished early, with a film in which somebody finds a void. */
  readonly faulty: SheetTask;
}

/** Chosen from the plan itself, since it begins on another weekday each time this runs. */
function whatGoesWrong({ tasks }: Sheet): WhatGoesWrong {
  const now = Date.now();
  const byId = new Map(tasks.map((task) => [task.id, task]));
  const past = tasks.filter(({ finish }) => Date.parse(finish.at) < now);
  const shut = past
    .filter(({ material }) => material !== null)
    .flatMap((from) =>
      from.windows.flatMap(({ toTask, closes }) => {
        const to = byId.get(toTask);
        const isOver = closes !== null && Date.parse(closes.at) < now - 60 * minutes;
        return to && isOver ? [{ from, to }] : [];
      }),
    );
  const lost = shut.at(-1);
  const wet = past.filter(
    ({ material, partId, crew }) =>
      material !== null &&
      crew.length > 0 &&
      partId !== lost?.to.partId &&
      partId !== lost?.from.partId,
  );
  const gelled = wet.at(-1);
  const faulty = wet.find(({ partId }) => partId !== gelled?.partId);
  if (!lost || !gelled || !faulty) throw new Error('the plan has too little work before now');
  return { gelled, late: lost.to, faulty };
}

async function daysBefore(
  caller: Caller,
  written: Journal,
  sheet: Sheet,
  { gelled, late }: WhatGoesWrong,
): Promise<void> {
  written.part('The days before');
  const without = new Set([gelled.id, late.id]);
  const { done, kept } = await workedToPlan(caller, sheet, without, foreman);
  written.does('Everybody', 'reports from their telephones what they did, as planned');
  written.says(
    `${String(done.length)} tasks are done`,
    ...kept.slice(0, 3).map(({ task, why }) => `${task.name} (${task.part}) is not: ${why}`),
  );
}

async function coldMorning(caller: Caller, written: Journal): Promise<void> {
  written.part('A cold morning');
  const hours = [-180, -120, -60];
  const readings = hours.map((ago) => ({
    space: 'shed',
    at: fromNow(ago),
    celsius: 6.5,
    humidity: 70,
  }));
  await caller.call('yann', 'POST', '/readings', { readings });
  written.does('Yann', 'reads 6.5 °C in the boat shed, three times');
  await told(caller, written, 'The films in the shed cure by what was read');
}

async function earlyGel(caller: Caller, written: Journal, task: SheetTask): Promise<void> {
  written.part('Resin that gels in the bucket');
  const crew = task.crew.map(({ personId }) => personId);
  const [who] = crew;
  const { name } = task.crew[0];
  const begun = task.start.at;
  for (const command of [
    { kind: 'claim', taskId: task.id, crew },
    { kind: 'start', taskId: task.id },
  ]) {
    const { outcome, why } = await report(caller, who, command, begun);
    if (outcome !== 'done') throw new Error(`${task.id}: ${why}`);
  }
  written.does(name, `begins "${task.name}" (${task.part})`);
  const gelled = new Date(Date.parse(begun) + 15 * minutes).toISOString();
  const reason = 'The resin gelled in the bucket before the second cup was spread.';
  const abandoned = await report(caller, who, { kind: 'abandon', taskId: task.id, reason }, gelled);
  if (abandoned.outcome !== 'done') throw new Error(abandoned.why);
  written.does(name, `gives it up: "${reason}"`);
  const { items } = tasksSchema.parse((await caller.call(foreman, 'GET', '/tasks?first=200')).body);
  const again = items.filter(({ id }) => id.startsWith(`${task.id}~`) || id.includes('~'));
  written.says(...again.slice(0, 6).map((one) => `new work: ${one.name} (${one.part})`));
  await told(caller, written, 'Makes the work that this asks for');
}

const tasksSchema = z.object({
  items: z.array(
    z.looseObject({ id: z.string(), name: z.string(), part: z.string(), state: z.string() }),
  ),
});

async function illBuilder(caller: Caller, written: Journal): Promise<void> {
  written.part('A builder is ill');
  const { body } = await caller.call(foreman, 'GET', '/people/tugdual');
  const dates = datesFrom(3);
  const others = z
    .array(z.looseObject({ date: z.string() }))
    .parse(body.exceptions)
    .filter(({ date }) => !dates.includes(date));
  const ill = dates.map((date) => ({ date, shifts: [], reason: 'ill' }));
  await caller.change(foreman, '/people/tugdual', { exceptions: [...others, ...ill] });
  written.does('Maëlle', 'enters that Tugdual is ill for three days');
  await told(caller, written, 'Others take over what he was to do');
}

const readySchema = z.object({
  waiting: z.array(z.looseObject({ taskId: z.string(), why: z.string() })),
});

async function missedWindow(caller: Caller, written: Journal, late: SheetTask): Promise<void> {
  written.part('A window that was missed');
  const isPrepared = async (): Promise<string | undefined> => {
    const { items } = alarmsSchema.parse(
      (await caller.call(foreman, 'GET', '/alarms?all&first=200')).body,
    );
    return items.find(({ kind, taskId }) => kind === 'missed' && taskId === late.id)?.words;
  };
  await until(async () => (await isPrepared()) !== undefined, 40_000);
  const { waiting } = readySchema.parse(
    (await caller.call(foreman, 'GET', '/ready?whose=all&first=200')).body,
  );
  written.does('The service', `finds that "${late.name}" (${late.part}) came too late`);
  written.says(
    (await isPrepared()) ?? '',
    ...waiting.filter(({ taskId }) => taskId === late.id).map(({ why }) => `it waits: ${why}`),
  );
}

const alarmsSchema = z.object({
  items: z.array(
    z.looseObject({ kind: z.string(), taskId: z.string().nullable(), words: z.string() }),
  ),
});

const proposedSchema = z.looseObject({
  state: z.string(),
  proposal: z
    .looseObject({
      id: z.string(),
      state: z.string(),
      words: z.array(z.string()),
      meaning: z.array(z.string()),
      why: z.array(z.string()),
    })
    .nullable(),
});

async function priced(caller: Caller, who: string, path: string) {
  const read = async () => proposedSchema.parse((await caller.call(who, 'GET', path)).body);
  await until(
    async () => !['pricing', undefined].includes((await read()).proposal?.state),
    120_000,
  );
  const { proposal } = await read();
  if (proposal?.state !== 'priced') throw new Error(`${path}: ${proposal?.why.join(' ') ?? ''}`);
  return proposal;
}

async function snag(caller: Caller, written: Journal, task: SheetTask): Promise<void> {
  written.part('A snag');
  const found = {
    kind: 'delamination',
    words: 'Sounds dull over a hand’s breadth when tapped.',
    taskId: task.id,
    areaM2: 0.2,
  };
  const raised = await caller.call('solenn', 'POST', `/parts/${task.partId}/snags`, found);
  const path = `/snags/${idOf(raised)}`;
  await caller.picture('solenn', `${path}/photos`, tinyPng);
  written.does(
    'Solenn',
    `taps a place that has let go in "${task.name}" (${task.part}), and sends a photo of it`,
  );
  await caller.call(foreman, 'POST', `${path}/propose`);
  const { id, words, meaning } = await priced(caller, foreman, path);
  written.does('Maëlle', 'asks what mending it would take');
  written.says(...meaning, ...words);
  await caller.call(foreman, 'POST', `${path}/accept`, { proposalId: id });
  written.does('Maëlle', 'accepts that');
  await told(caller, written, 'The rework is part of the work');
}

async function change(caller: Caller, written: Journal): Promise<void> {
  written.part('A change');
  const asked = await caller.call('odile', 'POST', '/changes', {
    change: { kind: 'size', partId: 'kornog-lockers', areaM2: 6.5, edgeM: 18, jointM: 18 },
    words: 'A further locker behind the settee, please.',
  });
  const path = `/changes/${idOf(asked)}`;
  written.does('Odile, owner of Kornog', 'wishes for a locker more');
  const { id, words, meaning } = await priced(caller, 'odile', path);
  written.says(...meaning, ...words);
  await caller.call('odile', 'POST', `${path}/accept`, { proposalId: id });
  written.does('Odile', 'agrees to that');
  await told(caller, written, 'The larger part is part of the work');
}
