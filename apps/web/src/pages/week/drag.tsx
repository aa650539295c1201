import { useEffect, useMemo } from 'preact/hooks';
import { useYard } from '../../frame/yard.tsx';
import { Button } from '../../looks/looks.tsx';
import { dayAndClock } from '../../show/time.ts';
import { common } from '../../texts/common.ts';
import { week as texts } from '../../texts/week.ts';
import { Dragging, type DragProps } from './dragging.ts';
import { ghost, type Verdict } from './ghost.ts';
import css from './picture.module.css';

/** Dragging by mouse or pen; a finger scrolls, and opens the task, where the same can be done. */
export function useDrag(props: DragProps) {
  const { id: yardId, timeZone } = useYard();
  const dragging = useMemo(() => new Dragging(yardId, timeZone), [yardId, timeZone]);
  dragging.props = props;
  useEffect(() => {
    const stop = (event: KeyboardEvent): void => {
      if (event.key === 'Escape') dragging.drop();
    };
    addEventListener('keydown', stop);
    return () => {
      removeEventListener('keydown', stop);
      dragging.drop();
    };
  }, [dragging]);
  return {
    wasDragged: () => dragging.wasDragged,
    onPointerDown: (event: PointerEvent) => dragging.begin(event),
    onPointerMove: (event: PointerEvent) => dragging.move(event),
    onPointerUp: (event: PointerEvent) => void dragging.letGo(event),
    onPointerCancel: () => dragging.cancel(),
  };
}

/** Says beside the pointer where the task would begin, whether it may, and why not. */
export function DragGhost() {
  const { timeZone } = useYard();
  const shown = ghost.value;
  if (shown === null) return null;
  const { verdict } = shown;
  const tone = verdict === null || verdict === 'asking' ? 'plain' : String(verdict.isPossible);
  return (
    <div
      class={css['ghost']}
      data-possible={tone}
      data-held={shown.isHeld}
      role={shown.isHeld ? undefined : 'alert'}
      style={{ insetInlineStart: `${shown.left}px`, insetBlockStart: `${shown.top}px` }}
    >
      <strong>{texts.dragTo(dayAndClock(shown.start, timeZone))}</strong>
      {shown.who !== '' && <span>{texts.dragWith(shown.who)}</span>}
      {verdict === 'asking' && <span>{texts.dragAsking}</span>}
      {verdict !== null && verdict !== 'asking' && <Answer verdict={verdict} />}
      {!shown.isHeld && verdict !== 'asking' && (
        <div>
          <Button
            onPress={() => {
              ghost.value = null;
            }}
          >
            {common.close}
          </Button>
        </div>
      )}
    </div>
  );
}

const Answer = ({ verdict: { isPossible, words } }: { readonly verdict: Verdict }) =>
  isPossible ? (
    <span>{texts.dragFits}</span>
  ) : (
    <>
      <span>{texts.dragNot}</span>
      <ul>
        {words.map((one) => (
          <li key={one}>{one}</li>
        ))}
      </ul>
    </>
  );
