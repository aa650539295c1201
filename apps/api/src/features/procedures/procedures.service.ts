import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { loadYard } from '#persistence/yard/store.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { assertFits, withRecord } from '../soundness/soundness.service.ts';
import type { ProcedurePreview, ProcedurePreviewInput } from './preview.contract.ts';
import { assertDraft, previewOf } from './preview.ts';
import type { Procedure, ProcedureInput, ProcedureVersionInput } from './procedures.contract.ts';
import { findProcedure, insertProcedure, listProcedures } from './procedures.store.ts';

@Injectable()
export class ProceduresService {
  constructor(private readonly database: Database) {}

  /** The current versions. */
  list(viewer: Viewer, page: PageRequest): Promise<Page<Procedure>> {
    return this.database.inYard(viewer, (tx) => listProcedures(tx, viewer.yardId, page));
  }

  /** The current version unless another is asked for. */
  get(viewer: Viewer, id: string, version?: number): Promise<Procedure> {
    return this.database.inYard(viewer, (tx) => findProcedure(tx, viewer.yardId, id, version));
  }

  /** The tasks it would make for a part, or for such sizes; nothing is made. */
  preview(viewer: Viewer, id: string, asked: ProcedurePreviewInput): Promise<ProcedurePreview> {
    return this.database.inYard(viewer, async (tx) => {
      const found = await findProcedure(tx, viewer.yardId, id, asked.version);
      const yard = await loadYard(tx, viewer.yardId);
      const procedure = asked.draft === undefined ? found : { ...found, ...asked.draft };
      if (asked.draft !== undefined) assertDraft(yard, procedure);
      return previewOf(yard, procedure, asked);
    });
  }

  create(viewer: Viewer, input: ProcedureInput): Promise<Procedure> {
    return this.#add(viewer, { ...input, version: 1 });
  }

  async createVersion(
    viewer: Viewer,
    id: string,
    { fromVersion, ...input }: ProcedureVersionInput,
  ): Promise<Procedure> {
    const { version } = await this.get(viewer, id);
    if (fromVersion !== undefined && fromVersion !== version) throw new DomainError('record.stale');
    return this.#add(viewer, { ...input, id, version: version + 1 });
  }

  /** Two who number a version at once meet at its primary key: the second is refused. */
  #add(viewer: Viewer, procedure: Procedure): Promise<Procedure> {
    const { id, version } = procedure;
    return this.database.inYard(viewer, async (tx) => {
      await assertFits(tx, viewer.yardId, (yard) => withRecord(yard, 'procedures', procedure));
      await insertProcedure(tx, viewer.yardId, procedure);
      await appendEvent(tx, viewer, 'procedure-added', 'procedure', id, { version });
      return findProcedure(tx, viewer.yardId, id, version);
    });
  }
}
