import { useSignalEffect } from '@preact/signals';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import { useYard } from '../../frame/yard.tsx';
import type { Wish } from '../../placing/try-placement.ts';
import { week as texts } from '../../texts/week.ts';
import { Axis, Ground, isIn } from './axis.tsx';
import type { Day } from './days.ts';
import { DragGhost, useDrag } from './drag.tsx';
import type { Hours } from './hours.ts';
import { Lane, Name } from './lane.tsx';
import type { Lane as LaneOfPicture } from './lanes.ts';
import { litTasks, pointAt } from './lit.ts';
import { pieceAt, moved, standOf } from './moves.ts';
import css from './picture.module.css';
import { type Drawing, plankId } from './plank.tsx';
import { present } from './present.ts';
import { size } from './size.ts';

interface PictureProps {
  readonly drawing: Drawing;
  readonly lanes: readonly LaneOfPicture[];
  readonly days: readonly Day[];
  readonly isStacked: boolean;
  readonly names: number;
  readonly onOpen: (taskId: string, trial?: Wish) => void;
  /** A stretch of days earlier (-1) or later. */
  readonly onTurn: (step: 1 | -1) => void;
}

export function Picture(props: PictureProps) {
  const { drawing, lanes, days, isStacked, names, onOpen } = props;
  const { hours, model } = drawing;
  const { timeZone } = useYard();
  const now = present.value;
  const box = useRef<HTMLDivElement>(null);
  const { wasDragged, ...drag } = useDrag({ box, drawing, names, onOpen });
  useLit(box);
  const stopAt = useStop(box, lanes);
  useStand(box, hours, firstOf(lanes) ?? hours.whole.from);
  const shown = isStacked ? lanes.filter((lane) => !isEmpty(lane)) : lanes;
  const idle = isStacked ? lanes.filter(isEmpty).map(({ name }) => name) : [];
  // Planks follow the state of their task by themselves: lanes are drawn again only with the week.
  const drawn = useMemo(() => {
    const all = shown.map((lane, at) => ({ key: lane.id, lane, drawing, isStacked, at }));
    return (
      <div class={css['lanes']} style={{ '--rows': all.length * (isStacked ? 2 : 1) }}>
        <div class={css['names']}>
          {all.map(({ key, ...lane }) => (
            <Name key={key} {...lane} />
          ))}
        </div>
        <ol class={css['tracks']} aria-label={texts.lanesOf}>
          {all.map(({ key, ...lane }) => (
            <Lane key={key} {...lane} />
          ))}
        </ol>
      </div>
    );
  }, [lanes, drawing, isStacked]);
  return (
    <>
      <p id="picture-help" class="said">
        {texts.pictureHelp}
      </p>
      <div
        ref={box}
        class={css['picture']}
        data-stacked={isStacked}
        role="region"
        aria-label={texts.picture}
        aria-describedby="picture-help"
        tabIndex={0}
        style={{ '--names': `${isStacked ? 0 : names}px` }}
        onKeyDown={(event) => goByKey(event, props)}
        onClick={(event) => {
          const taskId = taskAt(event.target);
          // A key's click counts no presses: no drag ends with it.
          const endsDrag = event.detail > 0 && wasDragged();
          if (taskId !== undefined && !endsDrag) onOpen(taskId);
        }}
        onPointerOver={(event) => {
          pointAt(taskAt(event.target) ?? null);
        }}
        onPointerLeave={() => pointAt(null)}
        onFocusIn={(event) => {
          const taskId = taskAt(event.target);
          if (taskId === undefined) return;
          pointAt(taskId);
          if (event.target instanceof HTMLElement) stopAt(event.target);
        }}
        {...drag}
      >
        <div
          class={css['sheet']}
          data-now={isIn(hours, now)}
          style={{
            inlineSize: `${hours.width + (isStacked ? 0 : names)}px`,
            '--now': `${hours.at(now)}px`,
          }}
        >
          <Axis hours={hours} days={days} zone={timeZone} now={now} />
          {drawn}
          <Ground hours={hours} zone={timeZone} begins={Date.parse(model.picture.planFrom)} />
        </div>
        <DragGhost />
      </div>
      {idle.length > 0 && <p>{texts.idle(idle)}</p>}
    </>
  );
}

const beforePx = 40;

/** When the first work of the days begins. */
function firstOf(lanes: readonly LaneOfPicture[]): number | undefined {
  const firsts = lanes.flatMap(({ pieces }) => pieces.slice(0, 1).map(({ from }) => from));
  return firsts.length === 0 ? undefined : Math.min(...firsts);
}

/**
 * Where not all has room, days open a little before now, others a little before their first work.
 * Drawn anew (nearer, or as somebody's report changes them) they stay where they were left.
 */
function useStand(
  box: { readonly current: HTMLElement | null },
  hours: Hours,
  first: number,
): void {
  const drawn = useRef<Hours>(undefined);
  useEffect(() => {
    const { current: before } = drawn;
    drawn.current = hours;
    const element = box.current;
    if (element === null) return;
    if (before?.whole.from === hours.whole.from && before.whole.until === hours.whole.until) {
      element.scrollLeft = hours.at(before.momentAt(element.scrollLeft));
      return;
    }
    const now = Date.now();
    element.scrollLeft = hours.at(isIn(hours, now) ? now : first) - beforePx;
  }, [hours]);
}

const isEmpty = ({ pieces, films }: LaneOfPicture): boolean => pieces.length + films.length === 0;

const taskAt = (target: EventTarget | null): string | undefined =>
  target instanceof Element
    ? target.closest<HTMLElement>('[data-task]')?.dataset['task']
    : undefined;

/**
 * Of all planks one is on the way of the Tab key: where somebody was last, the first until then.
 * Gives what moves it.
 */
function useStop(
  box: { readonly current: HTMLElement | null },
  lanes: readonly LaneOfPicture[],
): (plank: HTMLElement) => void {
  const stop = useRef<HTMLElement>(null);
  const stopAt = (plank: HTMLElement): void => {
    if (stop.current !== null) stop.current.tabIndex = -1;
    plank.tabIndex = 0;
    stop.current = plank;
  };
  useEffect(() => {
    if (stop.current?.isConnected === true) return;
    const first = box.current?.querySelector<HTMLElement>('button[data-task]') ?? null;
    if (first !== null) stopAt(first);
  }, [lanes]);
  return stopAt;
}

function goByKey(
  event: KeyboardEvent & { readonly currentTarget: HTMLElement },
  { lanes, onTurn }: PictureProps,
): void {
  const { key, currentTarget: box, target } = event;
  if (event.altKey || event.ctrlKey || event.metaKey) return;
  if (key === 'PageUp' || key === 'PageDown') {
    event.preventDefault();
    // The plank goes with its week; whoever turns on stays in the picture.
    box.focus({ preventScroll: true });
    onTurn(key === 'PageUp' ? -1 : 1);
    return;
  }
  if (!(target instanceof HTMLElement) || target === box) return;
  const laneId = target.closest<HTMLElement>('[data-lane]')?.dataset['lane'];
  const stand = standOf(lanes, laneId ?? '', taskAt(target) ?? '');
  const next = stand && moved(lanes, stand, key);
  if (next === null) return;
  event.preventDefault();
  const taskId = pieceAt(lanes, next)?.work.task.id ?? '';
  const plank = document.getElementById(plankId(lanes[next.lane].id, taskId));
  // In this order all is laid out once: the focus changes how it looks, and scrolling has to know.
  plank?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  plank?.focus({ preventScroll: true });
}

/** Lights what the sentences tell; without drawing anything anew. */
function useLit(box: { readonly current: HTMLElement | null }): void {
  useSignalEffect(() => {
    const lit = litTasks.value;
    const element = box.current;
    if (element === null) return;
    for (const old of element.querySelectorAll<HTMLElement>('[data-lit]')) {
      old.removeAttribute('data-lit');
      old.style.removeProperty('--number');
    }
    for (const [taskId, number] of lit) {
      const parts = element.querySelectorAll<HTMLElement>(`[data-task="${CSS.escape(taskId)}"]`);
      for (const part of parts) {
        part.setAttribute('data-lit', '');
        part.style.setProperty('--number', `"${number}"`);
      }
    }
  });
}

export const namesWidth = (room: number): number => (room < 680 ? size.namesNarrow : size.names);
