import { useYard } from '../../frame/yard.tsx';
import { Panel, Table } from '../../looks/looks.tsx';
import { clock, day } from '../../show/time.ts';
import { week as texts } from '../../texts/week.ts';
import { lagOf } from './holding.ts';
import type { Lane, Piece } from './lanes.ts';
import type { Drawing } from './plank.tsx';
import { present } from './present.ts';
import css from './week.module.css';
import { filmWords, stateWords, windowWords } from './words.ts';

interface TablesProps {
  readonly lanes: readonly Lane[];
  readonly drawing: Pick<Drawing, 'model' | 'lives'>;
  readonly onOpen: (taskId: string) => void;
}

/** The same days in words: a table for each lane that has work in them. */
export const Tables = ({ lanes, drawing, onOpen }: TablesProps) => (
  <>
    {lanes
      .filter(({ pieces }) => pieces.length > 0)
      .map((lane) => (
        <Panel key={lane.id} title={lane.name}>
          <Table caption={texts.tableOf(lane.name)}>
            <thead>
              <tr>
                {columns.map((column) => (
                  <th key={column} scope="col">
                    {column}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {lane.pieces.map((piece) => (
                <Row
                  key={`${piece.work.task.id} ${piece.from}`}
                  piece={piece}
                  drawing={drawing}
                  onOpen={onOpen}
                />
              ))}
            </tbody>
          </Table>
        </Panel>
      ))}
  </>
);

const columns = [
  texts.day,
  texts.from,
  texts.until,
  texts.task,
  texts.part,
  texts.space,
  texts.who,
  texts.airOf,
  texts.film,
  texts.stateOf,
];

function Row({
  piece: { work, from, until },
  drawing: { model, lives },
  onOpen,
}: Omit<TablesProps, 'lanes'> & { readonly piece: Piece }) {
  const { timeZone } = useYard();
  const { task } = work;
  const now = lives.of(task.id)?.value ?? task.now;
  const lag = lagOf(work, now, model.picture, present.value);
  const film = [...filmWords(work, timeZone), ...windowWords(work, timeZone)];
  return (
    <tr>
      <td>{day(from, timeZone)}</td>
      <td>{clock(from, timeZone)}</td>
      <td>{clock(until, timeZone)}</td>
      <th scope="row">
        <button type="button" class="opens" data-task={task.id} onClick={() => onOpen(task.id)}>
          {task.name}
        </button>
      </th>
      <td>{texts.of(task.part, work.boat)}</td>
      <td>{work.space}</td>
      <td>{work.crew.join(', ')}</td>
      <td>{texts.air[task.air]}</td>
      <td>
        {film.map((one) => (
          <div key={one}>{one}</div>
        ))}
        {task.warnings.map((one) => (
          <div key={one}>{one}</div>
        ))}
      </td>
      <td>
        {stateWords(now, model.personName)}
        {lag !== null && <div class={css['warning']}>{texts.lagWords[lag]}</div>}
      </td>
    </tr>
  );
}
