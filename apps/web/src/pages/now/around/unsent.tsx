import { useState } from 'preact/hooks';
import { api, asked, type Schema } from '../../../api/client.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Button, Notice } from '../../../looks/looks.tsx';
import { useKeptResource } from '../../../offline/kept-resource.ts';
import { queue, unsent } from '../../../offline/queue.ts';
import { fresh } from '../../../offline/outcome.ts';
import { send, settleRefused, stopped, withdraw } from '../../../offline/sender.ts';
import type { QueuedDeed } from '../../../offline/store.ts';
import { now as nowTexts } from '../../../texts/now.ts';
import { offline as texts } from '../../../texts/offline.ts';
import { moment } from '../moments.ts';
import css from '../now.module.css';

/** What the service does not have yet, in order; what it did not take, and why. */
export function Unsent() {
  const { timeZone } = useYard();
  const [isLate, setLate] = useState(false);
  // What is on its way for the first time is no news.
  const waiting = unsent.value.filter(({ key }) => !fresh.value.has(key));
  const refused = queue.value.filter((one) => one.refused !== null);
  const problem = stopped.value;
  const take = (queued: QueuedDeed) => () => void withdraw(queued).then((isOut) => setLate(!isOut));
  return (
    <>
      <div role="status">
        {fresh.value.size > 0 && <p class={css['soft']}>{texts.sending}</p>}
        {waiting.length > 0 && (
          <Notice tone="heed" title={texts.unsent(waiting.length)}>
            <p>{texts.unsentCure}</p>
            {problem !== undefined && (
              <p>
                <strong>{texts.stopped}</strong>: {problem.message} {problem.cure}
              </p>
            )}
            <ol class={css['queue']}>
              {waiting.map((queued) => (
                <li key={queued.key}>
                  <span>
                    {moment(queued.at, timeZone)} {queued.words}
                    {photosOf(queued) > 0 && ` · ${texts.photos(photosOf(queued))}`}
                  </span>
                  <Button label={texts.withdrawOf(queued.words)} onPress={take(queued)}>
                    {texts.withdraw}
                  </Button>
                </li>
              ))}
            </ol>
            {isLate && <p>{texts.onItsWay}</p>}
            <Button wide onPress={() => void send()}>
              {texts.sendNow}
            </Button>
          </Notice>
        )}
      </div>
      {refused.map((queued) => (
        <Notice key={queued.key} tone="harm" title={texts.refusedOf(queued.words)} isNews>
          <p>
            {moment(queued.at, timeZone)}: {queued.refused?.message} {queued.refused?.cure}
          </p>
          <div class={css['presses']}>
            <Button
              wide
              label={texts.sendAgainOf(queued.words)}
              onPress={() => void settleRefused(queued, 'again')}
            >
              {texts.sendAgain}
            </Button>
            <Button
              wide
              kind="harm"
              label={texts.dropOf(queued.words)}
              onPress={() => void settleRefused(queued, 'dropped')}
            >
              {texts.drop}
            </Button>
          </div>
        </Notice>
      ))}
    </>
  );
}

const photosOf = ({ deed }: QueuedDeed): number => (deed.kind === 'snag' ? deed.photos.length : 0);

type Report = Schema<'Report'>;

/** So long a word of the foreman stands here. */
const dayMs = 24 * 60 * 60_000;

/** What was reported and waits for the foreman, and what they set aside. */
export function Held({
  memberId,
  nameOf,
}: {
  readonly memberId: string;
  /** Of a task, as far as it is known here. */
  readonly nameOf: (taskId: string) => string;
}) {
  const { id: yardId, timeZone } = useYard();
  const reports = useKeptResource<readonly Report[]>(
    `held ${yardId}`,
    async (signal) => {
      const path = { yardId };
      const [held, dismissed] = await Promise.all(
        (['held', 'dismissed'] as const).map((outcome) =>
          asked(
            api.GET('/api/v1/yards/{yardId}/reports', {
              params: { path, query: { outcome, member: memberId, first: 20 } },
              signal,
            }),
          ),
        ),
      );
      return [...held.items, ...dismissed.items.filter(isFresh(memberId))];
    },
    { yardId, on: ({ subject }) => subject === 'report' },
  );
  const list = reports.data ?? [];
  if (list.length === 0) return null;
  return (
    <section class={css['section']}>
      {list.map(({ id, outcome, at, command, reasons, note }) => (
        <Notice
          key={id}
          tone="heed"
          title={outcome === 'held' ? texts.held : texts.dismissed}
          isNews
        >
          <p>
            {moment(at, timeZone)} {wordsOf(command, nameOf)}
          </p>
          {outcome === 'held' && <p>{texts.heldCure}</p>}
          <ul class={css['plain']}>
            {reasons.map(({ message }) => (
              <li key={message}>{message}</li>
            ))}
          </ul>
          {note !== '' && <p>{note}</p>}
        </Notice>
      ))}
    </section>
  );
}

/** Set aside in the last day, by somebody else. */
const isFresh =
  (memberId: string) =>
  ({ settledAt, settledById }: Report): boolean =>
    settledById !== memberId && settledAt !== null && Date.now() - Date.parse(settledAt) < dayMs;

function wordsOf(command: Report['command'], nameOf: (taskId: string) => string): string {
  if (command.kind === 'reading') return nowTexts.tell.temperature;
  if (command.kind === 'tack-test')
    return nowTexts.tack.told(command.found, nameOf(command.taskId));
  return nowTexts.done(command.kind, nameOf(command.taskId));
}
