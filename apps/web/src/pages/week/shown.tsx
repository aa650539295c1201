import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { addDays, weekStart } from '#calendar/local-date.ts';
import { useYard } from '../../frame/yard.tsx';
import { ButtonLink, Notice, Row, Stack } from '../../looks/looks.tsx';
import { TaskPanel } from '../../placing/task-panel.tsx';
import type { Wish } from '../../placing/try-placement.ts';
import { dateIn, dayAndClock, dayOfDate } from '../../show/time.ts';
import { week as texts } from '../../texts/week.ts';
import type { Shown as Address } from './address.ts';
import { Attention } from './attention.tsx';
import { Caption } from './caption.tsx';
import { Chain } from './chain.tsx';
import { type Day, daysOf } from './days.ts';
import { Holds } from './holds.tsx';
import { hoursOf, workedHours } from './hours.ts';
import { lanesOf } from './lanes.ts';
import { Legend } from './legend.tsx';
import { useLives } from './lives.ts';
import type { Model, Picture as Drawn } from './model.ts';
import { namesWidth, Picture } from './picture.tsx';
import { narrow } from './size.ts';
import { within } from './spans.ts';
import { Tables } from './table.tsx';
import { Tools } from './tools.tsx';
import { useWidth } from '../../looks/use-width.ts';
import css from './week.module.css';

interface ShownProps {
  readonly model: Model;
  readonly shown: Address;
  readonly show: (change: Partial<Address>) => void;
}

/** A plan's days: whether they hold, how they look, and why the boats take as long as they do. */
export function Shown({ model, shown, show }: ShownProps) {
  const { id: yardId, timeZone } = useYard();
  const { picture } = model;
  const main = useRef<HTMLDivElement>(null);
  const width = useWidth(main);
  const isStacked = width > 0 && width < narrow;
  const lives = useLives(picture, yardId);
  const days = useMemo(() => daysOf(picture, timeZone), [picture, timeZone]);
  const [date, setDate] = useState<string>();
  const [open, setOpen] = useState<{ readonly taskId: string; readonly trial?: Wish }>();

  const worked = useMemo(() => workedHours(picture, model.whole), [model]);
  const day = dayShown(
    days,
    date,
    worked.map(({ from }) => dateIn(from, timeZone)),
  );
  const whole = isStacked && !shown.asTable ? day : model.whole;
  const names = namesWidth(width);
  const room = width - (isStacked ? 4 : names + 20);
  const drawing = useMemo(() => {
    const hours = hoursOf(within(worked, whole), whole, { room, closer: shown.closer });
    return { model, lives, hours, view: shown.by };
  }, [model, lives, worked, whole, room, shown.closer, shown.by]);
  const lanes = useMemo(
    () => lanesOf(model, shown.by, whole, within(worked, whole), texts.nobody),
    [model, shown.by, whole, worked],
  );

  const turn = (step: 1 | -1): void => {
    if (!isStacked) {
      show({ from: addDays(picture.from, 7 * step) });
      return;
    }
    const next = addDays(day.date, step);
    setDate(next);
    if (days.every((one) => one.date !== next)) show({ from: addDays(picture.from, 7 * step) });
  };

  // A sentence leads to its plank, in whichever week that is.
  const goal = useRef<string>(undefined);
  const reach = (): void => {
    const { current: taskId } = goal;
    const plank = main.current?.querySelector<HTMLElement>(
      `button[data-task="${CSS.escape(taskId ?? '')}"]`,
    );
    if (taskId === undefined || plank === null || plank === undefined) return;
    goal.current = undefined;
    plank.focus();
    plank.scrollIntoView({ block: 'center', inline: 'center' });
  };
  useEffect(reach, [lanes]);
  const go = (moment: string, taskId: string): void => {
    goal.current = taskId;
    const to = dateIn(moment, timeZone);
    setDate(to);
    if (days.every((one) => one.date !== to)) show({ from: weekStart(to) });
    else requestAnimationFrame(reach);
  };

  const isDrawn = !shown.asTable && worked.length > 0;
  return (
    <Stack>
      <Row apart>
        <h1>
          {isStacked
            ? dayOfDate(day.date)
            : texts.titleFrom(dayOfDate(picture.from), dayOfDate(addDays(picture.from, 6)))}
        </h1>
        {!isStacked && <Ways picture={picture} />}
      </Row>
      {!picture.isPublished && <Draft planId={picture.planId} />}
      <Holds model={model} lives={lives} />
      <Attention />
      <Tools
        shown={shown}
        show={show}
        isStacked={isStacked}
        onTurn={turn}
        onNow={() => setDate(undefined)}
      />
      <div class={css['beside']} data-by={isDrawn ? 'picture' : 'table'}>
        <div class={css['main']} ref={main}>
          {worked.length === 0 && <p>{texts.emptyWeek}</p>}
          {Date.parse(picture.planFrom) > whole.from && (
            <p class={css['hint']}>{texts.begins(dayAndClock(picture.planFrom, timeZone))}</p>
          )}
          {shown.asTable && (
            <Tables lanes={lanes} drawing={drawing} onOpen={(taskId) => setOpen({ taskId })} />
          )}
          {isDrawn && width > 0 && (
            <>
              <Picture
                drawing={drawing}
                lanes={lanes}
                days={isStacked ? [day] : days}
                isStacked={isStacked}
                names={names}
                onOpen={(taskId, trial) =>
                  setOpen(trial === undefined ? { taskId } : { taskId, trial })
                }
                onTurn={turn}
              />
              <Caption model={model} lives={lives} />
              <Legend />
            </>
          )}
        </div>
        <Chain boats={picture.boats} onGo={go} />
      </div>
      {isStacked && <Ways picture={picture} />}
      {open !== undefined && (
        <TaskPanel {...open} planId={picture.planId} onClose={() => setOpen(undefined)} />
      )}
    </Stack>
  );
}

/** Where the foreman goes from here. */
function Ways({ picture: { planId, from } }: { readonly picture: Drawn }) {
  const { id: yardId } = useYard();
  return (
    <Row>
      <ButtonLink to={`/yards/${yardId}/desk`}>{texts.desk}</ButtonLink>
      <ButtonLink to={`/yards/${yardId}/plans/${planId}/sheet?from=${from}`}>
        {texts.print}
      </ButtonLink>
    </Row>
  );
}

/** The day that is wanted; else today, or the first on which anybody works. */
function dayShown(days: readonly Day[], date: string | undefined, worked: readonly string[]): Day {
  const now = Date.now();
  return (
    days.find((one) => one.date === date) ??
    days.find(({ from, until }) => from <= now && now < until) ??
    days.find((one) => worked.includes(one.date)) ??
    days[0]
  );
}

function Draft({ planId }: { readonly planId: string }) {
  const { id: yardId } = useYard();
  return (
    <Notice tone="heed" title={texts.notPublished}>
      <Row>
        <ButtonLink to={`/yards/${yardId}/plans/${planId}/against`}>{texts.compare}</ButtonLink>
        <ButtonLink to={`/yards/${yardId}/week`}>{texts.toPublished}</ButtonLink>
      </Row>
    </Notice>
  );
}
