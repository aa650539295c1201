import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { changeMeaning, changeWords } from '#live/change/meaning.ts';
import { loadForEdits, saveEdits } from '#persistence/live/edits.ts';
import { asJson } from '#persistence/rows.ts';
import { lockWork } from '#persistence/workload/store.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { asService } from '../../platform/database/as-service.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ProposalsService } from '../proposals/proposals.service.ts';
import { assertDecides, assertOpen, assertWithdraws } from './changes.rules.ts';
import { assertFew, findChange, findRow, inputOf, listChanges, refitOf } from './changes.store.ts';
import type {
  AcceptInput,
  Change,
  ChangeInput,
  ChangeState,
  RefuseInput,
} from './changes.contract.ts';
import { workOfChange } from './work-of-change.ts';

/**
 * Change orders. An owner's own transaction reads the own boats and writes but the change itself; what
 * follows of it for the yard is done as the service in the same transaction, which ends as it began,
 * since the audit goes by who is in at the end.
 */
@Injectable()
export class ChangesService {
  constructor(
    private readonly database: Database,
    private readonly proposals: ProposalsService,
  ) {}

  list(viewer: Viewer, state: ChangeState | undefined, page: PageRequest): Promise<Page<Change>> {
    return this.database.inYard(viewer, (tx) => listChanges(tx, viewer, state, page));
  }

  get(viewer: Viewer, id: string): Promise<Change> {
    return this.database.inYard(viewer, (tx) => findChange(tx, viewer, id));
  }

  /** Written down, and put to be priced. */
  ask(viewer: Viewer, { change, words }: ChangeInput): Promise<Change> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const refitId = await refitOf(tx, yardId, change);
      const said = await asService(tx, viewer, async () => {
        await assertFew(tx, yardId, refitId);
        return changeWords((await loadForEdits(tx, yardId)).yard, change);
      });
      const { id } = await tx.changeOrder.create({
        data: {
          yardId,
          refitId,
          kind: change.kind,
          input: asJson(change),
          words: words === '' ? said : `${said}. ${words}`,
          raisedById: viewer.memberId,
        },
      });
      await asService(tx, viewer, async () => {
        await this.#propose(tx, viewer, id, change);
        await appendEvent(tx, viewer, 'change-asked', 'change', id, { refitId, kind: change.kind });
      });
      return findChange(tx, viewer, id);
    });
  }

  /** Priced once more against the work and the plan of now. */
  reprice(viewer: Viewer, id: string): Promise<Change> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const row = await findRow(tx, yardId, id);
      assertOpen(row);
      await move(tx, yardId, id, 'asked');
      await asService(tx, viewer, async () => {
        await this.#propose(tx, viewer, id, inputOf(row));
        await appendEvent(tx, viewer, 'change-repriced', 'change', id, { refitId: row.refitId });
      });
      return findChange(tx, viewer, id);
    });
  }

  /**
   * Yes to the price that was read: the work is changed with it, unless it is not any more what was
   * priced (`proposal.stale`).
   */
  accept(viewer: Viewer, id: string, { proposalId, note }: AcceptInput): Promise<Change> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const row = await findRow(tx, yardId, id);
      assertOpen(row);
      if (row.state !== 'priced')
        throw new DomainError('change.state', 'It has no price yet, so nobody can say yes to it.');
      assertDecides(viewer, await findChange(tx, viewer, id), row, 'accept');
      await move(tx, yardId, id, 'accepted', decision(viewer, note));
      await asService(tx, viewer, async () => {
        await lockWork(tx, yardId);
        const edits = await this.proposals.take(tx, yardId, { changeOrderId: id }, proposalId);
        const lives = await saveEdits(tx, yardId, edits);
        const { refitId, words } = row;
        const payload = { changeId: id, refitId, words, lives: asJson(lives) };
        await appendEvent(tx, viewer, 'change-accepted', 'change', id, payload);
      });
      return findChange(tx, viewer, id);
    });
  }

  decline(viewer: Viewer, id: string, { note }: RefuseInput): Promise<Change> {
    return this.#end(viewer, id, 'declined', note);
  }

  withdraw(viewer: Viewer, id: string, { note }: RefuseInput): Promise<Change> {
    return this.#end(viewer, id, 'withdrawn', note);
  }

  #end(viewer: Viewer, id: string, state: 'declined' | 'withdrawn', note: string): Promise<Change> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const row = await findRow(tx, yardId, id);
      assertOpen(row);
      if (state === 'withdrawn') assertWithdraws(viewer, row);
      else assertDecides(viewer, await findChange(tx, viewer, id), row, 'decline');
      await move(tx, yardId, id, state, decision(viewer, note));
      await asService(tx, viewer, async () => {
        const closed = state === 'declined' ? 'declined' : 'superseded';
        await this.proposals.close(tx, yardId, { changeOrderId: id }, closed);
        await appendEvent(tx, viewer, `change-${state}`, 'change', id, { refitId: row.refitId });
      });
      return findChange(tx, viewer, id);
    });
  }

  async #propose(tx: Tx, viewer: Viewer, id: string, change: ChangeInput['change']): Promise<void> {
    const before = await loadForEdits(tx, viewer.yardId);
    const { edits, after, effect } = workOfChange(before, change, viewer.sees);
    const meaning = changeMeaning(change, before.workload, after.workload, effect);
    await this.proposals.propose(tx, viewer, { changeOrderId: id, edits, meaning });
  }
}

interface Decision {
  readonly decidedById: string;
  readonly decidedAt: Date;
  readonly note: string;
}

const decision = ({ memberId }: Viewer, note: string): Decision => ({
  decidedById: memberId,
  decidedAt: new Date(),
  note,
});

/** Of two who decide at once the second finds it decided. */
async function move(
  tx: Tx,
  yardId: string,
  id: string,
  state: ChangeState,
  data: Partial<Decision> = {},
): Promise<void> {
  const { count } = await tx.changeOrder.updateMany({
    where: { yardId, id, state: { in: ['asked', 'priced'] } },
    data: { state, ...data },
  });
  if (count !== 1) throw new DomainError('change.state', 'It has been decided meanwhile.');
}
