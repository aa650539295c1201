import { useComputed } from '@preact/signals';
import { useYard } from '../../frame/yard.tsx';
import { week as texts } from '../../texts/week.ts';
import { type Lag, lagOf } from './holding.ts';
import type { Hours } from './hours.ts';
import type { Piece, View } from './lanes.ts';
import type { Lives } from './lives.ts';
import type { Model, Work } from './model.ts';
import css from './picture.module.css';
import { present } from './present.ts';
import { size } from './size.ts';
import { plankWords, whereWords } from './words.ts';

export interface Drawing {
  readonly model: Model;
  readonly lives: Lives;
  readonly hours: Hours;
  readonly view: View;
}

/** A task has a plank in each lane of its crew. */
export const plankId = (laneId: string, taskId: string): string => `plank ${laneId} ${taskId}`;

interface PlankProps {
  readonly piece: Piece;
  /** Px, in its bundle. */
  readonly left: number;
  readonly width: number;
  readonly drawing: Drawing;
  /** Of the lane that it lies in. */
  readonly laneId: string;
}

/** A piece of work; the first of a task can be pressed, the others belong to it. */
export function Plank({ piece, laneId, left, width, drawing }: PlankProps) {
  const { model, lives } = drawing;
  const { timeZone } = useYard();
  const { work } = piece;
  const { task } = work;
  const now = lives.of(task.id)?.value ?? task.now;
  // Drawn again when it falls behind, not with every minute.
  const { value: lag } = useComputed(() =>
    lagOf(work, lives.of(task.id)?.value ?? task.now, model.picture, present.value),
  );
  const isNarrow = width < size.word;
  const looks = {
    class: css['plank'],
    'data-task': task.id,
    'data-state': now.state,
    'data-air': task.air,
    'data-cut': `${piece.cutBefore ? 'b' : ''}${piece.cutAfter ? 'a' : ''}`,
    'data-late': lag === null ? undefined : '',
    'data-narrow': isNarrow ? '' : undefined,
    'data-set': task.fixedStart !== null || task.crewIsSet ? '' : undefined,
    style: {
      marginInlineStart: `${left}px`,
      inlineSize: `${width}px`,
      marginBlockStart: `${size.pad + piece.row * (size.plank + size.rowGap)}px`,
    },
  };
  const marks = { isDone: now.state === 'done', lag };
  const face = isNarrow ? (
    <NarrowFace {...marks} />
  ) : (
    <Face {...marks} work={work} view={drawing.view} />
  );
  if (!piece.isFirst) {
    return (
      <span {...looks} aria-hidden="true">
        {face}
      </span>
    );
  }
  return (
    <button
      {...looks}
      id={plankId(laneId, task.id)}
      type="button"
      tabIndex={-1}
      aria-label={plankWords(work, { now, lag }, model, timeZone, drawing.view)}
    >
      {face}
    </button>
  );
}

interface Marks {
  readonly isDone: boolean;
  readonly lag: Lag | null;
}

interface FaceProps extends Marks {
  readonly work: Work;
  readonly view: View;
}

/** What can be read on a plank: the work, and of who, where and on what that its lane does not say. */
const Face = ({ work, view, isDone, lag }: FaceProps) => (
  <span class={css['face']}>
    <b class={css['what']}>
      {isDone && <span class={css['check']}>{texts.check}</span>}
      {lag !== null && <span class={css['lag']}>{texts.lag}</span>} {work.task.name}
    </b>
    <br />
    {whereWords(work, view)}
  </span>
);

/** Where no word has room: what is done has a tick, what is late a sign. */
const NarrowFace = ({ isDone, lag }: Marks) => (
  <span class={css['face']}>
    {isDone && <span class={css['check']}>{texts.checkSign}</span>}
    {lag !== null && <span class={css['lag']}>{texts.lagSign}</span>}
  </span>
);
