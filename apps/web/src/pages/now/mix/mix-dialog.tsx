import { Dialog } from '../../../looks/looks.tsx';
import { now as texts } from '../../../texts/now.ts';
import type { Briefing } from '../now-data.ts';
import { Cautions } from '../work/cautions.tsx';
import { MixSheet } from './mix-sheet.tsx';

/** The mix sheet of work in hand; the cautions stand under it as they do under the work. */
export const MixDialog = ({
  taskId,
  name,
  briefing,
  onClose,
}: {
  readonly taskId: string;
  readonly name: string;
  readonly briefing: Briefing;
  readonly onClose: () => void;
}) => (
  <Dialog title={texts.mix.of(name)} onClose={onClose}>
    <Cautions warnings={briefing.warnings} cautions={[]} />
    <MixSheet taskId={taskId} briefing={briefing} isInHand />
    <Cautions warnings={[]} cautions={briefing.cautions} />
  </Dialog>
);
