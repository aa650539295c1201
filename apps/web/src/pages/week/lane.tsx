import { FilmStrip } from '../../film/strip.tsx';
import { useYard } from '../../frame/yard.tsx';
import { day, span } from '../../show/time.ts';
import { week as texts } from '../../texts/week.ts';
import type { Hours } from './hours.ts';
import type { Lane as LaneOfPicture } from './lanes.ts';
import type { Boat, Model } from './model.ts';
import css from './picture.module.css';
import { type Drawing, Plank } from './plank.tsx';
import { aboveOf, blockSizeOf, size, workSizeOf } from './size.ts';

interface LaneProps {
  readonly lane: LaneOfPicture;
  readonly drawing: Drawing;
  readonly isStacked: boolean;
}

export function Lane({ lane, drawing, isStacked }: LaneProps) {
  const { model, hours } = drawing;
  const filmsFrom = size.pad + lane.rows * (size.plank + size.rowGap);
  const id = `lane-${lane.id}`;
  return (
    <li
      class={css['lane']}
      data-lane={lane.id}
      aria-labelledby={id}
      style={{ minBlockSize: `${blockSizeOf(lane, isStacked)}px` }}
    >
      <div
        class={css['name']}
        style={
          isStacked
            ? { minBlockSize: `${aboveOf(lane.boat !== null || lane.room !== null)}px` }
            : {}
        }
      >
        <strong id={id}>{lane.name}</strong>
        <About lane={lane} model={model} />
      </div>
      <div
        class={css['track']}
        style={{ inlineSize: `${hours.width}px`, minBlockSize: `${workSizeOf(lane)}px` }}
      >
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
        {lane.pieces.map((piece) => (
          <Plank key={`${piece.work.task.id} ${piece.from}`} piece={piece} drawing={drawing} />
        ))}
      </div>
    </li>
  );
}

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
