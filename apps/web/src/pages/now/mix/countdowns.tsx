import { useEffect, useRef } from 'preact/hooks';
import { useYard } from '../../../frame/yard.tsx';
import { clock } from '../../../show/time.ts';
import { now as texts } from '../../../texts/now.ts';
import { stopwatch, useTick } from '../moments.ts';
import css from '../now.module.css';
import own from './mix.module.css';
import { type Cup, openCups } from './mixing.ts';
import { timeLeft } from './time-left.ts';

/** Cups of a task that are mixed and not spread yet: how long they last. */
export function Countdowns({
  taskId,
  onOpen,
}: {
  readonly taskId: string;
  readonly onOpen: () => void;
}) {
  const open = openCups(taskId);
  if (open.length === 0) return null;
  return (
    <ul class={own['cups']}>
      {open.map(([number, cup]) => (
        <li key={number}>
          <button type="button" class={own['cupLeft']} onClick={onOpen}>
            <span>{texts.mix.cupNumber(number)}</span>
            <Countdown cup={cup} />
          </button>
        </li>
      ))}
    </ul>
  );
}

/** What is left of a cup: by when it is to be spread, then until it sets. */
export function Countdown({ cup }: { readonly cup: Cup }) {
  const { timeZone } = useYard();
  const now = useTick(1_000);
  const left = timeLeft(cup, now);
  const stage = left?.stage;
  const before = useRef(stage);
  useEffect(() => {
    // A phone in a pocket tells it too, where it can.
    if (before.current !== undefined && stage !== before.current && 'vibrate' in navigator) {
      navigator.vibrate([400, 200, 400]);
    }
    before.current = stage;
  }, [stage]);
  if (left === null) return null;
  if (left.stage === 'over' || left.ms === null || left.at === null) {
    return (
      <span class={own['over']} role="alert">
        <strong>{texts.mix.over}</strong> {texts.mix.overCure}
      </span>
    );
  }
  const [word, by] =
    left.stage === 'spread'
      ? [texts.mix.spreadIn, texts.mix.spreadBy]
      : [texts.mix.gelsIn, texts.mix.gelsAt];
  return (
    <span class={own['countdown']} data-stage={left.stage}>
      <span>{word}</span>
      <span class={css['clock']} role="timer">
        {stopwatch(left.ms)}
      </span>
      <span>{by(clock(left.at, timeZone))}</span>
    </span>
  );
}
