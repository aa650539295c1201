import { useYard } from '../../frame/yard.tsx';
import type { Schema } from '../../api/client.ts';
import { Notice } from '../../looks/looks.tsx';
import { longDay, span } from '../../show/time.ts';
import { myBoat as texts } from '../../texts/my-boat.ts';
import css from './my-boat.module.css';
import { Heading, type Level, titleOf } from './section.tsx';

type OwnerRefit = Schema<'OwnerRefit'>;

/** The answer: what is promised, what is expected, whether it is kept. */
export function Refit({
  refit,
  boat,
  hasName,
  level,
}: {
  /** Its name. */
  readonly boat: string;
  readonly refit: OwnerRefit;
  readonly hasName: boolean;
  readonly level: Level;
}) {
  const { timeZone: zone } = useYard();
  const { promised, plannedFinish, lateMinutes, tasks, tasksDone, words } = refit;
  const isLate = lateMinutes > 0;
  const isPassed =
    plannedFinish !== null && Date.parse(plannedFinish.at) < Date.now() && tasksDone < tasks;
  const isJudged = promised !== null && plannedFinish !== null && !isPassed;
  return (
    <section class={css['refit']} aria-label={titleOf(refit.name, boat, level)}>
      {hasName && <Heading level={level}>{refit.name}</Heading>}
      <dl class={css['dates']}>
        <div>
          <dt>{texts.promised}</dt>
          <dd>{promised === null ? texts.noPromise : longDay(promised.at, zone)}</dd>
        </div>
        <div>
          <dt>{texts.expected}</dt>
          <dd>{plannedFinish === null ? texts.noPlan : longDay(plannedFinish.at, zone)}</dd>
        </div>
      </dl>
      {isJudged && (
        <p class={css['verdict']} data-tone={isLate ? 'harm' : 'well'}>
          {isLate ? texts.late(span(lateMinutes)) : texts.kept}
        </p>
      )}
      {isPassed && (
        <Notice tone="heed">
          <p>{texts.passed}</p>
        </Notice>
      )}
      <p>{words}</p>
      <Done done={tasksDone} all={tasks} />
    </section>
  );
}

const planks = 12;

/** In words; and as planks of a deck, laid and to be laid. */
function Done({ done, all }: { readonly done: number; readonly all: number }) {
  const laid = all === 0 ? 0 : Math.floor((Math.min(done, all) / all) * planks);
  return (
    <div class={css['done']}>
      {all > 0 && (
        <div class={css['planks']} aria-hidden="true">
          {Array.from({ length: planks }, (_, at) => (
            <span key={at} class={css['plank']} data-laid={at < laid} />
          ))}
        </div>
      )}
      <p>{texts.done(done, all)}</p>
    </div>
  );
}
