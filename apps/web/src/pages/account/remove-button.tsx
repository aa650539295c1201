import { useForm } from '../../form/form.ts';
import { Button, ProblemNotice } from '../../looks/looks.tsx';
import { common } from '../../texts/common.ts';

/** Takes one off a list; `label` says which to those who listen. */
export function RemoveButton({
  label,
  words = common.remove,
  remove,
}: {
  readonly label: string;
  readonly words?: string;
  readonly remove: () => Promise<unknown>;
}) {
  const form = useForm({}, remove);
  return (
    <div>
      <Button label={label} isBusy={form.isBusy} onPress={form.submit}>
        {words}
      </Button>
      <ProblemNotice problem={form.problem} />
    </div>
  );
}
