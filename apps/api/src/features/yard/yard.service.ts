import { Injectable } from '@nestjs/common';
import { saveOutdoor } from '#persistence/yard/spaces.ts';
import { loadYard, saveYard } from '#persistence/yard/store.ts';
import { yardWarnings } from '#planning/yard/check/warnings.ts';
import { futureFaults } from '#planning/questions/future.ts';
import type { Account, Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { patched } from '../../platform/shapes/layers.ts';
import { makeTasks } from '../workload/workload.service.ts';
import { assertFits, refuse, refuseFaults } from '../soundness/soundness.service.ts';
import type {
  Outdoor,
  OutdoorInput,
  Yard,
  YardFile,
  YardList,
  YardPatch,
  YardWarnings,
} from './yard.contract.ts';
import { findOutdoor, findYard, showYard, updateYard, withForeman } from './yard.store.ts';

@Injectable()
export class YardService {
  constructor(private readonly database: Database) {}

  /** Those that the account is a member of, and that the session gets into. */
  list({ accountId, sessionId }: Account): Promise<YardList> {
    return this.database.asAccount(accountId, async (tx) => {
      const shown = await tx.session.count({
        where: { id: sessionId, secondFactorAt: { not: null } },
      });
      const where = {
        members: { some: { accountId } },
        ...(shown === 0 ? { secondFactorRequired: false } : {}),
      };
      const rows = await tx.yard.findMany({ where, orderBy: { id: 'asc' } });
      return { items: rows.map(showYard) };
    });
  }

  /** Takes in a whole file, which may be as bare as a name and a time zone. */
  create(account: Account, sent: YardFile): Promise<Yard> {
    const { file, memberId } = withForeman(sent, account);
    refuseFaults({ yard: file, path: '' });
    refuse(futureFaults(file, new Date().toISOString()));
    const yardId = file.id;
    const { accountId } = account;
    return this.database.founding({ yardId, accountId, memberId }, async (tx) => {
      await saveYard(tx, file, { memberId, accountId });
      const tasks = await makeTasks(tx, yardId);
      await appendEvent(tx, { yardId, memberId }, 'yard-added', 'yard', yardId, { tasks });
      return findYard(tx, yardId);
    });
  }

  get(viewer: Viewer): Promise<Yard> {
    return this.database.inYard(viewer, (tx) => findYard(tx, viewer.yardId));
  }

  update(viewer: Viewer, revision: number, patch: YardPatch): Promise<Yard> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const changed = patched(await findYard(tx, yardId), patch);
      await assertFits(tx, yardId, (yard) => ({ yard: patched(yard, patch), path: '' }));
      await updateYard(tx, revision, changed);
      await appendEvent(tx, viewer, 'yard-changed', 'yard', yardId);
      return findYard(tx, yardId);
    });
  }

  export(viewer: Viewer): Promise<YardFile> {
    return this.database.inYard(viewer, (tx) => loadYard(tx, viewer.yardId));
  }

  warnings(viewer: Viewer): Promise<YardWarnings> {
    return this.database.inYard(viewer, async (tx) => {
      const found = yardWarnings(await loadYard(tx, viewer.yardId));
      return { items: found.map(({ path, message, source }) => ({ path, message, source })) };
    });
  }

  outdoor(viewer: Viewer): Promise<Outdoor> {
    return this.database.inYard(viewer, (tx) => findOutdoor(tx, viewer.yardId));
  }

  importOutdoor(viewer: Viewer, input: OutdoorInput): Promise<Outdoor> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await assertFits(tx, yardId, (yard) => ({
        yard: { ...yard, outdoor: input },
        path: 'outdoor',
      }));
      await saveOutdoor(tx, yardId, input);
      await appendEvent(tx, viewer, 'outdoor-imported', 'outdoor', yardId, {
        hours: input.celsius.length,
      });
      return findOutdoor(tx, yardId);
    });
  }
}
