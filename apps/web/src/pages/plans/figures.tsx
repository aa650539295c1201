import { useYard } from '../../frame/yard.tsx';
import { dayAndClock, span } from '../../show/time.ts';
import { money, number } from '../../show/units.ts';
import { plans as texts } from '../../texts/plans.ts';
import css from './plans.module.css';
import type { Progress } from './progress.ts';

function lateWords({ bestLateness: best, boundLateness: bound }: Progress): string {
  if (best === null) return '–';
  if (best === 0) return texts.inTime;
  return texts.lateOf(span(best), span(Math.max(0, bound ?? 0)));
}

function gapWords({ gap }: Progress): string {
  if (gap === null) return '–';
  return gap === 0 ? texts.provedBest : texts.percent(number(gap * 100, 1));
}

/** How good the plan is so far. */
export function Figures({
  now,
  isUnderWay,
}: {
  readonly now: Progress;
  readonly isUnderWay: boolean;
}) {
  const { timeZone: zone, currency } = useYard();
  const { bestFinish, bestMoney, bestDisturbance, iterations } = now;
  if (bestFinish === null && !isUnderWay) return null;
  return (
    <dl class={css['figures']}>
      <div>
        <dt>{texts.best}</dt>
        <dd>{bestFinish === null ? texts.notYet : dayAndClock(bestFinish, zone)}</dd>
      </div>
      <div>
        <dt>{texts.lateSum}</dt>
        <dd>{lateWords(now)}</dd>
      </div>
      <div>
        <dt>{texts.gap}</dt>
        <dd>{gapWords(now)}</dd>
      </div>
      {bestMoney !== null && (
        <div>
          <dt>{texts.cost}</dt>
          <dd>{money(bestMoney, currency)}</dd>
        </div>
      )}
      {bestDisturbance !== null && bestDisturbance > 0 && (
        <div>
          <dt>{texts.movesNow}</dt>
          <dd>{texts.movesOf(number(bestDisturbance, 0))}</dd>
        </div>
      )}
      <div>
        <dt>{texts.tried}</dt>
        <dd>{number(iterations, 0)}</dd>
      </div>
    </dl>
  );
}
