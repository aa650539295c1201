import { useState } from 'preact/hooks';
import { api, asked, type Schema } from '../api/client.ts';
import { everyPage, useResource } from '../api/resource.ts';
import { ChoiceField } from '../form/fields.tsx';
import { useYard } from '../frame/yard.tsx';
import { Busy, Button, ProblemNotice } from '../looks/looks.tsx';
import { common } from '../texts/common.ts';
import { placing as texts } from '../texts/placing.ts';
import css from './placing.module.css';

const nameOf = ({ name, part, boat }: Pick<Schema<'Task'>, 'name' | 'part' | 'boat'>): string =>
  texts.taskOf(name, part, boat);

/** Tasks that have to be done before this one, beyond what its procedure asks for. */
export function Order({
  task,
  after,
  onAfter,
}: {
  readonly task: Schema<'Task'>;
  readonly after: readonly string[];
  readonly onAfter: (after: readonly string[]) => void;
}) {
  const { id: yardId } = useYard();
  const [isAdding, setAdding] = useState(false);
  const tasks = useResource(isAdding || after.length > 0 ? 'tasks for order' : null, (signal) =>
    everyPage((cursor) =>
      asked(
        api.GET('/api/v1/yards/{yardId}/tasks', {
          params: {
            path: { yardId },
            query: { first: 200, ...(cursor === undefined ? {} : { after: cursor }) },
          },
          signal,
        }),
      ),
    ),
  );
  const known = tasks.data ?? [];
  const options = known
    .filter(({ id, state }) => id !== task.id && state !== 'done' && !after.includes(id))
    // Orders are mostly among the tasks of one boat.
    .sort((a, b) => Number(b.boat === task.boat) - Number(a.boat === task.boat))
    .map((one) => ({ value: one.id, label: nameOf(one) }));
  const labelOf = (id: string): string => {
    const found = known.find((one) => one.id === id);
    return found === undefined ? id : nameOf(found);
  };
  return (
    <fieldset class={css['box']}>
      <legend class={css['legend']}>{texts.order}</legend>
      <p class={css['soft']}>{texts.orderHint}</p>
      {after.length > 0 && (
        <ul class={css['order']}>
          {after.map((id) => (
            <li key={id}>
              {labelOf(id)}
              <Button
                kind="quiet"
                label={texts.takeOut(labelOf(id))}
                onPress={() => onAfter(after.filter((one) => one !== id))}
              >
                {common.remove}
              </Button>
            </li>
          ))}
        </ul>
      )}
      <ProblemNotice problem={tasks.problem} again={tasks.again} />
      {!isAdding && (
        <div>
          <Button onPress={() => setAdding(true)}>{texts.addOrder}</Button>
        </div>
      )}
      {isAdding && tasks.data === undefined && tasks.problem === undefined && <Busy />}
      {isAdding && tasks.data !== undefined && (
        <ChoiceField
          label={texts.addOrder}
          value=""
          onValue={(id) => {
            if (id !== '') onAfter([...after, id]);
          }}
          options={[{ value: '', label: texts.noTask }, ...options]}
        />
      )}
    </fieldset>
  );
}
