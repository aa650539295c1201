import { useState } from 'preact/hooks';
import { useYard } from '../../../frame/yard.tsx';
import { Button } from '../../../looks/looks.tsx';
import { span } from '../../../show/time.ts';
import { now as texts } from '../../../texts/now.ts';
import { Countdowns } from '../mix/countdowns.tsx';
import { useBasis } from '../mix/basis.ts';
import { MixDialog } from '../mix/mix-dialog.tsx';
import { moment, stopwatch, useTick } from '../moments.ts';
import type { Briefing } from '../now-data.ts';
import css from '../now.module.css';
import type { Acting } from './acting.ts';
import type { Calm } from './calm.ts';
import { type Mine, workedMs } from './mine.ts';
import { Place, State } from './place.tsx';
import { WindowStrip } from './window-strip.tsx';

interface Props {
  readonly mine: Mine;
  readonly acting: Acting;
  readonly calm: Calm;
}

/** A task in hand: how long it has been, what ends it, what can hurt. */
export function InHand({ mine, acting, calm }: Props) {
  const [isMixing, setMixing] = useState(false);
  const { briefing, state, taskId, name } = mine;
  return (
    <article class={css['card']} data-state={state}>
      <div class={css['title']}>
        <h3 class={css['task']}>{name}</h3>
        <State mine={mine} />
      </div>
      <Place mine={mine} />
      {state === 'working' && <Since mine={mine} />}
      {state === 'claimed' && <Lapses mine={mine} />}
      <Countdowns taskId={taskId} onOpen={() => setMixing(true)} />
      {state !== 'working' && briefing !== null && <Window briefing={briefing} />}
      <div class={css['presses']}>
        <Presses mine={mine} acting={acting} calm={calm} />
        {briefing?.mix !== undefined && briefing.mix !== null && (
          <Button wide onPress={() => setMixing(true)}>
            {texts.mix.title}
          </Button>
        )}
        <Button
          wide={briefing?.mix === undefined || briefing.mix === null}
          label={texts.moreAbout(name)}
          onPress={() => acting.askMore(mine)}
        >
          {texts.more}
        </Button>
      </div>
      {isMixing && briefing !== null && (
        <MixDialog
          taskId={taskId}
          name={name}
          briefing={briefing}
          onClose={() => setMixing(false)}
        />
      )}
    </article>
  );
}

function Window({ briefing }: { readonly briefing: Briefing }) {
  const { closes, startBy } = briefing;
  return <WindowStrip closes={closes} startBy={startBy} basis={useBasis(briefing)} />;
}

function Presses({ mine, acting, calm }: Props) {
  const { taskId, state, inOneGo } = mine;
  const press = (kind: 'start' | 'pause' | 'resume' | 'finish' | 'release') => ({
    isBusy: !calm.isCalm,
    onPress: () => calm.once(() => acting.work(mine, { kind, taskId })),
  });
  switch (state) {
    case 'working':
      return (
        <>
          <Button kind="do" wide {...press('finish')}>
            {texts.do.finish}
          </Button>
          {!inOneGo && (
            <Button wide {...press('pause')}>
              {texts.do.pause}
            </Button>
          )}
        </>
      );
    case 'paused':
      return (
        <>
          <Button kind="do" wide {...press('resume')}>
            {texts.do.resume}
          </Button>
          <Button wide {...press('finish')}>
            {texts.do.finish}
          </Button>
        </>
      );
    case 'claimed':
      return (
        <>
          <Button kind="do" wide {...press('start')}>
            {texts.do.start}
          </Button>
          <Button wide {...press('release')}>
            {texts.do.release}
          </Button>
        </>
      );
    case 'ready':
      return null;
  }
}

function Since({ mine: { startedAt, worked, expectedAt } }: { readonly mine: Mine }) {
  const { timeZone } = useYard();
  const now = useTick(1_000);
  if (startedAt === null) return null;
  const told = [texts.since(moment(startedAt, timeZone, now))];
  if (expectedAt !== null) told.push(texts.expected(moment(expectedAt, timeZone, now)));
  return (
    <p class={css['running']}>
      <span class={css['clock']} role="timer">
        {stopwatch(workedMs(worked, now))}
      </span>
      <span>{told.join(' · ')}</span>
    </p>
  );
}

function Lapses({ mine: { lapsesAt } }: { readonly mine: Mine }) {
  const { timeZone } = useYard();
  const now = useTick(15_000);
  if (lapsesAt === null) return null;
  const left = (Date.parse(lapsesAt) - now) / 60_000;
  return (
    <p>
      {texts.lapses(moment(lapsesAt, timeZone, now))}{' '}
      {left > 0 && <strong>{texts.window.left(span(left))}</strong>}
    </p>
  );
}
