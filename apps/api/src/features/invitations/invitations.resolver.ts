import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { ShownOnce } from '../../platform/idempotency/secret.ts';
import { PageArg } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import {
  Invitation,
  InvitationInput,
  InvitationPage,
  NewInvitation,
} from './invitations.contract.ts';
import { InvitationsService } from './invitations.service.ts';

@Resolver(() => Invitation)
export class InvitationsResolver {
  constructor(private readonly invitations: InvitationsService) {}

  @Query(() => InvitationPage, { name: 'invitations' })
  list(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @PageArg() page: PageRequest,
  ): Promise<Page<Invitation>> {
    return this.invitations.list(viewer, page);
  }

  @Mutation(() => NewInvitation, { name: 'invite' })
  @ShownOnce('link')
  invite(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('personId', { type: () => ID }) personId: string,
    @ArgOf(InvitationInput) input: InvitationInput,
  ): Promise<NewInvitation> {
    return this.invitations.invite(viewer, personId, input);
  }

  @Mutation(() => Boolean, { name: 'revokeInvitation' })
  async revoke(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<boolean> {
    await this.invitations.revoke(viewer, id);
    return true;
  }
}
