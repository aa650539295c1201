import { useState } from 'preact/hooks';
import { Photos } from '../../../deciding/photos.tsx';
import { mayOutdate } from '../../../deciding/outdates.ts';
import { api, asked } from '../../../api/client.ts';
import { type Problem, problemOf } from '../../../api/problem.ts';
import { useResource } from '../../../api/resource.ts';
import { CheckField } from '../../../form/fields.tsx';
import { useYard } from '../../../frame/yard.tsx';
import { Button, Panel, ProblemNotice, Row } from '../../../looks/looks.tsx';
import { units } from '../../../session/session.ts';
import { dayAndClock } from '../../../show/time.ts';
import { quantity } from '../../../show/units.ts';
import { common } from '../../../texts/common.ts';
import { deciding } from '../../../texts/deciding.ts';
import { desk as texts } from '../../../texts/desk.ts';
import { Detail, Facts } from '../detail.tsx';
import { useTaskNames } from '../task-names.ts';
import { Correct } from './correct.tsx';
import { change, namesOf, type Snag } from './requests.ts';
import { Rework } from './rework.tsx';

/** A defect that was found: what it is, what is done about it, whether the owner sees it. */
export function SnagPage({ id }: { readonly id: string }) {
  const { id: yardId } = useYard();
  const read = useResource<Snag | null>(
    `snag ${yardId} ${id}`,
    (signal) =>
      asked(
        api.GET('/api/v1/yards/{yardId}/snags/{id}', { params: { path: { yardId, id } }, signal }),
      ).catch((error: unknown) => {
        if (problemOf(error).status === 404) return null;
        throw error;
      }),
    {
      yardId,
      on: (event) => event.subjectId === id || event.subject === 'photo' || mayOutdate(event),
    },
  );
  return (
    <Detail<Snag>
      kind="snag"
      title={({ kindName, partName }) => texts.snag.title(kindName, partName)}
      read={read}
    >
      {(snag) => (
        <>
          <Found snag={snag} onChanged={read.put} again={read.again} />
          <Rework snag={snag} onChanged={read.put} again={read.again} />
        </>
      )}
    </Detail>
  );
}

interface OfSnag {
  readonly snag: Snag;
  readonly onChanged: (snag: Snag) => void;
  readonly again: () => void;
}

function Found({ snag, onChanged, again }: OfSnag) {
  const { id: yardId, timeZone: zone } = useYard();
  const [isCorrecting, setCorrecting] = useState(false);
  const names = useResource(`names ${yardId}`, (signal) => namesOf(yardId, signal)).data ?? {};
  const tasks = useTaskNames(yardId, snag.taskId === null ? [] : [snag.taskId]);
  const { areaM2, taskId, raisedBy, foundAt, state, note } = snag;
  return (
    <Panel>
      <p>{snag.words}</p>
      <p>
        {texts.snag.by(
          raisedBy === null ? '' : (names[raisedBy] ?? raisedBy),
          dayAndClock(foundAt, zone),
        )}
      </p>
      {snag.photos.length === 0 ? <p>{deciding.noPhotos}</p> : <Photos snag={snag} />}
      <Facts
        rows={[
          [
            texts.snag.size,
            areaM2 === null ? texts.snag.whole : quantity('area', areaM2, units.value),
          ],
          [texts.snag.work, taskId === null ? texts.snag.unknown : (tasks[taskId] ?? taskId)],
          ...(note === '' ? [] : [[texts.snag.note, note] as const]),
        ]}
      />
      <Shown snag={snag} onChanged={onChanged} again={again} />
      {(state === 'open' || state === 'proposed') && (
        <Row>
          <Button onPress={() => setCorrecting(true)}>{texts.snag.correct}</Button>
        </Row>
      )}
      {isCorrecting && (
        <Correct
          snag={snag}
          onChanged={(now) => {
            setCorrecting(false);
            onChanged(now);
          }}
          again={again}
          onClose={() => setCorrecting(false)}
        />
      )}
    </Panel>
  );
}

/** Whether the owner of the boat sees it: from the moment that it is ticked. */
function Shown({ snag, onChanged, again }: OfSnag) {
  const { id: yardId } = useYard();
  const [problem, setProblem] = useState<Problem>();
  const [said, setSaid] = useState('');
  const show = (shownToOwner: boolean): void => {
    setProblem(undefined);
    setSaid('');
    change(yardId, snag, { shownToOwner }).then(
      (now) => {
        onChanged(now);
        setSaid(shownToOwner ? texts.snag.shownNow : texts.snag.hiddenNow);
      },
      (error: unknown) => {
        const why = problemOf(error);
        if (why.status === 412) {
          setSaid(common.changedMeanwhile);
          again();
        } else setProblem(why);
      },
    );
  };
  return (
    <div>
      <CheckField label={texts.snag.show} value={snag.shownToOwner} onValue={show} />
      <p role="status">{said}</p>
      <ProblemNotice problem={problem} />
    </div>
  );
}
