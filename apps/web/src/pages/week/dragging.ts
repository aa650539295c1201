import { problemOf } from '../../api/problem.ts';
import { tryPlacement, type Wish } from '../../placing/try-placement.ts';
import { dayAndClock } from '../../show/time.ts';
import { common } from '../../texts/common.ts';
import { week as texts } from '../../texts/week.ts';
import { ghost, type Verdict } from './ghost.ts';
import { nobody } from './lanes.ts';
import type { Work } from './model.ts';
import type { Drawing } from './plank.tsx';

/** The foreman's hand goes by quarters of an hour. */
const stepMs = 15 * 60_000;
/** A hand that trembles drags nothing. */
const leastPx = 6;
/** Asked where the hand rests. */
const restMs = 180;

export interface DragProps {
  readonly box: { readonly current: HTMLElement | null };
  readonly drawing: Drawing;
  readonly names: number;
  readonly onOpen: (taskId: string, trial?: Wish) => void;
}

interface Held {
  readonly work: Work;
  readonly laneId: string;
  /** Px from its beginning to where it was taken hold of. */
  readonly grabbed: number;
  readonly x: number;
  readonly y: number;
  readonly pointer: number;
}

/** So wide is what hangs on the pointer at most. */
const ghostPx = 300;
/** So near an edge of the picture it goes on under the hand, so fast a frame. */
const edgePx = 32;
const pacePx = 12;

/** A plank in the hand: where it would begin and with whom, and what the service says of that. */
export class Dragging {
  props: DragProps | undefined;
  /** The press that just ended moved something, and opens nothing. */
  wasDragged = false;
  readonly #yardId: string;
  readonly #zone: string;
  #held: Held | undefined;
  #asking: AbortController | undefined;
  #asked: Promise<Verdict> | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #frame = 0;

  constructor(yardId: string, zone: string) {
    this.#yardId = yardId;
    this.#zone = zone;
  }

  begin(event: PointerEvent): void {
    this.wasDragged = false;
    if (event.pointerType === 'touch' || event.button !== 0 || this.props === undefined) return;
    const { target } = event;
    const plank =
      target instanceof Element
        ? target.closest<HTMLElement>('[data-task]:not([data-film])')
        : null;
    const work = this.props.drawing.model.byId.get(plank?.dataset['task'] ?? '');
    if (work === undefined) return;
    const { hours } = this.props.drawing;
    this.#held = {
      work,
      laneId: laneOf(plank),
      grabbed: this.#pxOf(event) - hours.at(work.from),
      x: event.clientX,
      y: event.clientY,
      pointer: event.pointerId,
    };
  }

  move(event: PointerEvent): void {
    const held = this.#held;
    if (held === undefined || this.props === undefined) return;
    const far = Math.hypot(event.clientX - held.x, event.clientY - held.y);
    if (!this.wasDragged && far < leastPx) return;
    if (!this.wasDragged) {
      this.wasDragged = true;
      this.props.box.current?.setPointerCapture(held.pointer);
    }
    this.#goOn(event);
    const { drawing, box } = this.props;
    const moment = drawing.hours.momentAt(this.#pxOf(event) - held.grabbed);
    const start = Math.round(moment / stepMs) * stepMs;
    const { crew, who } = crewAt(event, held, drawing);
    const before = ghost.peek();
    const frame = box.current?.getBoundingClientRect();
    const [x, y] = [event.clientX - (frame?.left ?? 0), event.clientY - (frame?.top ?? 0)];
    const most = Math.max(0, (frame?.width ?? 0) - ghostPx);
    const place = {
      left: Math.min(x + 12, most) + (box.current?.scrollLeft ?? 0),
      top: y + 12 + (box.current?.scrollTop ?? 0),
    };
    const isSame = before?.start === start && before.crew.join() === crew.join();
    if (before !== null && isSame) {
      ghost.value = { ...before, ...place };
      return;
    }
    const taskId = held.work.task.id;
    ghost.value = { taskId, ...place, start, crew, who, isHeld: true, verdict: null };
    this.#askSoon(held.work, start, crew);
  }

  /** What is dropped where it fits is opened to be set; else the reason stays at the spot. */
  async letGo(event: PointerEvent): Promise<void> {
    cancelAnimationFrame(this.#frame);
    const held = this.#held;
    this.#held = undefined;
    // The press ends with a click, which comes after this; also one that Escape took the plank from.
    setTimeout(() => {
      this.wasDragged = false;
    });
    if (held === undefined || !this.wasDragged) return;
    event.preventDefault();
    const shown = ghost.peek();
    if (shown === null) return;
    ghost.value = { ...shown, isHeld: false, verdict: shown.verdict ?? 'asking' };
    clearTimeout(this.#timer);
    const verdict = await (this.#asked ?? this.#ask(held.work, shown.start, shown.crew));
    const now = ghost.peek();
    if (now?.start !== shown.start || now.isHeld) return;
    if (!verdict.isPossible) {
      ghost.value = { ...now, verdict };
      return;
    }
    ghost.value = null;
    const start = new Date(shown.start).toISOString();
    const isOthers = shown.crew.join() !== held.work.task.crew.join();
    this.props?.onOpen(held.work.task.id, isOthers ? { start, crew: shown.crew } : { start });
  }

  /** The press was taken away, and no click ends it. */
  cancel(): void {
    this.drop();
    this.wasDragged = false;
  }

  drop(): void {
    cancelAnimationFrame(this.#frame);
    this.#held = undefined;
    this.#asking?.abort();
    this.#asked = undefined;
    clearTimeout(this.#timer);
    ghost.value = null;
  }

  #pxOf({ clientX }: PointerEvent): number {
    const box = this.props?.box.current;
    const left = box?.getBoundingClientRect().left ?? 0;
    return clientX - left + (box?.scrollLeft ?? 0) - this.#namesPx();
  }

  /** What names of lanes take beside them. */
  #namesPx(): number {
    const isStacked = this.props?.box.current?.dataset['stacked'] === 'true';
    return isStacked ? 0 : (this.props?.names ?? 0);
  }

  /** Held at an edge, what lies beyond it comes. */
  #goOn(event: PointerEvent): void {
    cancelAnimationFrame(this.#frame);
    const box = this.props?.box.current;
    if (box === null || box === undefined) return;
    const { left, right, top, bottom } = box.getBoundingClientRect();
    const byX = paceAt(event.clientX, left + this.#namesPx(), right);
    const byY = paceAt(event.clientY, top, bottom);
    if (byX === 0 && byY === 0) return;
    this.#frame = requestAnimationFrame(() => {
      const { scrollLeft, scrollTop } = box;
      box.scrollBy(byX, byY);
      if (box.scrollLeft !== scrollLeft || box.scrollTop !== scrollTop) this.move(event);
    });
  }

  #askSoon(work: Work, start: number, crew: readonly string[]): void {
    this.#asking?.abort();
    this.#asked = undefined;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      this.#asked = this.#ask(work, start, crew);
    }, restMs);
  }

  async #ask(work: Work, start: number, crew: readonly string[]): Promise<Verdict> {
    const { drawing } = this.props ?? {};
    const { task } = work;
    const state = drawing?.lives.of(task.id)?.peek().state ?? task.now.state;
    if (!['waiting', 'claimed', 'paused'].includes(state)) {
      return this.#say({ isPossible: false, words: [texts.dragBegun] }, start);
    }
    this.#asking = new AbortController();
    const { signal: stop } = this.#asking;
    const current = ghost.peek();
    if (current !== null) ghost.value = { ...current, verdict: 'asking' };
    const planId = drawing?.model.picture.planId ?? '';
    const isOthers = crew.join() !== task.crew.join();
    const place = {
      start: new Date(start).toISOString(),
      ...(isOthers ? { crew: [...crew] } : {}),
    };
    try {
      const tried = await tryPlacement(this.#yardId, planId, task.id, place, stop);
      const next =
        tried.next === null ? [] : [texts.dragNext(dayAndClock(tried.next.at, this.#zone))];
      const words = [...tried.against.map((one) => one.words), ...next];
      return this.#say({ isPossible: tried.isPossible, words }, start);
    } catch (error) {
      const { isUnreachable, message } = problemOf(error);
      const words = [isUnreachable ? common.unreachable : message];
      return this.#say({ isPossible: false, words }, start, stop);
    }
  }

  /** Of where the pointer still is. */
  #say(verdict: Verdict, start: number, stop?: AbortSignal): Verdict {
    const current = ghost.peek();
    if (current?.start === start && stop?.aborted !== true) ghost.value = { ...current, verdict };
    return verdict;
  }
}

const paceAt = (at: number, from: number, until: number): number =>
  at < from + edgePx ? -pacePx : at > until - edgePx ? pacePx : 0;

/** Dropped on another person's lane it is theirs instead of whose lane it came from. */
function crewAt(
  { clientX, clientY }: PointerEvent,
  { work: { task }, laneId: from }: Held,
  { model, view }: Drawing,
): { readonly crew: readonly string[]; readonly who: string } {
  const to = laneOf(document.elementFromPoint(clientX, clientY));
  const isOther = view === 'people' && to !== nobody && !task.crew.includes(to);
  const crew = isOther ? task.crew.map((id) => (id === from ? to : id)) : task.crew;
  return { crew, who: crew.map(model.personName).join(', ') };
}

const laneOf = (element: Element | null): string =>
  element?.closest<HTMLElement>('[data-lane]')?.dataset['lane'] ?? nobody;
