import { useState } from 'preact/hooks';
import { Ask } from '../../deciding/changes/ask.tsx';
import { partsOf } from '../../deciding/changes/wanted.ts';
import { api, asked, type Schema } from '../../api/client.ts';
import { type Problem, problemOf } from '../../api/problem.ts';
import { everyPage } from '../../api/resource.ts';
import { useTitle } from '../../frame/title.ts';
import { useYard } from '../../frame/yard.tsx';
import { Busy, Button, Notice, ProblemNotice, Row, Stack } from '../../looks/looks.tsx';
import { membershipIn } from '../../session/session.ts';
import { dayAndClock } from '../../show/time.ts';
import { desk as texts } from '../../texts/desk.ts';
import css from './desk.module.css';
import { Entry } from './entry.tsx';
import { useDesk } from './readings.ts';
import { useTaskNames } from './task-names.ts';
import { urgencies, waitingOf } from './waiting.ts';

/** Everything that waits, the most urgent first. */
export function List() {
  useTitle(texts.title);
  const { id: yardId, timeZone: zone } = useYard();
  const { desk, problem, again, asOf } = useDesk(yardId);
  const names = useTaskNames(
    yardId,
    (desk?.reports ?? []).flatMap(({ command }) => ('taskId' in command ? command.taskId : [])),
  );
  const me = membershipIn(yardId)?.memberId;
  const waiting = desk === undefined ? [] : waitingOf(desk, me, Date.now());
  const now = waiting.filter(({ urgency }) => urgency === 'now').length;
  return (
    <Stack>
      <Row apart>
        <h1>{texts.title}</h1>
        <AskFor onAsked={again} />
      </Row>
      <ProblemNotice problem={problem} again={again} />
      {desk === undefined && problem === undefined && <Busy />}
      {desk !== undefined && (
        <p class={css['lead']} role="status">
          {texts.lead(now, waiting.length)}
        </p>
      )}
      {desk !== undefined &&
        urgencies.map((urgency) => {
          const those = waiting.filter((one) => one.urgency === urgency);
          if (those.length === 0) return null;
          return (
            <section key={urgency} class={css['group']} data-urgency={urgency}>
              <h2>{texts.urgency[urgency]}</h2>
              <ul class={css['list']}>
                {those.map((one) => (
                  <Entry
                    key={`${one.kind} ${one.id}`}
                    waiting={one}
                    desk={desk}
                    names={names}
                    again={again}
                  />
                ))}
              </ul>
            </section>
          );
        })}
      {asOf !== undefined && <p class={css['soft']}>{texts.asOf(dayAndClock(asOf, zone))}</p>}
    </Stack>
  );
}

/** A change that the yard itself wants; the owner says yes or no to it. */
function AskFor({ onAsked }: { readonly onAsked: () => void }) {
  const { id: yardId } = useYard();
  const [boats, setBoats] = useState<readonly Schema<'Boat'>[] | null>(null);
  const [isBusy, setBusy] = useState(false);
  const [isAsked, setAsked] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  const begin = (): void => {
    setBusy(true);
    setAsked(false);
    setProblem(undefined);
    readBoats(yardId)
      .then(setBoats, (error: unknown) => setProblem(problemOf(error)))
      .finally(() => setBusy(false));
  };
  const parts = boats === null ? [] : partsOf(boats);
  return (
    <>
      <Button isBusy={isBusy} onPress={begin}>
        {texts.ask}
      </Button>
      <ProblemNotice problem={problem} />
      {isAsked && <Notice tone="well" title={texts.asked} isNews />}
      {boats !== null && parts.length === 0 && <Notice title={texts.noParts} isNews />}
      {parts.length > 0 && (
        <Ask
          parts={parts}
          onClose={() => setBoats(null)}
          onAsked={() => {
            setBoats(null);
            setAsked(true);
            onAsked();
          }}
        />
      )}
    </>
  );
}

const most = 100;
const readBoats = (yardId: string): Promise<Schema<'Boat'>[]> =>
  everyPage((after) =>
    asked(
      api.GET('/api/v1/yards/{yardId}/boats', {
        params: {
          path: { yardId },
          query: { first: most, ...(after === undefined ? {} : { after }) },
        },
      }),
    ),
  );
