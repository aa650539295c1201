import { Button, Dialog } from '../../../looks/looks.tsx';
import { now as texts } from '../../../texts/now.ts';
import { MixSheet } from '../mix/mix-sheet.tsx';
import css from '../now.module.css';
import type { Acting } from './acting.ts';
import type { Calm } from './calm.ts';
import { Cautions } from './cautions.tsx';
import type { Mine } from './mine.ts';
import { Needed, Notes } from './needed.tsx';
import { Place } from './place.tsx';
import { WindowStrip } from './window-strip.tsx';

/** All about a task that is ready, before it is taken. */
export function Know({
  mine,
  acting,
  calm,
  onClose,
}: {
  readonly mine: Mine;
  readonly acting: Acting;
  readonly calm: Calm;
  readonly onClose: () => void;
}) {
  const { taskId, name, ready, briefing } = mine;
  const take = (isBegun: boolean) => () =>
    calm.once(() => {
      onClose();
      void acting.take(mine, isBegun);
    });
  return (
    <Dialog title={name} onClose={onClose}>
      <Place mine={mine} />
      {ready !== null && <WindowStrip closes={ready.closes} startBy={ready.startBy} />}
      <Notes of={ready} />
      <Needed mine={mine} />
      {briefing !== null && (
        <>
          <Cautions warnings={briefing.warnings} cautions={briefing.cautions} />
          <MixSheet taskId={taskId} briefing={briefing} isInHand={false} />
        </>
      )}
      <div class={css['presses']}>
        <Button kind="do" wide isBusy={!calm.isCalm} onPress={take(true)}>
          {texts.do.claimAndStart}
        </Button>
        <Button wide isBusy={!calm.isCalm} onPress={take(false)}>
          {texts.do.claim}
        </Button>
      </div>
    </Dialog>
  );
}
