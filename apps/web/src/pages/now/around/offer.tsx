import { useEffect, useState } from 'preact/hooks';
import { type Problem, problemOf } from '../../../api/problem.ts';
import { Button, ProblemNotice, Row } from '../../../looks/looks.tsx';
import { keep, keptAt } from '../../../offline/store.ts';
import {
  notificationsOfThisDevice,
  switchNotificationsOn,
} from '../../../session/notifications.ts';
import { person } from '../../../session/session.ts';
import { now as texts } from '../../../texts/now.ts';
import css from '../now.module.css';

const asked = 'asked for notifications';

/** Once on a device, and only where it can: whether windows may be told with the page closed. */
export function Offer() {
  const [isOffered, setOffered] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  const accountId = person.value?.id;
  useEffect(() => {
    if (accountId === undefined) return undefined;
    let isLeft = false;
    void Promise.all([keptAt(accountId, asked), notificationsOfThisDevice()]).then(
      ([before, state]) => {
        if (!isLeft) setOffered(before === null && state === 'off');
      },
      () => undefined,
    );
    return () => {
      isLeft = true;
    };
  }, [accountId]);
  if (!isOffered || accountId === undefined) return null;
  const answer = (): void => {
    void keep(accountId, asked, true);
    setOffered(false);
  };
  const yes = (): void => {
    switchNotificationsOn().then(answer, (error: unknown) => setProblem(problemOf(error)));
  };
  return (
    <section class={css['offer']}>
      <p>{texts.notify.offer}</p>
      <Row>
        <Button onPress={yes}>{texts.notify.yes}</Button>
        <Button kind="quiet" onPress={answer}>
          {texts.notify.no}
        </Button>
      </Row>
      <ProblemNotice problem={problem} />
    </section>
  );
}
