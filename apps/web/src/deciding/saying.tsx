import type { ComponentChildren } from 'preact';
import { TextField } from '../form/fields.tsx';
import { useForm } from '../form/form.ts';
import { Button, Dialog, ProblemNotice, Row } from '../looks/looks.tsx';
import { common } from '../texts/common.ts';

/** Asks once more, with a few words of why; what was typed stays where it is refused. */
export function Saying({
  title,
  label,
  field = 'note',
  hint,
  required = false,
  doIt,
  kind = 'do',
  act,
  onDone,
  onClose,
  children,
}: {
  readonly title: string;
  readonly label: string;
  /** Where the service has the words: what it says of them stands at the field. */
  readonly field?: string;
  readonly hint?: string | undefined;
  readonly required?: boolean;
  readonly doIt: string;
  readonly kind?: 'do' | 'harm';
  readonly act: (note: string) => Promise<unknown>;
  readonly onDone: () => void;
  readonly onClose: () => void;
  readonly children?: ComponentChildren;
}) {
  const form = useForm({ note: '' }, async ({ note }) => {
    await act(note.trim());
    onDone();
  });
  return (
    <Dialog title={title} onClose={onClose}>
      <form onSubmit={form.submit}>
        {children}
        <TextField
          label={label}
          value={form.values.note}
          onValue={(note) => form.set('note', note)}
          fault={form.faultAt(field)}
          hint={hint}
          isOptional={!required}
          required={required}
          lines={3}
          maxLength={1000}
        />
        <ProblemNotice problem={form.problem} />
        <Row>
          <Button kind={kind} type="submit" isBusy={form.isBusy}>
            {doIt}
          </Button>
          <Button onPress={onClose}>{common.cancel}</Button>
        </Row>
      </form>
    </Dialog>
  );
}
