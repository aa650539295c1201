import { useState } from 'preact/hooks';
import { type Problem, problemOf } from '../../../api/problem.ts';
import { Button, Dialog, ProblemNotice, Row } from '../../../looks/looks.tsx';
import { common } from '../../../texts/common.ts';
import { setUp as texts } from '../../../texts/set-up.ts';

/** Asks, removes, and says why where something still needs it. */
export function Removing({
  name,
  remove,
  onRemoved,
}: {
  readonly name: string;
  readonly remove: () => Promise<unknown>;
  readonly onRemoved: () => void;
}) {
  const [isAsking, setAsking] = useState(false);
  return (
    <>
      <Button kind="harm" label={texts.record.removeThis(name)} onPress={() => setAsking(true)}>
        {common.remove}
      </Button>
      {isAsking && (
        <Asking
          title={texts.record.removing(name)}
          warning={texts.record.removeWarning}
          doIt={common.remove}
          act={remove}
          onDone={onRemoved}
          onClose={() => setAsking(false)}
        />
      )}
    </>
  );
}

/** What cannot be taken back is asked for once more. */
export function Asking({
  title,
  warning,
  doIt,
  act,
  onDone,
  onClose,
}: {
  readonly title: string;
  readonly warning: string;
  readonly doIt: string;
  readonly act: () => Promise<unknown>;
  readonly onDone: () => void;
  readonly onClose: () => void;
}) {
  const [problem, setProblem] = useState<Problem>();
  const [isBusy, setBusy] = useState(false);
  const go = (): void => {
    setBusy(true);
    setProblem(undefined);
    act().then(onDone, (error: unknown) => {
      setProblem(problemOf(error));
      setBusy(false);
    });
  };
  return (
    <Dialog title={title} onClose={onClose}>
      <p>{warning}</p>
      <ProblemNotice problem={problem} />
      <Row>
        <Button kind="harm" isBusy={isBusy} onPress={go}>
          {doIt}
        </Button>
        <Button onPress={onClose}>{common.cancel}</Button>
      </Row>
    </Dialog>
  );
}
