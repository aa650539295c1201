import { useState } from 'preact/hooks';
import { Button, Dialog } from '../../../looks/looks.tsx';
import { common } from '../../../texts/common.ts';
import { boats as texts } from '../../../texts/boats.ts';
import { Asking } from '../record/removing.tsx';

/** Removes something, or says what hangs on it and has to go first. */
export function Removing({
  name,
  keptBy,
  warning = texts.goodbye,
  remove,
  onRemoved,
}: {
  readonly name: string;
  /** Why it cannot go yet, in words; null: nothing keeps it. */
  readonly keptBy: string | null;
  readonly warning?: string;
  readonly remove: () => Promise<unknown>;
  readonly onRemoved: () => void;
}) {
  const [isOpen, setOpen] = useState(false);
  const close = (): void => setOpen(false);
  return (
    <>
      <Button kind="harm" label={texts.remove(name)} onPress={() => setOpen(true)}>
        {common.remove}
      </Button>
      {isOpen &&
        (keptBy === null ? (
          <Asking
            title={texts.removing(name)}
            warning={warning}
            doIt={common.remove}
            act={remove}
            onDone={() => {
              close();
              onRemoved();
            }}
            onClose={close}
          />
        ) : (
          <Dialog title={texts.goesFirst} onClose={close}>
            <p>{keptBy}</p>
          </Dialog>
        ))}
    </>
  );
}
