import { Button, Dialog } from '../../../looks/looks.tsx';
import { now as texts } from '../../../texts/now.ts';
import { MixSheet } from '../mix/mix-sheet.tsx';
import css from '../now.module.css';
import type { Acting } from './acting.ts';
import { Cautions } from './cautions.tsx';
import type { Mine } from './mine.ts';
import { Needed } from './needed.tsx';
import { Place } from './place.tsx';
import { WindowStrip } from './window-strip.tsx';

/** All about a task that is ready, before it is taken. */
export function Know({
  mine,
  acting,
  onClose,
}: {
  readonly mine: Mine;
  readonly acting: Acting;
  readonly onClose: () => void;
}) {
  const { taskId, name, ready, briefing } = mine;
  const then = (does: () => Promise<unknown>) => () => {
    onClose();
    void does();
  };
  return (
    <Dialog title={name} onClose={onClose}>
      <Place mine={mine} />
      {ready !== null && <WindowStrip closes={ready.closes} startBy={ready.startBy} />}
      <Needed mine={mine} />
      {briefing !== null && (
        <>
          <Cautions warnings={briefing.warnings} cautions={briefing.cautions} />
          <MixSheet taskId={taskId} briefing={briefing} isInHand={false} />
        </>
      )}
      <div class={css['presses']}>
        <Button kind="do" wide onPress={then(() => acting.take(mine, true))}>
          {texts.do.claimAndStart}
        </Button>
        <Button wide onPress={then(() => acting.take(mine, false))}>
          {texts.do.claim}
        </Button>
      </div>
    </Dialog>
  );
}
