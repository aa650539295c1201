import { useState } from 'preact/hooks';
import { api, asked, type Schema } from '../../api/client.ts';
import { type Problem, problemOf } from '../../api/problem.ts';
import { everyPage, useResource } from '../../api/resource.ts';
import { useYard } from '../../frame/yard.tsx';
import { Button, ButtonLink, Notice, ProblemNotice, Row } from '../../looks/looks.tsx';
import { membershipIn } from '../../session/session.ts';
import { dateIn, dayAndClock } from '../../show/time.ts';
import { desk as texts } from '../../texts/desk.ts';
import { Detail } from './detail.tsx';

type Alarm = Schema<'Alarm'>;

/** Says that one has taken note; of an alarm that rang for oneself, and is not noted yet. */
export function Note({ alarm, onNoted }: { readonly alarm: Alarm; readonly onNoted: () => void }) {
  const { id: yardId } = useYard();
  const [problem, setProblem] = useState<Problem>();
  const [isBusy, setBusy] = useState(false);
  const me = membershipIn(yardId)?.memberId;
  const mine = alarm.audience.find(({ id }) => id === me);
  if (mine === undefined || mine.acknowledgedAt !== null) return null;
  const note = (): void => {
    setBusy(true);
    setProblem(undefined);
    asked(
      api.POST('/api/v1/yards/{yardId}/alarms/{id}/acknowledge', {
        params: { path: { yardId, id: alarm.id } },
      }),
    )
      .then(onNoted, (error: unknown) => setProblem(problemOf(error)))
      .finally(() => setBusy(false));
  };
  return (
    <div>
      <ProblemNotice problem={problem} />
      <Button label={texts.alarm.notedOf(alarm.words)} isBusy={isBusy} onPress={note}>
        {texts.alarm.noted}
      </Button>
    </div>
  );
}

const most = 100;

/** What has rung, for whom, and who has taken note. */
export function AlarmPage({ id }: { readonly id: string }) {
  const { id: yardId, timeZone: zone } = useYard();
  const read = useResource<Alarm | null>(
    `alarm ${yardId} ${id}`,
    async (signal) => {
      const all = await everyPage((after) =>
        asked(
          api.GET('/api/v1/yards/{yardId}/alarms', {
            params: {
              path: { yardId },
              query: { first: most, all: 'true', ...(after === undefined ? {} : { after }) },
            },
            signal,
          }),
        ),
      );
      return all.find((alarm) => alarm.id === id) ?? null;
    },
    { yardId, on: ({ subjectId }) => subjectId === id },
  );
  return (
    <Detail kind="alarm" title={({ words }) => words} read={read}>
      {(alarm) => {
        const { rungAt, dueAt, audience, acknowledgedAt, taskId } = alarm;
        const seen = audience.filter((one) => one.acknowledgedAt !== null);
        const names = (list: Alarm['audience']): string[] => list.map(({ name }) => name);
        return (
          <>
            <p>{texts.alarm.rungAt(dayAndClock(rungAt, zone))}</p>
            <p>
              {seen.length === 0
                ? texts.alarm.unseen(names(audience))
                : texts.alarm.seen(names(seen))}
            </p>
            {acknowledgedAt !== null && <Notice tone="well" title={texts.alarm.done} />}
            <Row>
              <Note alarm={alarm} onNoted={read.again} />
              {taskId !== null && (
                <ButtonLink to={`/yards/${yardId}/week?from=${dateIn(dueAt, zone)}`}>
                  {texts.alarm.toWork}
                </ButtonLink>
              )}
            </Row>
          </>
        );
      }}
    </Detail>
  );
}
