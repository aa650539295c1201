import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { api, asked, type Schema } from '../../../api/client.ts';
import { useResource } from '../../../api/resource.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Busy, Button, Notice, Panel, ProblemNotice } from '../../../looks/looks.tsx';
import { number } from '../../../show/units.ts';
import { office } from '../../../texts/set-up-office.ts';
import { RoomPage } from '../page.tsx';
import css from '../set-up.module.css';
import { ApplyDialog, type Proposal } from './apply-dialog.tsx';

const texts = office.productivity;
type Productivity = Schema<'Productivity'>;

/** How long work really takes, and what to plan with. */
export default function ProductivityRoom() {
  const { id: yardId } = useYard();
  const [chosen, setChosen] = useState<Proposal>();
  const [said, setSaid] = useState<string>();
  const { data, problem, again } = useResource(`productivity ${yardId}`, (signal) =>
    asked(api.GET('/api/v1/yards/{yardId}/productivity', { params: { path: { yardId } }, signal })),
  );
  return (
    <RoomPage room="productivity" isNarrow={false}>
      <p class={css['soft']}>{texts.lead}</p>
      <ProblemNotice problem={problem} again={again} />
      {data === undefined && problem === undefined && <Busy />}
      <div role="status">{said !== undefined && <Notice tone="well">{said}</Notice>}</div>
      {data !== undefined && <Found data={data} onChoose={setChosen} />}
      {chosen !== undefined && (
        <ApplyDialog
          proposal={chosen}
          onClose={() => setChosen(undefined)}
          onApplied={(words) => {
            setChosen(undefined);
            setSaid(words);
            again();
          }}
        />
      )}
    </RoomPage>
  );
}

function Found({
  data,
  onChoose,
}: {
  readonly data: Productivity;
  readonly onChoose: (proposal: Proposal) => void;
}) {
  const { yard, steps, people, spaces, setAside, leftOut, method } = data;
  return (
    <>
      <Panel title={texts.yard}>
        {yard === null ? (
          <p>{texts.nothing}</p>
        ) : (
          <p>
            {texts.times(number(yard.factor))}; {texts.between(number(yard.low), number(yard.high))}
            {' · '}
            {texts.tasks(yard.tasks)}
          </p>
        )}
      </Panel>
      <Estimates
        title={texts.steps}
        onChoose={onChoose}
        proposals={steps.map((step) => ({
          ...step,
          key: `${step.procedureId} ${step.stepId}`,
          what: texts.stepOf(step.step, step.procedure),
          change: { kind: 'step', procedureId: step.procedureId, stepId: step.stepId },
        }))}
      />
      <Estimates
        title={texts.people}
        onChoose={onChoose}
        proposals={people.map((one) => ({
          ...one,
          key: `${one.personId} ${one.skillId}`,
          what: texts.at(one.person, one.skill),
          now: one.speed,
          then: one.speedThen,
          change: { kind: 'person', personId: one.personId, skillId: one.skillId },
        }))}
      />
      <Estimates
        title={texts.spaces}
        onChoose={onChoose}
        proposals={spaces.map((one) => ({
          ...one,
          key: one.spaceId,
          what: one.space,
          now: one.workPercent,
          then: one.workPercentThen,
          change: { kind: 'space', spaceId: one.spaceId },
        }))}
      />
      {setAside.length > 0 && (
        <List title={texts.setAside}>
          {setAside.map(({ taskId, task, factor }) => (
            <li key={taskId}>{texts.odd(task, number(factor))}</li>
          ))}
        </List>
      )}
      {leftOut.length > 0 && (
        <List title={texts.leftOut}>
          {leftOut.map(({ words, tasks }) => (
            <li key={words}>{texts.left(words, tasks)}</li>
          ))}
        </List>
      )}
      <Panel title={texts.method}>
        <p>{method}</p>
      </Panel>
    </>
  );
}

const List = ({
  title,
  children,
}: {
  readonly title: string;
  readonly children: ComponentChildren;
}) => (
  <Panel title={title}>
    <ul>{children}</ul>
  </Panel>
);

function Estimates({
  title,
  proposals,
  onChoose,
}: {
  readonly title: string;
  readonly proposals: readonly Proposal[];
  readonly onChoose: (proposal: Proposal) => void;
}) {
  if (proposals.length === 0) {
    return (
      <Panel title={title}>
        <p>{texts.none}</p>
      </Panel>
    );
  }
  return (
    <Panel title={title}>
      <ul class={css['plainList']}>
        {proposals.map((proposal) => (
          <li key={proposal.key} class={css['entry']}>
            <span class={css['entryText']}>
              <strong>
                <bdi>{proposal.what}</bdi>
              </strong>
              {texts.times(number(proposal.factor))}
              {proposal.now !== undefined && proposal.then !== undefined && (
                <span>{texts.percents(proposal.now, proposal.then)}</span>
              )}
              <span class={css['soft']}>
                {texts.between(number(proposal.low), number(proposal.high))}
                {' · '}
                {texts.tasks(proposal.tasks)}
                {' · '}
                {proposal.advised ? texts.advised : texts.notAdvised}
              </span>
            </span>
            <Button label={texts.applyThis(proposal.what)} onPress={() => onChoose(proposal)}>
              {texts.apply}
            </Button>
          </li>
        ))}
      </ul>
    </Panel>
  );
}
