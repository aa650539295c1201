import { standing } from '#planning/decode/ready/standing.ts';
import { smallYard } from '#planning/testing/small-yard.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { type ClaimLife, type TaskLife, untouched } from '../../life/life.ts';
import { handMadeSheet, type HandMadeTask } from '../../testing/hand-made-sheet.ts';
import { alarmsOf } from '../alarms.ts';
import type { WantedAlarm } from '../facts.ts';
import type { AlarmsInput } from '../site.ts';
import { alarmWords } from '../words.ts';

/** For tests: a small yard at a moment, and what it is to be told. */

export const on = (time: string): string => `2026-11-02T${time}:00.000Z`;

export interface Scene {
  /** `14:00` on Monday. */
  readonly now: string;
  readonly change?: (draft: Yard) => void;
  readonly begun?: Readonly<Record<string, Partial<Task>>>;
  readonly lives?: Readonly<Record<string, Partial<TaskLife>>>;
  readonly added?: AlarmsInput['added'];
  readonly planned?: readonly HandMadeTask[];
  readonly published?: string;
}

/** Ada is the foreman; Ben builds, and is nothing else. */
function withBen(yard: Yard): void {
  yard.people.push({ ...yard.people[0], id: 'ben', name: 'Ben', roles: ['builder'] });
}

export function alarmsAt(scene: Scene): WantedAlarm[] {
  const { now, change, begun = {}, lives = {}, added = [], planned, published = '08:00' } = scene;
  const yard = smallYard((draft) => {
    withBen(draft);
    change?.(draft);
  });
  const made = makeWorkload(yard);
  const workload = { ...made, tasks: made.tasks.map((one) => ({ ...one, ...begun[one.id] })) };
  const at = on(now);
  const sheet = planned === undefined ? null : handMadeSheet(planned);
  const standAt = (moment: string) => standing({ yard, workload, sheet, now: moment });
  const stand = standAt(at);
  return alarmsOf({
    yard,
    workload,
    sheet,
    publishedAt: sheet === null ? null : on(published),
    lives: new Map(Object.entries(lives).map(([id, life]) => [id, { ...untouched(), ...life }])),
    windows: stand.windows(),
    whyNot: (taskId, before) => standAt(before?.toISOString() ?? at).whyNot(taskId),
    added,
    now: new Date(at),
  });
}

export const sanded: Partial<Task> = {
  state: 'done',
  startedAt: on('08:00'),
  finishedAt: on('08:50'),
  crew: ['ben'],
};
/** Laid from 09:00 to 10:00: its bond window is from 12:00 to 15:00 at 20 degrees. */
export const coated: Partial<Task> = { ...sanded, startedAt: on('09:00'), finishedAt: on('10:00') };
export const laid = { 'lid.sand': sanded, 'lid.one': coated };

export const claimOf = (over: Partial<ClaimLife> = {}): ClaimLife => ({
  id: '0b6f0a3c-7f3e-4f5e-9a53-0d3a2f6f9a11',
  status: 'open',
  holder: 'ben',
  crew: ['ben'],
  claimedAt: on('09:00'),
  lapsesAt: on('09:30'),
  startedAt: null,
  override: null,
  ...over,
});

export const keyed = (alarms: readonly WantedAlarm[]): string[] => alarms.map(({ key }) => key);
export const one = (alarms: readonly WantedAlarm[], key: string): WantedAlarm => {
  const found = alarms.find((alarm) => alarm.key.startsWith(key));
  if (found === undefined) throw new Error(`no ${key} among ${keyed(alarms).join(', ')}`);
  return found;
};
export const words = ({ facts, dueAt }: WantedAlarm, zone = 'Etc/UTC'): string | null =>
  alarmWords(facts, new Date(dueAt), zone);
