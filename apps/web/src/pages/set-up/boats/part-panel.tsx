import { useState } from 'preact/hooks';
import { useYard } from '../../../frame/yard.tsx';
import { Button, Panel, Row } from '../../../looks/looks.tsx';
import { units } from '../../../session/session.ts';
import { quantity } from '../../../show/units.ts';
import { boats } from '../../../texts/boats.ts';
import { common } from '../../../texts/common.ts';
import { nameIn } from '../lists/lists.ts';
import css from '../set-up.module.css';
import { useBoatLists } from './boat-lists.ts';
import { JobDialog } from './job-dialog.tsx';
import { JobLine } from './job-line.tsx';
import { PartDialog } from './part-dialog.tsx';
import { Removing } from './removing.tsx';
import { type Boat, type Part, type Refit, removePart } from './requests.ts';

const texts = boats.part;

function wordsOf(part: Part, space: string): string {
  const mine = units.value;
  const { areaM2, edgeM, jointM, layers } = part;
  const outermost = layers.at(-1);
  return [
    texts.isIn(space),
    texts.sizeArea(quantity('area', areaM2, mine)),
    ...(edgeM > 0 ? [texts.sizeEdge(quantity('length', edgeM, mine))] : []),
    ...(jointM > 0 ? [texts.sizeJoint(quantity('length', jointM, mine))] : []),
    ...(outermost === undefined
      ? []
      : [texts.outermost(texts.bases[outermost.base], texts.surfaces[outermost.surface])]),
  ].join(', ');
}

/** One part: its sizes, what it is made of, and the jobs that are done to it. */
export function PartPanel({
  boat,
  refit,
  part,
}: {
  readonly boat: Boat;
  readonly refit: Refit;
  readonly part: Part;
}) {
  const { id: yardId } = useYard();
  const { boats: all = [], spaces, procedures, again } = useBoatLists();
  const [open, setOpen] = useState<'part' | 'job'>();
  const nameOfJob = (id: string): string => nameIn(procedures, id);
  const jobs = part.jobs.map((job) => nameOfJob(job.procedure));
  const joinedBy = refit.parts.flatMap((other) =>
    other.jobs
      .filter((job) => job.joins.includes(part.id))
      .map((job) => boats.job.of(nameOfJob(job.procedure), other.name)),
  );
  const keptBy = [
    ...(jobs.length === 0 ? [] : [texts.hasJobs(jobs)]),
    ...(joinedBy.length === 0 ? [] : [texts.joinedBy(joinedBy)]),
  ].join(' ');
  const close = (): void => setOpen(undefined);
  const saved = (): void => {
    close();
    again();
  };
  return (
    <Panel title={part.name} level={3}>
      <p class={css['soft']}>{wordsOf(part, nameIn(spaces, part.space))}</p>
      {part.jobs.length === 0 ? (
        <p>{boats.job.none}</p>
      ) : (
        <ol class={css['plainList']}>
          {part.jobs.map((job) => (
            <li key={job.id}>
              <JobLine refit={refit} part={part} job={job} />
            </li>
          ))}
        </ol>
      )}
      <Row>
        <Button onPress={() => setOpen('job')} label={boats.job.title(part.name)}>
          {boats.job.isNew}
        </Button>
        <Button label={boats.change(part.name)} onPress={() => setOpen('part')}>
          {common.edit}
        </Button>
        <Removing
          name={part.name}
          keptBy={keptBy === '' ? null : keptBy}
          remove={() => removePart({ yardId, id: part.id }, part.revision)}
          onRemoved={again}
        />
      </Row>
      {open === 'part' && (
        <PartDialog
          boat={boat}
          refit={refit}
          part={part}
          all={all}
          onSaved={saved}
          onClose={close}
        />
      )}
      {open === 'job' && (
        <JobDialog refit={refit} part={part} job={null} all={all} onSaved={saved} onClose={close} />
      )}
    </Panel>
  );
}
