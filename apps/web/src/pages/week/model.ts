import type { Schema } from '../../api/client.ts';
import { type Stretch, stagesOf } from '../../film/stages.ts';
import { isDuring, type Span } from './spans.ts';

export type Picture = Schema<'PlanPicture'>;
export type PictureTask = Schema<'PictureTask'>;
export type Boat = Schema<'PictureBoat'>;

export interface Opening {
  readonly toTask: string;
  readonly toName: string;
  readonly kind: string;
  readonly opens: number | null;
  readonly closes: number | null;
  /** When what waits for it is planned. */
  readonly starts: number;
}

/** A task as it is drawn; moments in ms. */
export interface Work extends Span {
  readonly task: PictureTask;
  readonly boat: string;
  readonly space: string;
  /** Names. */
  readonly crew: readonly string[];
  readonly spans: readonly Span[];
  readonly stretches: readonly Stretch[];
  /** From its laying until it matters to nobody; null: it lays none. */
  readonly film: Span | null;
  readonly windows: readonly Opening[];
}

export interface Model {
  readonly picture: Picture;
  readonly whole: Span;
  readonly works: readonly Work[];
  readonly byId: ReadonlyMap<string, Work>;
  readonly personName: (id: string) => string;
  readonly spaceName: (id: string) => string;
}

/** Whether its days are those in which the yard works to it; they have what is left from before too. */
export const isOfNow = ({ picture, whole }: Model, moment: number): boolean =>
  picture.isPublished && isDuring(whole, moment);

const ms = (moment: string): number => Date.parse(moment);
const msOrNull = (moment: string | null): number | null => (moment === null ? null : ms(moment));

export function modelOf(picture: Picture): Model {
  const people = new Map(picture.people.map(({ id, name }) => [id, name]));
  const spaces = new Map(picture.spaces.map(({ id, name }) => [id, name]));
  const boats = new Map(picture.boats.map(({ refitId, boat }) => [refitId, boat]));
  const personName = (id: string): string => people.get(id) ?? id;
  const spaceName = (id: string): string => spaces.get(id) ?? id;
  const works = picture.tasks.map((task): Work => {
    const until = ms(task.finish);
    return {
      task,
      boat: boats.get(task.refitId) ?? task.refitId,
      space: spaceName(task.spaceId),
      crew: task.crew.map(personName),
      from: ms(task.start),
      until,
      spans: task.segments.map((span) => ({ from: ms(span.from), until: ms(span.until) })),
      stretches: task.film.length === 0 ? [] : stagesOf(until, task.film),
      film: task.filmUntil === null ? null : { from: until, until: ms(task.filmUntil) },
      windows: task.windows.map(({ toTask, toName, kind, opens, closes, starts }) => ({
        toTask,
        toName,
        kind,
        opens: msOrNull(opens),
        closes: msOrNull(closes),
        starts: ms(starts),
      })),
    };
  });
  return {
    picture,
    whole: { from: ms(picture.begins), until: ms(picture.ends) },
    works,
    byId: new Map(works.map((work) => [work.task.id, work])),
    personName,
    spaceName,
  };
}
