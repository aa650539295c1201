import { isDeepStrictEqual } from 'node:util';
import { DomainError } from '#kernel/error.ts';
import { phoneMoment } from '#live/life/phone.ts';
import type { ReportCommand } from '#live/reports/commands.ts';
import { shapeFaults } from '#planning/yard/shape-faults.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { reasonsOf } from './reasons.ts';
import {
  type GivenReport,
  givenReportSchema,
  type Reasons,
  type Report,
  type TakenReport,
} from './reports.contract.ts';
import type { Understood } from './reports.store.ts';

/** One of a queue: understood, with what speaks against its moment, or not. */
export type Read =
  { readonly report: Understood; readonly unlikely: Reasons } | { readonly refused: TakenReport };

/** Reads a queue as it came, each report by itself, `reports[3].command.taskId` being where a fault is. */
export const readQueue = (
  reports: readonly unknown[],
  sentAt: string | undefined,
  viewer: Viewer,
  now: Date,
): Read[] => reports.map((sent, index) => readOne(sent, index, sentAt, viewer, now));

function readOne(
  sent: unknown,
  index: number,
  sentAt: string | undefined,
  viewer: Viewer,
  now: Date,
): Read {
  const parsed = givenReportSchema.safeParse(sent);
  if (parsed.success) return understood(parsed.data, sentAt, viewer, now);
  const key: unknown = typeof sent === 'object' && sent !== null ? Reflect.get(sent, 'key') : null;
  const reasons = shapeFaults(sent, parsed.error).map(({ code, path, message, cure }) => ({
    code,
    path: `reports[${String(index)}]${path === '' ? '' : `.${path}`}`,
    message,
    cure,
  }));
  return {
    refused: {
      key: typeof key === 'string' ? key : null,
      outcome: 'refused',
      reasons,
      report: null,
    },
  };
}

function understood(
  { key, at: phoneAt, command }: GivenReport,
  sentAt: string | undefined,
  { memberId }: Viewer,
  now: Date,
): Read {
  const same = {
    id: crypto.randomUUID(),
    key,
    command: forReporter(command, memberId),
    phoneAt: new Date(phoneAt),
    phoneSentAt: sentAt === undefined ? null : new Date(sentAt),
  };
  try {
    return { report: { ...same, at: phoneMoment({ at: phoneAt, sentAt }, now) }, unlikely: [] };
  } catch (error) {
    // Kept all the same: it did happen, and the foreman may know when.
    return { report: { ...same, at: now }, unlikely: reasonsOf(error) };
  }
}

/** With whom it means, where it does not say: whoever carries it out later does so for the reporter. */
function forReporter(command: ReportCommand, memberId: string): ReportCommand {
  switch (command.kind) {
    case 'claim':
      return { ...command, crew: command.crew ?? [memberId] };
    case 'join':
    case 'leave':
      return { ...command, member: command.member ?? memberId };
    default:
      return command;
  }
}

/** The same key again is the same report, or it is refused: a phone has mixed up its keys. */
export function assertSame(before: Report, { key, command, phoneAt }: Understood): void {
  const isSame =
    isDeepStrictEqual(before.command, command) && before.phoneAt === phoneAt.toISOString();
  if (!isSame) {
    throw new DomainError('command.repeated', `Another report was sent under the key "${key}".`, {
      cure: 'Send it again under a fresh key.',
    });
  }
}
