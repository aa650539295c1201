import { useMemo } from 'preact/hooks';
import { useYard } from '../../frame/yard.tsx';
import { Busy, Button, ProblemNotice } from '../../looks/looks.tsx';
import { isReachable } from '../../offline/reachable.ts';
import { membershipIn, person } from '../../session/session.ts';
import { day } from '../../show/time.ts';
import { now as texts } from '../../texts/now.ts';
import { Alarms } from './around/alarms.tsx';
import { MyWeek } from './around/my-week.tsx';
import { Offer } from './around/offer.tsx';
import { Together } from './around/together.tsx';
import { Held, Unsent } from './around/unsent.tsx';
import { moment, useTick } from './moments.ts';
import { type NowData, useNow } from './now-data.ts';
import css from './now.module.css';
import { useAround } from './tell/around.ts';
import { Tell } from './tell/tell.tsx';
import { type Acting, useActing } from './work/acting.ts';
import { type Calm, useCalm } from './work/calm.ts';
import { CautionsOf } from './work/cautions.tsx';
import { InHand } from './work/in-hand.tsx';
import { AlsoReady, Waiting } from './work/lists.tsx';
import { type Mine, type Standing, standingOf } from './work/mine.ts';
import { More } from './work/more.tsx';
import { ReadyCard } from './work/ready-card.tsx';
import { RefusalDialog } from './work/refusal.tsx';
import { WithWhom } from './work/with-whom.tsx';
import { toldSince } from './work/told.ts';

/** What a builder is on, what is ready, what opens next. */
export default function Now() {
  const { id: yardId } = useYard();
  const { data, asOf, problem, again } = useNow(yardId);
  const acting = useActing(yardId, again);
  const memberId = membershipIn(yardId)?.memberId ?? '';
  const me = { id: memberId, name: person.value?.name ?? '' };
  const around = useAround(yardId, data !== undefined).data;
  const told = toldSince(yardId, asOf ?? '');
  const standing = data === undefined ? nothing : standingOf(data, told, me);
  const calm = useCalm(keyOf(upperOf(standing)));
  const nameOf = useMemo(() => namesIn(data), [data]);
  return (
    <div class={css['now']}>
      <Head asOf={asOf} />
      <Alarms acting={acting} calm={calm} />
      {data === undefined &&
        (problem === undefined ? <Busy /> : <ProblemNotice problem={problem} again={again} />)}
      {data !== undefined && <First standing={standing} acting={acting} calm={calm} />}
      <LastDone acting={acting} calm={calm} />
      <Tell
        yardId={yardId}
        planId={data?.ready.planId}
        around={around}
        standing={standing}
        acting={acting}
      />
      <Unsent />
      <Held memberId={memberId} nameOf={nameOf} />
      <CautionsOf list={upperOf(standing)} />
      {data !== undefined && (
        <>
          <AlsoReady
            title={texts.alsoReady}
            list={standing.inHand.length > 0 ? standing.ready : standing.ready.slice(1)}
            acting={acting}
            calm={calm}
          />
          <Together memberId={memberId} acting={acting} />
          <Waiting ready={data.ready} />
          <MyWeek memberId={memberId} />
          <Offer />
        </>
      )}
      {acting.more !== null && <More mine={acting.more} acting={acting} />}
      {acting.taking !== null && (
        <WithWhom
          taking={acting.taking}
          people={around?.people ?? []}
          memberId={memberId}
          acting={acting}
        />
      )}
      {acting.refusal !== null && <RefusalDialog refusal={acting.refusal} acting={acting} />}
    </div>
  );
}

const nothing: Standing = { inHand: [], ready: [], ended: [] };

function namesIn(data: NowData | undefined): (taskId: string) => string {
  const names = new Map(data?.names);
  return (taskId) => names.get(taskId) ?? taskId;
}

function Head({ asOf }: { readonly asOf: string | undefined }) {
  const { timeZone } = useYard();
  const now = useTick(15_000);
  return (
    <header class={css['head']}>
      <h1>{texts.title}</h1>
      <p>
        {day(now, timeZone)} · <strong>{moment(new Date(now).toISOString(), timeZone, now)}</strong>
      </p>
      <p role="status" class={css['asOf']}>
        {!isReachable.value && asOf !== undefined && texts.asOf(moment(asOf, timeZone, now))}
      </p>
    </header>
  );
}

/** What one is on; with nothing in hand, what to take up first. */
const upperOf = ({ inHand, ready }: Standing): readonly Mine[] =>
  inHand.length > 0 ? inHand : ready.slice(0, 1);

/** What stands in the upper cards, and so what their buttons do. */
const keyOf = (list: readonly Mine[]): string =>
  list.map(({ taskId, state }) => `${taskId} ${state}`).join('\n');

function First({
  standing: { inHand, ready },
  acting,
  calm,
}: {
  readonly standing: Standing;
  readonly acting: Acting;
  readonly calm: Calm;
}) {
  if (inHand.length > 0) {
    return (
      <section class={css['section']}>
        <h2 class="said">{texts.inHand}</h2>
        {inHand.map((mine) => (
          <InHand key={mine.taskId} mine={mine} acting={acting} calm={calm} />
        ))}
      </section>
    );
  }
  const first = ready.at(0);
  return (
    <section class={css['section']}>
      <h2 class={first === undefined ? 'said' : undefined}>
        {first === undefined ? texts.inHand : texts.first}
      </h2>
      {first === undefined ? (
        <p class={css['card']}>{texts.nothingReady}</p>
      ) : (
        <ReadyCard key={first.taskId} mine={first} acting={acting} calm={calm} />
      )}
    </section>
  );
}

/** What was done just now, with the way back. */
function LastDone({ acting, calm }: { readonly acting: Acting; readonly calm: Calm }) {
  const { last } = acting;
  return (
    <div role="status">
      {last !== null && (
        <p class={css['last']}>
          <span>{last.words}</span>
          <Button isBusy={!calm.isCalm} onPress={() => calm.once(acting.takeBack)}>
            {texts.takeBack}
          </Button>
        </p>
      )}
    </div>
  );
}
