import type { ComponentChildren } from 'preact';
import type { Form } from '../../../form/form.ts';
import { Button, Dialog, Notice, ProblemNotice, Row, Stack } from '../../../looks/looks.tsx';
import { common } from '../../../texts/common.ts';

/** A form in a window of its own, sent as a whole; what was typed stays where it is refused. */
export function FormDialog<V extends object>({
  title,
  form,
  meanwhile,
  doIt = common.save,
  onClose,
  children,
}: {
  readonly title: string;
  readonly form: Form<V>;
  /** What somebody else has changed, where that is known. */
  readonly meanwhile?: string | undefined;
  readonly doIt?: string;
  readonly onClose: () => void;
  readonly children: ComponentChildren;
}) {
  const isStale = form.problem?.status === 412;
  return (
    <Dialog title={title} onClose={onClose}>
      <form onSubmit={form.submit}>
        <Stack>
          {children}
          {isStale ? (
            <Notice tone="heed" isNews>
              <p>{common.changedMeanwhile}</p>
              {meanwhile !== undefined && <p>{meanwhile}</p>}
            </Notice>
          ) : (
            <ProblemNotice problem={form.problem} />
          )}
          <Row>
            <Button kind="do" type="submit" isBusy={form.isBusy}>
              {doIt}
            </Button>
            <Button onPress={onClose}>{common.cancel}</Button>
          </Row>
        </Stack>
      </form>
    </Dialog>
  );
}
