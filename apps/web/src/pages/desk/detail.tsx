import type { ComponentChildren } from 'preact';
import type { Resource } from '../../api/resource.ts';
import { useTitle } from '../../frame/title.ts';
import { useYard } from '../../frame/yard.tsx';
import { Busy, Notice, ProblemNotice, Stack } from '../../looks/looks.tsx';
import { desk as texts } from '../../texts/desk.ts';
import css from './desk.module.css';

/** One thing that waits, with the way back to all of them. */
export function Detail<T>({
  kind,
  title,
  read,
  children,
}: {
  readonly kind: keyof typeof texts.kinds;
  readonly title: (data: T) => string;
  /** `data` null: it does not wait any more. */
  readonly read: Pick<Resource<T | null>, 'data' | 'problem' | 'again'>;
  readonly children: (data: T) => ComponentChildren;
}) {
  const { id: yardId } = useYard();
  const { data, problem, again } = read;
  const name = data === undefined || data === null ? texts.kinds[kind] : title(data);
  useTitle(name);
  return (
    <Stack>
      <p>
        <a class={css['back']} href={`/yards/${yardId}/desk`}>
          {texts.toDesk}
        </a>
      </p>
      <div>
        <p class={css['kind']}>{texts.kinds[kind]}</p>
        <h1>{name}</h1>
      </div>
      <ProblemNotice problem={problem} again={again} />
      {data === undefined && problem === undefined && <Busy />}
      {data === null && (
        <Notice title={texts.gone}>
          <p>{texts.goneCure}</p>
        </Notice>
      )}
      {data !== undefined && data !== null && children(data)}
    </Stack>
  );
}

/** A name beside what it is, one below the other. */
export const Facts = ({
  rows,
}: {
  readonly rows: readonly (readonly [name: string, what: ComponentChildren])[];
}) => (
  <dl class={css['facts']}>
    {rows.map(([name, what]) => (
      <div key={name}>
        <dt>{name}</dt>
        <dd>{what}</dd>
      </div>
    ))}
  </dl>
);
