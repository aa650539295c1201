import type { Schema } from '../../../api/client.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Notice } from '../../../looks/looks.tsx';
import { units } from '../../../session/session.ts';
import { span } from '../../../show/time.ts';
import { money, number, quantity } from '../../../show/units.ts';
import { common } from '../../../texts/common.ts';
import { procedures } from '../../../texts/procedures.ts';
import css from './procedures.module.css';

type Preview = Schema<'ProcedurePreview'>;
type Task = Preview['tasks'][number];

const texts = procedures.preview;

/** What a procedure makes: each task with its work, what it mixes and what it waits for. */
export function PreviewTasks({ preview }: { readonly preview: Preview }) {
  const { currency } = useYard();
  const { tasks, choices, leastMinutes, mostMinutes, price } = preview;
  const wayWords = (way: Task['way']): string | null => {
    const branch = choices
      .find(({ id }) => id === way?.choice)
      ?.branches.find(({ id }) => id === way?.branch);
    return branch === undefined ? null : texts.only(branch.name);
  };
  return (
    <div class={css['preview']}>
      <p role="status">
        <strong>{texts.work(span(leastMinutes), span(mostMinutes))}</strong>
        {`, ${texts.tasks(tasks.length)}`}
        {price > 0 && `, ${texts.price(money(price, currency))}`}
      </p>
      {choices.map((choice) => (
        <div key={choice.id}>
          <strong>{texts.wayOf(choice.name)}</strong>
          <ul class={css['ways']}>
            {choice.branches.map((branch) => (
              <li key={branch.id}>
                {branch.workMinutes === 0
                  ? texts.wayNothing(branch.name)
                  : texts.wayWork(branch.name, span(branch.workMinutes))}
              </li>
            ))}
          </ul>
        </div>
      ))}
      <ol class={css['tasks']} aria-label={texts.list}>
        {tasks.map((task) => (
          <li
            key={task.stepId}
            class={css['task']}
            data-air={task.air}
            data-way={task.way !== null}
          >
            <TaskWords task={task} way={wayWords(task.way)} wayWords={wayWords} />
          </li>
        ))}
      </ol>
    </div>
  );
}

function TaskWords({
  task,
  way,
  wayWords,
}: {
  readonly task: Task;
  readonly way: string | null;
  readonly wayWords: (way: Task['way']) => string | null;
}) {
  const { currency } = useYard();
  const waits = task.waits.map((wait) => ({ ...wait, only: wayWords(wait.way) }));
  return (
    <>
      <div class={css['head']}>
        <strong>
          <bdi>{task.name}</bdi>
        </strong>
        <span class={css['air']}>{common.air[task.air]}</span>
        {way !== null && <span class={css['way']}>{way}</span>}
      </div>
      <p>{task.isHoldPoint ? texts.holdPoint : texts.all(workOf(task))}</p>
      {mixOf(task).map((words) => (
        <p key={words}>{words}</p>
      ))}
      {task.lacks !== null && <Notice tone="heed">{task.lacks}</Notice>}
      <p class={css['soft']}>
        {texts.all([
          ...thingsOf(task),
          ...(task.price > 0 ? [texts.price(money(task.price, currency))] : []),
        ])}
      </p>
      {waits.length === 0 ? (
        <p class={css['soft']}>{texts.starts}</p>
      ) : (
        <ul class={css['waits']} aria-label={texts.waits}>
          {waits.map(({ stepId, words, only }) => (
            <li key={`${stepId} ${words}`}>
              {words}
              {only !== null && <span class={css['way']}>{only}</span>}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

function workOf(task: Task): string[] {
  const { workMinutes, floorMinutes, cleanDownMinutes, crewMin, crewMax, skill, minLevel } = task;
  return [
    texts.minutes(span(workMinutes)),
    texts.crew(crewMin, crewMax, skill ?? ''),
    ...(minLevel > 1 ? [texts.level(minLevel)] : []),
    ...(floorMinutes > 0 ? [texts.atLeast(span(floorMinutes))] : []),
    ...(cleanDownMinutes > 0 ? [texts.cleanDown(span(cleanDownMinutes))] : []),
  ];
}

function mixOf({ material, mix, oneBatch }: Task): string[] {
  if (material === null) return [];
  if (mix === null) return [texts.lays(material)];
  const mine = units.value;
  return [
    texts.all([
      texts.mixes(quantity('mass', mix.mixGrams, mine), material),
      ...(mix.filmMm === null ? [] : [texts.film(number(mix.filmMm))]),
      ...(oneBatch ? [texts.oneBatch] : []),
      ...mix.fabrics.map(({ name, squareMetres }) =>
        texts.fabric(name, quantity('area', squareMetres, mine)),
      ),
    ]),
  ];
}

/** Preparations with their grit, where it is done, with what, and what it takes. */
function thingsOf(task: Task): string[] {
  const preparations = task.prepares.map(({ kind, grit, passes }) =>
    [
      procedures.preparation[kind],
      ...(grit === null ? [] : [procedures.grit(grit)]),
      ...(passes > 1 ? [procedures.passes(passes)] : []),
    ].join(' '),
  );
  const goes =
    task.movesTo === null
      ? []
      : [task.movesTo === task.space ? texts.turns : texts.moves(task.movesTo)];
  return [
    ...preparations,
    ...(task.space === null ? [] : [texts.where(task.space)]),
    ...task.tools.map(({ name, count }) => texts.tool(count, name)),
    ...task.consumes.map(({ name, amount, unit }) => texts.uses(number(amount), unit, name)),
    ...goes,
  ];
}
