import { useYard } from '../../../frame/yard.tsx';
import { span } from '../../../show/time.ts';
import { now as texts } from '../../../texts/now.ts';
import { moment } from '../moments.ts';
import css from '../now.module.css';
import type { Mine } from './mine.ts';

/** When it has to be begun and why, how much work it is, for how many. */
export function Needed({ mine: { ready } }: { readonly mine: Mine }) {
  const { timeZone } = useYard();
  if (ready === null) return null;
  const { neededBy, because, planned, workMinutes, crewMin, crewMax, closes } = ready;
  const told = [texts.work(span(workMinutes)), texts.crew(crewMin, crewMax)];
  if (planned !== null) told.push(texts.plannedFor(moment(planned.start.at, timeZone)));
  return (
    <div class={css['soft']}>
      {neededBy !== null && closes === null && (
        <p>
          {texts.neededBy(moment(neededBy.at, timeZone))}
          {because !== null && `: ${because}`}
        </p>
      )}
      <p>{told.join(' · ')}</p>
    </div>
  );
}
