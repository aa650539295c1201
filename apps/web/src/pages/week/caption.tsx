import { useYard } from '../../frame/yard.tsx';
import { week as texts } from '../../texts/week.ts';
import { lagOf } from './holding.ts';
import type { Lives } from './lives.ts';
import { pointedTask } from './lit.ts';
import type { Model } from './model.ts';
import { present } from './present.ts';
import css from './week.module.css';
import { filmWords, floatWords, stateWords, timesOf, windowWords } from './words.ts';

/**
 * What is pointed at, in words: the work, how its film hardens, and when the next may come. The
 * planks say the same to whoever listens.
 */
export function Caption({ model, lives }: { readonly model: Model; readonly lives: Lives }) {
  const { timeZone } = useYard();
  const taskId = pointedTask.value;
  const work = taskId === null ? undefined : model.byId.get(taskId);
  if (work === undefined) {
    return (
      <p class={css['caption']} aria-hidden="true">
        {texts.pointHelp}
      </p>
    );
  }
  const { task, crew, boat, space } = work;
  const now = lives.of(task.id)?.value ?? task.now;
  const lag = lagOf(work, now, model.picture, present.value);
  const line = [
    timesOf(work, timeZone),
    crew.join(', '),
    space,
    texts.air[task.air],
    stateWords(now, model.personName),
    lag === null ? '' : texts.lagWords[lag],
    floatWords(work),
    task.fixedStart === null ? '' : texts.fixed,
    task.crewIsSet ? texts.crewSet : '',
  ];
  const film = [...filmWords(work, timeZone), ...windowWords(work, timeZone)];
  return (
    <div class={css['caption']} data-on aria-hidden="true">
      <p>
        <strong>{task.name}</strong> {texts.of(task.part, boat)}
      </p>
      <p>{line.filter((part) => part !== '').join(' · ')}</p>
      {film.length > 0 && <p>{film.join(' · ')}</p>}
      {task.warnings.map((warning) => (
        <p key={warning} class={css['warning']}>
          {warning}
        </p>
      ))}
    </div>
  );
}
