import type { Boat, Model, Work } from './model.ts';
import { between, rowsOf, type Span, within } from './spans.ts';

export const views = ['people', 'spaces', 'boats'] as const;
export type View = (typeof views)[number];

/** A stretch of work between breaks; cut where it is continued, as planks are scarfed together. */
export interface Piece extends Span {
  readonly work: Work;
  readonly row: number;
  readonly cutBefore: boolean;
  readonly cutAfter: boolean;
  /** The piece that stands for the task to whoever goes by keyboard. */
  readonly isFirst: boolean;
}

interface LaidFilm extends Span {
  readonly work: Work;
  readonly row: number;
}

/** Dust from elsewhere is in the air. */
interface Dust extends Span {
  readonly source: string;
}

export interface Lane {
  readonly id: string;
  readonly name: string;
  /** How many people it has room for, where it is a space. */
  readonly room: number | null;
  readonly boat: Boat | null;
  readonly pieces: readonly Piece[];
  readonly rows: number;
  readonly films: readonly LaidFilm[];
  readonly filmRows: number;
  /** Not at work while others are. */
  readonly off: readonly Span[];
  readonly dust: readonly Dust[];
}

interface Group {
  readonly id: string;
  readonly name: string;
  readonly works: readonly Work[];
  /** Whose film is drawn here. */
  readonly films: readonly Work[];
}

/** What lanes are cut from. */
interface Cut {
  readonly whole: Span;
  readonly worked: readonly Span[];
  /** The name of the lane of what nobody is set to. */
  readonly nobodysName: string;
  /** Until when what lies there takes room: a short plank is drawn longer than it lasts. */
  readonly drawnUntil?: (span: Span) => number;
}

function laneOf(
  { id, name, works, films }: Group,
  { whole, drawnUntil = ({ until }) => until }: Cut,
  more: Partial<Pick<Lane, 'room' | 'boat' | 'off' | 'dust'>> = {},
): Lane {
  const shown = works.filter(({ from, until }) => from < whole.until && until > whole.from);
  const rows = rowsOf(shown.map((work) => ({ from: work.from, until: drawnUntil(work) })));
  const laid = films.flatMap((work) => {
    const seen = work.film === null ? [] : within([work.film], whole);
    return seen.map((span) => ({ work, ...span }));
  });
  const filmRows = rowsOf(laid, 30 * 60_000);
  return {
    id,
    name,
    room: null,
    boat: null,
    off: [],
    dust: [],
    ...more,
    pieces: shown
      .flatMap((work, k) => piecesOf(work, rows[k], whole))
      .sort((a, b) => a.from - b.from),
    rows: Math.max(1, ...rows.map((row) => row + 1)),
    films: laid.map((film, k) => ({ ...film, row: filmRows[k] })),
    filmRows: Math.max(0, ...filmRows.map((row) => row + 1)),
  };
}

function piecesOf(work: Work, row: number, whole: Span): Piece[] {
  const last = work.spans.length - 1;
  const pieces = work.spans.flatMap((span, k) => {
    const part = within([span], whole).at(0);
    // Work that takes no time (somebody's word) is a mark.
    const isMoment = span.from === span.until && span.from >= whole.from && span.from < whole.until;
    if (part === undefined && !isMoment) return [];
    const { from, until } = part ?? span;
    return [
      {
        work,
        row,
        from,
        until,
        cutBefore: k > 0 || from > span.from,
        cutAfter: k < last || until < span.until,
      },
    ];
  });
  return pieces.map((piece, k) => ({ ...piece, isFirst: k === 0 }));
}

/** Not worth a mark: everybody pauses. */
const breakMs = 75 * 60_000;

/** The lane of what nobody is set to: bookings, and what waits for somebody's word. */
export const nobody = '';

export function lanesOf(model: Model, view: View, cut: Cut): Lane[] {
  if (view === 'people') return peopleLanes(model, cut);
  return view === 'spaces' ? spaceLanes(model, cut) : boatLanes(model, cut);
}

function peopleLanes({ picture, works }: Model, cut: Cut): Lane[] {
  const { whole, worked, nobodysName } = cut;
  const lanes = picture.people.map(({ id, name, hours }) => {
    const own = works.filter(({ task }) => task.crew.includes(id));
    // A film is laid by a crew, and drawn once: under the first of it.
    const films = own.filter(({ task }) => task.crew[0] === id);
    const shifts = hours.map(({ from, until }) => ({
      from: Date.parse(from),
      until: Date.parse(until),
    }));
    const free = between(shifts, whole);
    const off = worked
      .flatMap((span) => within(free, span))
      .filter(({ from, until }) => until - from >= breakMs);
    return laneOf({ id, name, works: own, films }, cut, { off });
  });
  const none = works.filter(({ task }) => task.crew.length === 0);
  const last = laneOf({ id: nobody, name: nobodysName, works: none, films: none }, cut);
  return last.pieces.length + last.films.length === 0 ? lanes : [...lanes, last];
}

function spaceLanes({ picture, works, spaceName }: Model, cut: Cut): Lane[] {
  const bySpace = Map.groupBy(works, ({ task }) => task.spaceId);
  return picture.spaces.map(({ id, name, room }) => {
    const own = bySpace.get(id) ?? [];
    const sources = picture.spaces.filter((one) => one.id !== id && one.dustReaches.includes(id));
    const dust = sources.flatMap((source) =>
      (bySpace.get(source.id) ?? [])
        .filter(({ task }) => task.air === 'dusty')
        .flatMap(({ spans }) =>
          within(spans, cut.whole).map((span) => ({ ...span, source: spaceName(source.id) })),
        ),
    );
    return laneOf({ id, name, works: own, films: own }, cut, { room, dust });
  });
}

function boatLanes({ picture, works }: Model, cut: Cut): Lane[] {
  const byRefit = Map.groupBy(works, ({ task }) => task.refitId);
  const promised = (boat: Boat): number => Date.parse(boat.promised ?? boat.finish);
  return [...picture.boats]
    .sort((a, b) => promised(a) - promised(b))
    .map((boat) => {
      const own = byRefit.get(boat.refitId) ?? [];
      return laneOf({ id: boat.refitId, name: boat.boat, works: own, films: own }, cut, { boat });
    });
}
