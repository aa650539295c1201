import { useYard } from '../../frame/yard.tsx';
import { week as texts } from '../../texts/week.ts';
import type { Hours } from './hours.ts';
import type { Piece, View } from './lanes.ts';
import type { Lives } from './lives.ts';
import type { Model, Work } from './model.ts';
import css from './picture.module.css';
import { size } from './size.ts';
import { plankWords, whereWords } from './words.ts';

export interface Drawing {
  readonly model: Model;
  readonly lives: Lives;
  readonly hours: Hours;
  readonly view: View;
}

/** So wide that a word fits. */
const wordPx = 42;

/** A piece of work; the first of a task can be pressed, the others belong to it. */
export function Plank({ piece, drawing }: { readonly piece: Piece; readonly drawing: Drawing }) {
  const { model, lives, hours } = drawing;
  const { timeZone } = useYard();
  const { work } = piece;
  const { task } = work;
  const now = lives.of(task.id)?.value ?? task.now;
  const start = hours.at(piece.from);
  const width = Math.max(5, hours.at(piece.until) - start - 1);
  const looks = {
    class: css['plank'],
    'data-task': task.id,
    'data-state': now.state,
    'data-air': task.air,
    'data-cut': `${piece.cutBefore ? 'b' : ''}${piece.cutAfter ? 'a' : ''}`,
    'data-set': task.fixedStart !== null || task.crewIsSet ? '' : undefined,
    style: {
      insetInlineStart: `${start}px`,
      inlineSize: `${width}px`,
      insetBlockStart: `${size.pad + piece.row * (size.plank + size.rowGap)}px`,
    },
  };
  const face = width < wordPx ? null : <Face work={work} view={drawing.view} state={now.state} />;
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
      type="button"
      tabIndex={-1}
      aria-label={plankWords(work, now, model, timeZone, drawing.view)}
    >
      {face}
    </button>
  );
}

interface FaceProps {
  readonly work: Work;
  readonly view: View;
  readonly state: string;
}

/** What can be read on a plank: the work, and of who, where and on what that its lane does not say. */
const Face = ({ work, view, state }: FaceProps) => (
  <>
    <span class={css['what']}>
      <span class={css['number']} data-number />
      {state === 'done' && <span class={css['check']}>{texts.check} </span>}
      <span class={state === 'done' ? css['struck'] : undefined}>{work.task.name}</span>
    </span>
    <span class={css['where']}>{whereWords(work, view)}</span>
  </>
);
