import type { ComponentChildren } from 'preact';
import { useYard } from '../../frame/yard.tsx';
import { dayAndClock } from '../../show/time.ts';
import { deciding } from '../../texts/deciding.ts';
import { desk as texts } from '../../texts/desk.ts';
import { Note } from './alarm.tsx';
import css from './desk.module.css';
import { reportWords } from './report-words.ts';
import type { TaskNames } from './task-names.ts';
import type { Desk, Waiting } from './waiting.ts';

interface Told {
  readonly title: string;
  readonly words: string;
  /** Below the yard's address. */
  readonly to: string;
  /** When it is due, or since when it waits. */
  readonly when: string;
}

/** One thing that waits: what it is, since or until when, and the way to it. */
export function Entry({
  waiting,
  desk,
  names,
  again,
}: {
  readonly waiting: Waiting;
  readonly desk: Desk;
  readonly names: TaskNames;
  readonly again: () => void;
}) {
  const { id: yardId, timeZone: zone } = useYard();
  const told = toldOf(waiting, desk, names, zone);
  const alarm =
    waiting.kind === 'alarm' ? desk.alarms.find(({ id }) => id === waiting.id) : undefined;
  if (told === null) return null;
  return (
    <Line kind={waiting.kind} when={told.when}>
      <a class={css['way']} href={`/yards/${yardId}/${told.to}`}>
        {told.title}
      </a>
      {told.words !== '' && <p>{told.words}</p>}
      {alarm !== undefined && <Note alarm={alarm} onNoted={again} />}
    </Line>
  );
}

const Line = ({
  kind,
  when,
  children,
}: {
  readonly kind: Waiting['kind'];
  readonly when: string;
  readonly children: ComponentChildren;
}) => (
  <li class={css['entry']}>
    <p class={css['about']}>
      <span class={css['kind']}>{texts.kinds[kind]}</span> {when}
    </p>
    {children}
  </li>
);

function toldOf(
  { kind, id, at }: Waiting,
  desk: Desk,
  names: TaskNames,
  zone: string,
): Told | null {
  const to = `desk/${kind}/${encodeURIComponent(id)}`;
  const moment = dayAndClock;
  const isPast = Date.parse(at) < Date.now();
  switch (kind) {
    case 'alarm': {
      const alarm = desk.alarms.find((one) => one.id === id);
      if (alarm === undefined) return null;
      return { title: alarm.words, words: '', to, when: texts.since(moment(at, zone)) };
    }
    case 'report': {
      const report = desk.reports.find((one) => one.id === id);
      if (report === undefined) return null;
      return {
        title: texts.report.title(report.member.name, reportWords(report.command, names)),
        words: report.reasons.at(0)?.message ?? '',
        to,
        when: texts.since(moment(report.receivedAt, zone)),
      };
    }
    case 'word': {
      const task = desk.words.find(({ taskId }) => taskId === id);
      if (task === undefined) return null;
      return {
        title: texts.word.title(texts.work(task.name, task.part, task.boat)),
        words: '',
        to,
        when:
          task.neededBy !== null
            ? (isPast ? texts.overdue : texts.due)(moment(task.neededBy.at, zone))
            : task.planned === null
              ? ''
              : texts.expected(moment(task.planned.finish.at, zone)),
      };
    }
    case 'booking': {
      const booking = desk.bookings.find(({ taskId }) => taskId === id);
      if (booking === undefined) return null;
      const { slot, task, part, boat } = booking;
      return {
        title: texts.booking.title(slot.list),
        words: texts.work(task, part, boat),
        to,
        when: (isPast ? texts.overdue : texts.due)(moment(at, zone)),
      };
    }
    case 'plan': {
      const candidate = desk.candidates.find(({ planId }) => planId === id);
      if (candidate === undefined) return null;
      return {
        title: texts.planTitle,
        words: `${candidate.cause.join(' ')} ${texts.moved(candidate.moved)}.`.trim(),
        to: `plans/${id}/against`,
        when: texts.since(moment(at, zone)),
      };
    }
    case 'change': {
      const change = desk.changes.find((one) => one.id === id);
      if (change === undefined) return null;
      const isMine = change.decides === 'foreman' && change.state === 'priced';
      return {
        title: change.words,
        words: isMine ? deciding.yours : deciding.orderStates[change.state],
        to,
        when: texts.since(moment(at, zone)),
      };
    }
    case 'snag': {
      const snag = desk.snags.find((one) => one.id === id);
      if (snag === undefined) return null;
      return {
        title: texts.snag.title(snag.kindName, snag.partName),
        words: `${texts.snag.states[snag.state]}. ${snag.words}`,
        to,
        when: texts.since(moment(at, zone)),
      };
    }
    case 'warning':
      return {
        title: texts.warningTitle(desk.warnings),
        words: '',
        to: 'set-up/warnings',
        when: '',
      };
  }
}
