import { clock, dayOfDate, localIn } from '../../show/time.ts';
import { week as texts } from '../../texts/week.ts';
import type { Day } from './days.ts';
import { type Hours, ticksOf } from './hours.ts';
import css from './picture.module.css';
import { within } from './spans.ts';

interface AxisProps {
  readonly hours: Hours;
  readonly days: readonly Day[];
  readonly zone: string;
  readonly now: number;
}

const minuteIn =
  (zone: string) =>
  (moment: number): number => {
    const [hour, minute] = localIn(moment, zone).slice(11).split(':').map(Number);
    return hour * 60 + minute;
  };

/** Days and hours over the lanes; nights say how long they are, since they are not drawn so. */
export const Axis = ({ hours, days, zone, now }: AxisProps) => (
  <div class={css['axis']} aria-hidden="true">
    <div class={css['corner']} />
    <div class={css['hours']} style={{ inlineSize: `${hours.width}px` }}>
      {days.map((day) => {
        const worked = within(hours.worked, day);
        if (worked.length === 0) return null;
        const left = hours.at(worked[0].from);
        const width = hours.at(worked[worked.length - 1].until) - left;
        return (
          <span
            key={day.date}
            class={css['day']}
            style={{ insetInlineStart: `${left}px`, inlineSize: `${width}px` }}
          >
            <span class={css['dayName']}>{dayOfDate(day.date)}</span>
          </span>
        );
      })}
      {ticksOf(hours, minuteIn(zone)).map(({ moment, left }) => (
        <span key={moment} class={css['tick']} style={{ insetInlineStart: `${left}px` }}>
          {clock(moment, zone)}
        </span>
      ))}
      {hours.rests.map((rest) => (
        <span
          key={rest.from}
          class={css['restName']}
          style={{ insetInlineStart: `${rest.left}px`, inlineSize: `${rest.width}px` }}
        >
          {texts.restShort(Math.round((rest.until - rest.from) / 3_600_000))}
        </span>
      ))}
      {isIn(hours, now) && (
        <span
          class={css['nowName']}
          style={{ insetInlineStart: `${Math.min(hours.at(now), hours.width - nowNamePx)}px` }}
        >
          {texts.nowAt(clock(now, zone))}
        </span>
      )}
    </div>
  </div>
);

/** What its words take: they stand inside at the end of the week too. */
const nowNamePx = 80;

/** Whether a moment is among those that are drawn. */
export const isIn = ({ whole }: Hours, moment: number): boolean =>
  moment >= whole.from && moment <= whole.until;

type GroundProps = Pick<AxisProps, 'hours' | 'zone'> & {
  /** When the plan does; it knows nothing of what was before. */
  readonly begins: number;
};

/** What is the same for all lanes: nights, hours, and what lies before the plan. */
export const Ground = ({ hours, zone, begins }: GroundProps) => (
  <div class={css['ground']} aria-hidden="true" style={{ inlineSize: `${hours.width}px` }}>
    {begins > hours.whole.from && (
      <i class={css['before']} style={{ inlineSize: `${hours.at(begins)}px` }} />
    )}
    {ticksOf(hours, minuteIn(zone)).map(({ moment, left }) => (
      <i key={moment} class={css['line']} style={{ insetInlineStart: `${left}px` }} />
    ))}
    {hours.rests.map((rest) => (
      <i
        key={rest.from}
        class={css['night']}
        style={{ insetInlineStart: `${rest.left}px`, inlineSize: `${rest.width}px` }}
      />
    ))}
  </div>
);
