import { Controller, Get, Param, Patch, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { IfMatch } from '../../platform/etag/revision.ts';
import { Answers } from '../../platform/http/answers.ts';
import type { Page } from '../../platform/paging/page.ts';
import { BodyOf, QueryOf } from '../../platform/shapes/input.ts';
import { SnagDecisionsService } from './snag-decisions.service.ts';
import {
  AcceptReworkInput,
  Snag,
  SnagInput,
  SnagKinds,
  SnagNoteInput,
  SnagPage,
  SnagPatch,
  SnagsQuery,
} from './snags.contract.ts';
import { SnagsService } from './snags.service.ts';

@Controller('yards/:yardId')
export class SnagsController {
  constructor(
    private readonly snags: SnagsService,
    private readonly decisions: SnagDecisionsService,
  ) {}

  @Get('snag-kinds')
  @Answers(200, SnagKinds)
  kinds(): SnagKinds {
    return this.snags.kinds();
  }

  @Get('snags')
  @Answers(200, SnagPage)
  list(
    @By() viewer: Viewer,
    @QueryOf(SnagsQuery) { first, after, ...filter }: SnagsQuery,
  ): Promise<Page<Snag>> {
    return this.snags.list(viewer, filter, { first, after });
  }

  @Get('snags/:id')
  @Answers(200, Snag)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Snag> {
    return this.snags.get(viewer, id);
  }

  @Post('parts/:id/snags')
  @Answers(201, Snag)
  raise(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(SnagInput) input: SnagInput,
  ): Promise<Snag> {
    return this.snags.raise(viewer, id, input);
  }

  @Patch('snags/:id')
  @Answers(200, Snag)
  update(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
    @BodyOf(SnagPatch) patch: SnagPatch,
  ): Promise<Snag> {
    return this.snags.update(viewer, id, revision, patch);
  }

  @Post('snags/:id/propose')
  @Answers(202, Snag)
  propose(@By() viewer: Viewer, @Param('id') id: string): Promise<Snag> {
    return this.decisions.propose(viewer, id);
  }

  @Post('snags/:id/accept')
  @Answers(200, Snag)
  accept(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(AcceptReworkInput) input: AcceptReworkInput,
  ): Promise<Snag> {
    return this.decisions.accept(viewer, id, input);
  }

  @Post('snags/:id/dismiss')
  @Answers(200, Snag)
  dismiss(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(SnagNoteInput) { note }: SnagNoteInput,
  ): Promise<Snag> {
    return this.decisions.dismiss(viewer, id, note);
  }

  @Post('snags/:id/settle')
  @Answers(200, Snag)
  settle(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(SnagNoteInput) { note }: SnagNoteInput,
  ): Promise<Snag> {
    return this.decisions.settle(viewer, id, note);
  }

  @Post('snags/:id/reopen')
  @Answers(200, Snag)
  reopen(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(SnagNoteInput) { note }: SnagNoteInput,
  ): Promise<Snag> {
    return this.decisions.reopen(viewer, id, note);
  }
}
