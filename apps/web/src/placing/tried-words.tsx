import { useYard } from '../frame/yard.tsx';
import { Button, Notice, ProblemNotice } from '../looks/looks.tsx';
import { dayAndClock } from '../show/time.ts';
import { listed } from '../texts/language.ts';
import { placing as texts } from '../texts/placing.ts';
import { spanWords } from './plan-task.ts';
import css from './placing.module.css';
import type { Trial } from './use-trial.ts';

/** What came of a trial; said as it comes. */
export function TriedWords({
  trial,
  onTake,
}: {
  readonly trial: Trial;
  /** The foreman takes the start that was found. */
  readonly onTake: (start: string) => void;
}) {
  const { tried, problem, isBusy } = trial;
  return (
    <div class={css['tried']} role="status" aria-live="polite">
      {isBusy && <p>{texts.trying}</p>}
      <ProblemNotice problem={problem} />
      {tried !== undefined && <Verdict tried={tried} onTake={onTake} />}
    </div>
  );
}

function Verdict({
  tried,
  onTake,
}: {
  readonly tried: NonNullable<Trial['tried']>;
  readonly onTake: (start: string) => void;
}) {
  const { timeZone: zone } = useYard();
  const { against, effects, next } = tried;
  const names = listed(tried.crew.map(({ name }) => name));
  if (tried.isPossible) {
    return (
      <Notice tone="well" title={texts.fits}>
        <p>{texts.fitsAt(spanWords(tried, zone), names)}</p>
        <Effects effects={effects} />
      </Notice>
    );
  }
  return (
    <Notice tone="heed" title={texts.againstTitle(against.length)}>
      <ul>
        {against.map(({ words }) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
      <p>{texts.wouldBe(spanWords(tried, zone))}</p>
      <Effects effects={effects} />
      {next === null ? (
        <p>{texts.othersMove}</p>
      ) : (
        <>
          <p>{texts.nextFree(dayAndClock(next.at, zone))}</p>
          <div>
            <Button onPress={() => onTake(next.at)}>{texts.takeNext}</Button>
          </div>
        </>
      )}
    </Notice>
  );
}

const Effects = ({ effects }: { readonly effects: readonly string[] }) => (
  <>
    {effects.map((words) => (
      <p key={words}>
        <strong>{words}</strong>
      </p>
    ))}
  </>
);
