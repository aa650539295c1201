import type { Stretch } from './stages.ts';
import css from './strip.module.css';

/** When the next may come: ms since the epoch; null: no such end. */
interface Bracket {
  readonly opens: number | null;
  readonly closes: number | null;
}

/** Where a moment (ms) lies, in px. */
export type At = (moment: number) => number;

interface FilmStripProps {
  readonly stretches: readonly Stretch[];
  readonly windows: readonly Bracket[];
  readonly at: At;
  /** What of the film is drawn; moments of `at`. */
  readonly from: number;
  readonly until: number;
  /** Px below the top of what it lies in. */
  readonly top?: number;
  /** Of which task, for whoever points at it. */
  readonly taskId?: string;
}

/**
 * A film as it hardens, under the work that laid it, with a bracket where a window opens and one
 * where it shuts. It is for the eye: the words stand with the task.
 */
export function FilmStrip({
  stretches,
  windows,
  at,
  from,
  until,
  top = 0,
  taskId,
}: FilmStripProps) {
  const start = at(from);
  const within = (moment: number): boolean => moment >= from && moment <= until;
  return (
    <div
      class={css['strip']}
      data-task={taskId}
      data-film
      aria-hidden="true"
      style={{
        marginInlineStart: `${start}px`,
        inlineSize: `${Math.max(2, at(until) - start)}px`,
        marginBlockStart: `${top}px`,
      }}
    >
      {stretches.map((stretch) => {
        const [begin, end] = [Math.max(stretch.from, from), Math.min(stretch.until, until)];
        if (end <= begin) return null;
        return (
          <i
            key={stretch.stage}
            class={css[stretch.stage]}
            data-ends={stretch.until <= until}
            style={{
              marginInlineStart: `${at(begin) - start}px`,
              inlineSize: `${at(end) - at(begin)}px`,
            }}
          />
        );
      })}
      {edgesOf(windows, within).map(([kind, moment]) => (
        <b
          key={`${kind}${moment}`}
          class={css[kind]}
          style={{
            marginInlineStart: `${at(moment) - start - (kind === 'closes' ? bracketPx : 0)}px`,
          }}
        />
      ))}
    </div>
  );
}

const bracketPx = 6;

/** Windows that open or shut at the same moment have one bracket. */
function edgesOf(
  windows: readonly Bracket[],
  within: (moment: number) => boolean,
): (readonly ['opens' | 'closes', number])[] {
  const kinds = ['opens', 'closes'] as const;
  return kinds.flatMap((kind) => {
    const moments = windows.map((one) => one[kind]).filter((moment) => moment !== null);
    return [...new Set(moments)].filter(within).map((moment) => [kind, moment] as const);
  });
}
