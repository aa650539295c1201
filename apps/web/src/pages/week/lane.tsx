import { FilmStrip } from '../../film/strip.tsx';
import { useYard } from '../../frame/yard.tsx';
import { day, span } from '../../show/time.ts';
import { week as texts } from '../../texts/week.ts';
import { bundlesOf } from './bundles.ts';
import type { Hours } from './hours.ts';
import type { Lane as LaneOfPicture, Piece } from './lanes.ts';
import type { Boat, Model } from './model.ts';
import css from './picture.module.css';
import { type Drawing, Plank } from './plank.tsx';
import { aboveOf, blockSizeOf, size, workSizeOf } from './size.ts';

interface LaneProps {
  readonly lane: LaneOfPicture;
  readonly drawing: Drawing;
  readonly isStacked: boolean;
  /** Its place among the lanes. */
  readonly at: number;
}

const nameId = ({ id }: LaneOfPicture): string => `lane-${id}`;

/**
 * Whose a lane is, and what else is to be known of it. All names stand in one column, which stays in
 * sight while hours pass: one for each lane would be a layer each, made anew with every frame.
 */
export const Name = ({ lane, drawing, isStacked, at }: LaneProps) => (
  <div
    class={css['name']}
    data-lane={lane.id}
    style={{
      gridRow: isStacked ? 2 * at + 1 : at + 1,
      ...(isStacked
        ? { minBlockSize: `${aboveOf(lane.boat !== null || lane.room !== null)}px` }
        : {}),
    }}
  >
    <strong id={nameId(lane)}>{lane.name}</strong>
    <About lane={lane} model={drawing.model} />
  </div>
);

export function Lane({ lane, drawing, isStacked, at }: LaneProps) {
  const { hours } = drawing;
  const filmsFrom = size.pad + lane.rows * (size.plank + size.rowGap);
  const least = isStacked ? workSizeOf(lane) : blockSizeOf(lane);
  return (
    <li
      class={css['lane']}
      data-lane={lane.id}
      aria-labelledby={nameId(lane)}
      style={{ gridRow: isStacked ? 2 * at + 2 : at + 1, minBlockSize: `${least}px` }}
    >
      <div class={css['track']} style={{ inlineSize: `${hours.width}px` }}>
        {lane.off.map((off) => (
          <i key={off.from} class={css['off']} style={placed(hours, off.from, off.until)} />
        ))}
        {lane.dust.map((dust) => (
          <i
            key={`${dust.source}${dust.from}`}
            class={css['dust']}
            title={texts.dustFrom(dust.source)}
            style={placed(hours, dust.from, dust.until)}
          />
        ))}
        {lane.boat !== null && <Marks boat={lane.boat} hours={hours} />}
        {lane.films.map((film) => (
          <FilmStrip
            key={film.work.task.id}
            taskId={film.work.task.id}
            stretches={film.work.stretches}
            windows={film.work.windows}
            at={hours.at}
            from={film.from}
            until={film.until}
            top={filmsFrom + film.row * size.film}
          />
        ))}
        {bundlesOf(lane.pieces, hours).map((bundle) => (
          <div
            key={keyOf(bundle.pieces[0].piece)}
            class={css['bundle']}
            style={{
              marginInlineStart: `${bundle.start}px`,
              inlineSize: `${bundle.width}px`,
              blockSize: `${filmsFrom}px`,
            }}
          >
            {bundle.pieces.map(({ piece, place }) => (
              <Plank
                key={keyOf(piece)}
                piece={piece}
                laneId={lane.id}
                left={place.start - bundle.start}
                width={place.width}
                drawing={drawing}
              />
            ))}
          </div>
        ))}
      </div>
    </li>
  );
}

const keyOf = ({ work, from }: Piece): string => `${work.task.id} ${from}`;

const placed = (hours: Hours, from: number, until: number) => ({
  insetInlineStart: `${hours.at(from)}px`,
  inlineSize: `${hours.at(until) - hours.at(from)}px`,
});

/** What else is to be known of a lane; a boat's chance to keep its promise will stand here too. */
function About({ lane, model }: { readonly lane: LaneOfPicture; readonly model: Model }) {
  const { timeZone } = useYard();
  const { boat, room } = lane;
  if (boat !== null) {
    return (
      <>
        <span>
          {boat.promised === null ? texts.noPromise : texts.promised(day(boat.promised, timeZone))}
        </span>
        <span>{texts.finish(day(boat.finish, timeZone))}</span>
        <span data-late={boat.lateMinutes > 0}>{lateness(boat)}</span>
      </>
    );
  }
  if (room === null) return null;
  const reaches = model.picture.spaces
    .find(({ id }) => id === lane.id)
    ?.dustReaches.filter((id) => id !== lane.id)
    .map(model.spaceName);
  return (
    <>
      <span>{texts.room(room)}</span>
      {reaches !== undefined && reaches.length > 0 && <span>{texts.dustReaches(reaches)}</span>}
    </>
  );
}

const lateness = ({ promised, lateMinutes }: Boat): string => {
  if (promised === null) return '';
  return lateMinutes > 0 ? texts.lateBy(span(lateMinutes)) : texts.inTime;
};

/** Where a boat's promise and its planned finish lie, if they do in these days. */
const Marks = ({ boat, hours }: { readonly boat: Boat; readonly hours: Hours }) => {
  const marks = [
    ['promised', boat.promised, texts.promisedHere],
    ['finish', boat.finish, texts.finishHere],
  ] as const;
  return (
    <>
      {marks.map(([kind, at, words]) => {
        const moment = at === null ? NaN : Date.parse(at);
        if (!(moment >= hours.whole.from && moment <= hours.whole.until)) return null;
        return (
          <i
            key={kind}
            class={css['mark']}
            data-mark={kind}
            style={{ insetInlineStart: `${hours.at(moment)}px` }}
          >
            <span>{words}</span>
          </i>
        );
      })}
    </>
  );
};
