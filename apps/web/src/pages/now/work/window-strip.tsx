import { useYard } from '../../../frame/yard.tsx';
import { span } from '../../../show/time.ts';
import { now as texts } from '../../../texts/now.ts';
import type { ReadyTask } from '../now-data.ts';
import { moment, useTick } from '../moments.ts';
import css from '../now.module.css';

/** A working day's worth of window fills the strip. */
const fullMinutes = 8 * 60;
const minuteMs = 60_000;

/** How long a window stays open: from now, `[`, to where it shuts, `]`; and until when to begin. */
export function WindowStrip({
  closes,
  startBy,
  basis = null,
}: {
  readonly closes: ReadyTask['closes'];
  readonly startBy: ReadyTask['startBy'];
  /** In words, where it is not known as it is now. */
  readonly basis?: string | null;
}) {
  const { timeZone } = useYard();
  const now = useTick(15_000);
  if (closes === null) return null;
  const left = (Date.parse(closes.at) - now) / minuteMs;
  if (left <= 0) {
    const shut = basis === null ? texts.window.shut : texts.window.shutBy(basis);
    return <p class={css['shut']}>{shut}</p>;
  }
  const when = moment(closes.at, timeZone, now);
  const share = (minutes: number): string =>
    `${String(Math.round(100 * Math.min(1, Math.max(0, minutes / fullMinutes))))}%`;
  const begin = startBy === null ? null : (Date.parse(startBy.at) - now) / minuteMs;
  return (
    <div class={css['window']}>
      <p class={css['until']}>
        {basis === null ? texts.window.until(when) : texts.window.untilBy(basis, when)}
        <strong class={css['left']}>{texts.window.left(span(left))}</strong>
      </p>
      <div class={css['strip']} role="img" aria-label={texts.window.meter(span(left))}>
        <div class={css['open']} style={{ inlineSize: share(left) }} />
        {begin !== null && begin > 0 && (
          <div class={css['beginBy']} style={{ insetInlineStart: share(begin) }} />
        )}
      </div>
      {startBy !== null && (
        <p class={css['soft']}>
          {texts.window[begin !== null && begin <= 0 ? 'startLate' : 'startBy'](
            moment(startBy.at, timeZone, now),
          )}
        </p>
      )}
    </div>
  );
}
