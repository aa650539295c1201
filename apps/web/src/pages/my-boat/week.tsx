import { useYard } from '../../frame/yard.tsx';
import { Panel } from '../../looks/looks.tsx';
import { dateIn, dayOfDate } from '../../show/time.ts';
import { myBoat as texts } from '../../texts/my-boat.ts';
import css from './my-boat.module.css';
import type { MyBoat } from './readings.ts';
import { Heading, type Level, titleOf } from './section.tsx';

/** What is done on the boat this week, day by day. */
export function Week({ boat, level }: { readonly boat: MyBoat; readonly level: Level }) {
  const { timeZone: zone } = useYard();
  const today = dateIn(Date.now(), zone);
  const work = boat.refits.flatMap(({ thisWeek }) => thisWeek);
  const days = [...new Set(work.map(({ date }) => date))].sort();
  return (
    <Panel title={titleOf(texts.week, boat.name, level)} level={level}>
      {days.length === 0 && (
        <>
          <p>{texts.weekNone}</p>
          <p class={css['soft']}>{texts.weekNoneCure}</p>
        </>
      )}
      <ol class={css['days']}>
        {days.map((date) => (
          <li key={date} aria-current={date === today ? 'date' : undefined}>
            <Heading level={level === 2 ? 3 : 4}>
              {dayOfDate(date)}
              {date === today && <span class={css['soft']}> {texts.today}</span>}
            </Heading>
            <ul class={css['lines']}>
              {work
                .filter((item) => item.date === date)
                .map(({ task, part, state, crew }, at) => (
                  <li key={at}>
                    {texts.work(task, part)}
                    {crew !== null && crew.length > 0 && ` ${texts.by(crew)}`}{' '}
                    <span class={css['state']} data-state={state}>
                      {texts.states[state]}
                    </span>
                  </li>
                ))}
            </ul>
          </li>
        ))}
      </ol>
    </Panel>
  );
}
