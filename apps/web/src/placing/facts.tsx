import { useYard } from '../frame/yard.tsx';
import { dayAndClock, span } from '../show/time.ts';
import { common } from '../texts/common.ts';
import { listed } from '../texts/language.ts';
import { placing as texts } from '../texts/placing.ts';
import css from './placing.module.css';
import { type PlanTask, spanWords } from './plan-task.ts';

/** When, who, where; the state and the room to slip. */
export function Facts({ task }: { readonly task: PlanTask }) {
  const { timeZone: zone } = useYard();
  const { crew, cleanedDown, overtimeMinutes, slot, floatMinutes, movesTo } = task;
  const names = crew.map(({ name }) => name);
  return (
    <dl class={css['facts']} aria-label={texts.facts}>
      <dt>{texts.when}</dt>
      <dd>
        {spanWords(task, zone)} ({texts.state[task.state]})
        {task.segments.length > 1 && (
          <ul aria-label={texts.pieces}>
            {task.segments.map((piece) => (
              <li key={piece.start.at}>{spanWords(piece, zone)}</li>
            ))}
          </ul>
        )}
        {cleanedDown !== null && (
          <div class={css['soft']}>{texts.cleanedDown(dayAndClock(cleanedDown.at, zone))}</div>
        )}
      </dd>
      <dt>{texts.who}</dt>
      <dd>
        {names.length === 0 ? texts.nobody : listed(names)}
        {overtimeMinutes > 0 && (
          <div class={css['soft']}>{texts.overtime(span(overtimeMinutes))}</div>
        )}
      </dd>
      <dt>{texts.where}</dt>
      <dd>
        {task.space} ({common.air[task.air]})
        {movesTo !== null && <div>{texts.movesTo(movesTo.space)}</div>}
      </dd>
      {slot !== null && (
        <>
          <dt>{texts.slot}</dt>
          <dd>
            {texts.slotAt(slot.list, spanWords({ start: slot.from, finish: slot.until }, zone))}
            {slot.bookBy !== null && <div>{texts.bookBy(dayAndClock(slot.bookBy.at, zone))}</div>}
          </dd>
        </>
      )}
      {floatMinutes !== null && task.state === 'waiting' && (
        <>
          <dt>{texts.float}</dt>
          <dd>{floatMinutes > 0 ? texts.floatOf(span(floatMinutes)) : texts.noFloat}</dd>
        </>
      )}
    </dl>
  );
}
