import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { type CommandKind, workCommandSchema } from '#live/life/commands.ts';
import { phoneMoment, type PhoneTimes } from '#live/life/phone.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import type { Claim, ClaimInput, ClaimsWanted } from './claims.contract.ts';
import { findClaim, listClaims, taskOfClaim } from './claims.store.ts';
import { WorkService } from './work.service.ts';

/** What is reported of a claim; the rest is about the task. */
type OfClaim = Exclude<CommandKind, 'claim' | 'fail-batch' | 'undo'>;

@Injectable()
export class ClaimsService {
  constructor(
    private readonly database: Database,
    private readonly work: WorkService,
  ) {}

  list(viewer: Viewer, wanted: ClaimsWanted, page: PageRequest): Promise<Page<Claim>> {
    return this.database.inYard(viewer, (tx) =>
      listClaims(tx, viewer.yardId, viewer.memberId, wanted, page),
    );
  }

  get(viewer: Viewer, id: string): Promise<Claim> {
    return this.database.inYard(viewer, (tx) => findClaim(tx, viewer.yardId, id));
  }

  /** Takes a ready task for a crew. Of several at once one wins, and the others are told who did. */
  claim(viewer: Viewer, taskId: string, { crew, ...times }: ClaimInput): Promise<Claim> {
    const at = phoneMoment(times, new Date());
    return this.database.inYard(viewer, async (tx) => {
      const command = { kind: 'claim', taskId, crew } as const;
      const made = await this.work.actIn(tx, viewer, command, { at, reportId: null });
      if (made === null) throw new DomainError('record.missing', `There is no task "${taskId}".`);
      return made;
    });
  }

  /** What a crew does about a task that it holds, or has held until now. */
  report(
    viewer: Viewer,
    id: string,
    kind: OfClaim,
    { at: said, sentAt, ...more }: PhoneTimes & Readonly<Record<string, unknown>>,
  ): Promise<Claim> {
    const at = phoneMoment({ at: said, sentAt }, new Date());
    return this.database.inYard(viewer, async (tx) => {
      const taskId = await taskOfClaim(tx, viewer.yardId, id);
      const command = workCommandSchema.parse({ ...more, kind, taskId });
      const context = { at, reportId: null, claimId: id };
      const claim = await this.work.actIn(tx, viewer, command, context);
      return claim ?? (await findClaim(tx, viewer.yardId, id));
    });
  }
}
