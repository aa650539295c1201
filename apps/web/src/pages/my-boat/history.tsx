import { useEffect, useRef, useState } from 'preact/hooks';
import type { Schema } from '../../api/client.ts';
import { useYard } from '../../frame/yard.tsx';
import { Busy, Button, Panel, ProblemNotice } from '../../looks/looks.tsx';
import { dayOfDate } from '../../show/time.ts';
import { myBoat as texts } from '../../texts/my-boat.ts';
import css from './my-boat.module.css';
import { type MyBoat, type Span, spans, useHistory } from './readings.ts';
import { Heading, type Level, titleOf } from './section.tsx';

const names = Object.keys(spans) as Span[];

/** What has become of the boat lately, and why. */
export function History({ boat, level }: { readonly boat: MyBoat; readonly level: Level }) {
  const { id: yardId } = useYard();
  const [span, setSpan] = useState<Span>('week');
  const { data, problem, again } = useHistory(yardId, boat, span);
  // The boat was read again since something of it changed.
  const before = useRef(boat);
  useEffect(() => {
    if (before.current !== boat) again();
    before.current = boat;
  }, [boat, again]);
  return (
    <Panel title={titleOf(texts.changed, boat.name, level)} level={level}>
      <div class={css['choice']} role="group" aria-label={texts.sinceOf}>
        {names.map((name) => (
          <Button key={name} pressed={name === span} onPress={() => setSpan(name)}>
            {texts.sinces[name]}
          </Button>
        ))}
      </div>
      <ProblemNotice problem={problem} again={again} />
      {data === undefined && problem === undefined && <Busy />}
      {data !== undefined && <Told history={data} level={level} />}
    </Panel>
  );
}

function Told({
  history: { finishes, items },
  level,
}: {
  readonly history: Schema<'MyBoatHistory'>;
  readonly level: Level;
}) {
  const below = level === 2 ? 3 : 4;
  return (
    <>
      {finishes.map(({ refitId, words, days }) => (
        <p key={refitId} class={css['moved']} data-tone={toneOf(days)}>
          {words}
        </p>
      ))}
      {items.length === 0 && <p>{texts.nothing}</p>}
      <ol class={css['days']}>
        {items.map(({ at, date, kind, words, why, subjectId }) => (
          <li key={`${at} ${kind} ${subjectId ?? ''}`}>
            <Heading level={below}>
              {dayOfDate(date)} <span class={css['soft']}>{texts.kinds[kind]}</span>
            </Heading>
            <ul class={css['lines']}>
              {words.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
            {why.length > 0 && (
              <p class={css['why']}>
                <strong>{texts.why}</strong> {why.join(' ')}
              </p>
            )}
          </li>
        ))}
      </ol>
    </>
  );
}

const toneOf = (days: number | null): string =>
  days === null || days === 0 ? 'plain' : days > 0 ? 'heed' : 'well';
