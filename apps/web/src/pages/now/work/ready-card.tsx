import { useState } from 'preact/hooks';
import { Button } from '../../../looks/looks.tsx';
import { now as texts } from '../../../texts/now.ts';
import css from '../now.module.css';
import type { Acting } from './acting.ts';
import type { Calm } from './calm.ts';
import { Know } from './know.tsx';
import type { Mine } from './mine.ts';
import { Needed, Notes } from './needed.tsx';
import { Place, State } from './place.tsx';
import { WindowStrip } from './window-strip.tsx';

/** The first task that is ready: how long its window stays open, and the way to take it. */
export function ReadyCard({
  mine,
  acting,
  calm,
}: {
  readonly mine: Mine;
  readonly acting: Acting;
  readonly calm: Calm;
}) {
  const [isOpen, setOpen] = useState(false);
  const { name, ready } = mine;
  const take = (isBegun: boolean) => () => calm.once(() => acting.take(mine, isBegun));
  return (
    <article class={css['card']} data-state="ready">
      <div class={css['title']}>
        <h3 class={css['task']}>{name}</h3>
        <State mine={mine} />
      </div>
      <Place mine={mine} />
      {ready !== null && <WindowStrip closes={ready.closes} startBy={ready.startBy} />}
      <Notes of={ready} />
      <Needed mine={mine} />
      <div class={css['presses']}>
        <Button kind="do" wide isBusy={!calm.isCalm} onPress={take(true)}>
          {texts.do.claimAndStart}
        </Button>
        <Button wide isBusy={!calm.isCalm} onPress={take(false)}>
          {texts.do.claim}
        </Button>
        <Button wide label={texts.detailsOf(name)} onPress={() => setOpen(true)}>
          {texts.details}
        </Button>
      </div>
      {isOpen && <Know mine={mine} acting={acting} calm={calm} onClose={() => setOpen(false)} />}
    </article>
  );
}
