import { useMemo, useRef, useState } from 'preact/hooks';
import { addDays } from '#calendar/local-date.ts';
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
import { closenessOf } from './closeness.ts';
import { type Day, daysOf } from './days.ts';
import { Holds } from './holds.tsx';
import { hoursOf, shownUntil, workedHours } from './hours.ts';
import { lanesOf } from './lanes.ts';
import { Legend } from './legend.tsx';
import { useLives } from './lives.ts';
import type { Model, Picture as Drawn } from './model.ts';
import { namesWidth, Picture } from './picture.tsx';
import { usePresent } from './present.ts';
import { narrow, size } from './size.ts';
import { isDuring, within } from './spans.ts';
import { Tables } from './table.tsx';
import { Tools } from './tools.tsx';
import { useWay } from './way.ts';
import { useWidth } from '../../looks/use-width.ts';
import css from './week.module.css';

interface ShownProps {
  readonly model: Model;
  readonly shown: Address;
  readonly show: (change: Partial<Address>) => void;
  /** Other days are asked for: they are on their way, or could not be read. */
  readonly other: 'coming' | 'unread' | undefined;
}

/** What the panel was opened with; it keeps to its plan, whatever is published meanwhile. */
interface Opened {
  readonly planId: string;
  readonly taskId: string;
  readonly trial?: Wish;
}

/** A plan's days: whether they hold, how they look, and why the boats take as long as they do. */
export function Shown({ model, shown, show, other }: ShownProps) {
  const { id: yardId, timeZone } = useYard();
  const { picture } = model;
  const main = useRef<HTMLDivElement>(null);
  const width = useWidth(main);
  const isStacked = width > 0 && width < narrow;
  const lives = useLives(picture, yardId);
  const days = useMemo(() => daysOf(picture, timeZone), [picture, timeZone]);
  const [date, setDate] = useState<string>();
  const [opened, setOpened] = useState<Opened>();
  usePresent();

  const worked = useMemo(() => workedHours(picture, model.whole), [model]);
  const lastDay = useRef<Day>(undefined);
  const wanted = dayShown(
    days,
    date,
    worked.map(({ from }) => dateIn(from, timeZone)),
  );
  // A day of other weeks comes with them.
  const isComing = other !== undefined && days.every((one) => one.date !== date);
  const day = (isComing ? lastDay.current : undefined) ?? wanted;
  lastDay.current = day;
  const whole = isStacked && !shown.asTable ? day : model.whole;
  const names = namesWidth(width);
  const room = width - (isStacked ? 4 : names + 20);
  const { hours, closer } = useMemo(() => {
    const inWhole = within(worked, whole);
    const far = hoursOf(inWhole, whole, { room });
    const near = shown.closer ?? closenessOf(model.works, whole, far);
    return {
      closer: near,
      hours: near === 1 ? far : hoursOf(inWhole, whole, { room, closer: near }),
    };
  }, [model, worked, whole, room, shown.closer]);
  const drawing = useMemo(
    () => ({ model, lives, hours, view: shown.by }),
    [model, lives, hours, shown.by],
  );
  const lanes = useMemo(
    () =>
      lanesOf(model, shown.by, {
        whole,
        worked: within(worked, whole),
        nobodysName: texts.nobody,
        drawnUntil: (span) => shownUntil(hours, span, size.leastPlank),
      }),
    [model, shown.by, whole, worked, hours],
  );

  const { go, leave, isStray } = useWay({
    main,
    days,
    drawn: lanes,
    zone: timeZone,
    onDay: (to, from) => {
      setDate(to);
      if (from !== undefined) show({ from });
    },
  });
  const turn = (step: 1 | -1): void => {
    leave();
    if (!isStacked) {
      const stand = other === 'unread' ? picture.from : (shown.from ?? picture.from);
      show({ from: addDays(stand, 7 * step) });
      return;
    }
    const next = addDays(day.date, step);
    setDate(next);
    if (days.every((one) => one.date !== next)) show({ from: addDays(picture.from, 7 * step) });
    else if (other !== undefined) show({ from: picture.from });
  };
  const onOpen = (taskId: string, trial?: Wish): void => {
    const { planId } = picture;
    setOpened(trial === undefined ? { planId, taskId } : { planId, taskId, trial });
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
      <Holds model={model} lives={lives} onOpen={onOpen} />
      <Attention />
      <Tools
        shown={shown}
        show={show}
        closer={closer}
        isStacked={isStacked}
        onTurn={turn}
        onNow={() => {
          leave();
          setDate(undefined);
        }}
      />
      <div class={css['beside']} data-by={isDrawn ? 'picture' : 'table'}>
        <div class={css['main']} ref={main} aria-busy={other === 'coming'}>
          {worked.length === 0 && <p>{texts.emptyWeek}</p>}
          {Date.parse(picture.planFrom) > whole.from && (
            <p class={css['hint']}>{texts.begins(dayAndClock(picture.planFrom, timeZone))}</p>
          )}
          {shown.asTable && <Tables lanes={lanes} drawing={drawing} onOpen={onOpen} />}
          {isDrawn && width > 0 && (
            <>
              <Picture
                drawing={drawing}
                lanes={lanes}
                days={isStacked ? [day] : days}
                isStacked={isStacked}
                names={names}
                onOpen={onOpen}
                onTurn={turn}
              />
              <Caption model={model} lives={lives} />
              <Legend />
            </>
          )}
        </div>
        <Chain boats={picture.boats} onGo={go} isStray={isStray} />
      </div>
      {isStacked && <Ways picture={picture} />}
      {opened !== undefined && <TaskPanel {...opened} onClose={() => setOpened(undefined)} />}
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
    days.find((one) => isDuring(one, now)) ??
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
