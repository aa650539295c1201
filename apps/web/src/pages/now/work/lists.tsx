import { useState } from 'preact/hooks';
import { useYard } from '../../../frame/yard.tsx';
import { Button } from '../../../looks/looks.tsx';
import { span } from '../../../show/time.ts';
import { now as texts } from '../../../texts/now.ts';
import type { NowData, WaitingTask } from '../now-data.ts';
import { moment, useTick } from '../moments.ts';
import css from '../now.module.css';
import type { Acting } from './acting.ts';
import type { Calm } from './calm.ts';
import { Know } from './know.tsx';
import type { Mine } from './mine.ts';
import { Notes } from './needed.tsx';

/** So many are looked through at a glance. */
const atOnce = 4;

/** What else may be begun, in the order in which the boats need it. */
export function AlsoReady({
  list,
  acting,
  calm,
  title,
}: {
  readonly list: readonly Mine[];
  readonly acting: Acting;
  readonly calm: Calm;
  readonly title: string;
}) {
  const [known, know] = useState<Mine | null>(null);
  const [isWhole, setWhole] = useState(false);
  if (list.length === 0) return null;
  const shown = isWhole ? list : list.slice(0, atOnce);
  return (
    <section class={css['section']}>
      <h2>{title}</h2>
      <ul class={css['rows']}>
        {shown.map((mine) => (
          <li key={mine.taskId}>
            <button type="button" class={css['pick']} onClick={() => know(mine)}>
              <strong>{mine.name}</strong>
              <span>{[mine.part, mine.boat, mine.ready?.space ?? ''].join(' · ')}</span>
              <Pressing mine={mine} />
              <Notes of={mine.ready} />
              {mine.isUnsent && <span class={css['unsent']}>{texts.notSent}</span>}
            </button>
          </li>
        ))}
      </ul>
      {shown.length < list.length && (
        <Button wide onPress={() => setWhole(true)}>
          {texts.showAll(list.length)}
        </Button>
      )}
      {known !== null && (
        <Know mine={known} acting={acting} calm={calm} onClose={() => know(null)} />
      )}
    </section>
  );
}

/** In one line how long it can wait, and with whom it is planned. */
function Pressing({ mine: { ready } }: { readonly mine: Mine }) {
  const { timeZone } = useYard();
  const now = useTick(30_000);
  if (ready === null) return null;
  const { closes, neededBy, planned, workMinutes } = ready;
  const crew = (planned?.crew ?? []).map(({ name }) => name);
  const left = closes === null ? 0 : (Date.parse(closes.at) - now) / 60_000;
  return (
    <>
      {closes !== null ? (
        <span class={css['pressing']}>
          {left > 0
            ? `${texts.window.until(moment(closes.at, timeZone, now))} · ${texts.window.left(span(left))}`
            : texts.window.shut}
        </span>
      ) : (
        neededBy !== null && <span>{texts.neededBy(moment(neededBy.at, timeZone, now))}</span>
      )}
      <span class={css['soft']}>
        {[texts.work(span(workMinutes)), ...(crew.length > 1 ? [texts.with(crew)] : [])].join(
          ' · ',
        )}
      </span>
    </>
  );
}

/** What becomes possible next, and when; then what waits for something else. */
export function Waiting({ ready }: { readonly ready: NowData['ready'] }) {
  const [isWhole, setWhole] = useState(false);
  const { timeZone } = useYard();
  const now = useTick(30_000);
  const opening = ready.waiting
    .flatMap((task) => (task.opens === null ? [] : [{ task, opens: task.opens.at }]))
    .sort((a, b) => Date.parse(a.opens) - Date.parse(b.opens));
  const others = ready.waiting.filter(({ opens }) => opens === null);
  const next = isWhole ? opening : opening.slice(0, atOnce);
  const rest = isWhole ? others : others.slice(0, Math.max(0, atOnce - next.length));
  const count = opening.length + others.length;
  return (
    <section class={css['section']}>
      <h2>{texts.opensNext}</h2>
      {count === 0 && <p>{texts.nothingWaits}</p>}
      <ul class={css['rows']}>
        {next.map(({ task, opens }) => (
          <li key={task.taskId} class={css['waits']}>
            <span class={css['hours']}>
              {Date.parse(opens) <= now ? texts.isOpen : texts.opens(moment(opens, timeZone, now))}
            </span>
            <Waits task={task} />
          </li>
        ))}
      </ul>
      {rest.length > 0 && (
        <>
          <h3>{texts.waitsOn}</h3>
          <ul class={css['rows']}>
            {rest.map((task) => (
              <li key={task.taskId} class={css['waits']}>
                <Waits task={task} />
              </li>
            ))}
          </ul>
        </>
      )}
      {next.length + rest.length < count && (
        <Button wide onPress={() => setWhole(true)}>
          {texts.showAll(count)}
        </Button>
      )}
    </section>
  );
}

const Waits = ({ task }: { readonly task: WaitingTask }) => (
  <span class={css['waitsFor']}>
    <strong>{task.name}</strong>
    <span>{[task.part, task.boat, task.space].join(' · ')}</span>
    <span class={css['soft']}>{task.why}</span>
    <Notes of={task} />
  </span>
);
