import { Controller, Delete, Get, Param, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { ShownOnce } from '../../platform/idempotency/secret.ts';
import { PageOf } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import {
  Invitation,
  InvitationInput,
  InvitationPage,
  NewInvitation,
} from './invitations.contract.ts';
import { InvitationsService } from './invitations.service.ts';

@Controller('yards/:yardId')
export class InvitationsController {
  constructor(private readonly invitations: InvitationsService) {}

  @Get('invitations')
  @Answers(200, InvitationPage)
  list(@By() viewer: Viewer, @PageOf() page: PageRequest): Promise<Page<Invitation>> {
    return this.invitations.list(viewer, page);
  }

  @Post('people/:id/invitations')
  @ShownOnce('link')
  @Answers(201, NewInvitation)
  invite(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @BodyOf(InvitationInput) input: InvitationInput,
  ): Promise<NewInvitation> {
    return this.invitations.invite(viewer, id, input);
  }

  @Delete('invitations/:id')
  @Answers(204)
  revoke(@By() viewer: Viewer, @Param('id') id: string): Promise<void> {
    return this.invitations.revoke(viewer, id);
  }
}
