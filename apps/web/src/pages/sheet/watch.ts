import type { Schema } from '../../api/client.ts';
import { clock, dayAndClock } from '../../show/time.ts';
import { sheet as texts } from '../../texts/sheet.ts';
import type { Row } from './pages.ts';

type Task = Schema<'PlanTask'>;

/** The time alone on the day of the row, else with its day. */
const shortly = (at: string, row: Row, zone: string, date: string): string =>
  row.date === date ? clock(at, zone) : dayAndClock(at, zone);

const mixWords = ({ mix }: Task, zone: string): string[] => {
  const cups = mix?.cups ?? [];
  if (cups.length === 0) return [];
  const [first] = cups;
  const last = cups[cups.length - 1];
  const [at, by] = [clock(first.mixAt.at, zone), clock(last.spreadBy.at, zone)];
  return [cups.length === 1 ? texts.mix(1, at, by) : texts.cups(cups.length, at, by)];
};

function windowWords({ windows }: Task, row: Row, zone: string): string[] {
  return windows.flatMap(({ toName, opens, closes }) => {
    const from = opens === null ? null : shortly(opens.at, row, zone, opens.local.slice(0, 10));
    const until = closes === null ? null : shortly(closes.at, row, zone, closes.local.slice(0, 10));
    if (from !== null && until !== null) return [texts.both(toName, from, until)];
    if (until !== null) return [texts.closes(toName, until)];
    return from === null ? [] : [texts.opens(toName, from)];
  });
}

/** What has to be watched at a row, in short sentences; with the first stretch of the work only. */
export function watchWords(row: Row, task: Task | undefined, me: string, zone: string): string[] {
  const others = row.people.filter((name) => name !== me);
  const beside = others.length === 0 ? [] : [`${texts.withOthers(others)}.`];
  if (task === undefined || row.continued) return beside;
  const { slot, cleanedDown } = task;
  return [
    ...beside,
    ...(slot === null
      ? []
      : [
          texts.slotAt(
            slot.list,
            texts.span(clock(slot.from.at, zone), clock(slot.until.at, zone)),
          ),
        ]),
    ...mixWords(task, zone),
    ...(cleanedDown === null ? [] : [texts.cleanBy(clock(cleanedDown.at, zone))]),
    ...windowWords(task, row, zone),
    ...task.warnings,
  ];
}
