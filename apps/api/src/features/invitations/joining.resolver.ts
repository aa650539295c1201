import { Mutation, Query, Resolver } from '@nestjs/graphql';
import { ByMaybe } from '../../platform/access/caller.ts';
import { From, type Origin } from '../../platform/access/origin.ts';
import type { Caller } from '../../platform/access/viewer.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import {
  InvitationAcceptance,
  InvitationPreview,
  InvitationToken,
  Joining,
} from './joining.contract.ts';
import { JoiningService } from './joining.service.ts';

@Resolver()
export class JoiningResolver {
  constructor(private readonly joining: JoiningService) {}

  @Query(() => InvitationPreview)
  invitationPreview(
    @ArgOf(InvitationToken) input: InvitationToken,
    @From() from: Origin,
  ): Promise<InvitationPreview> {
    return this.joining.preview(input, from);
  }

  @Mutation(() => Joining)
  acceptInvitation(
    @ByMaybe() caller: Caller,
    @ArgOf(InvitationAcceptance) input: InvitationAcceptance,
    @From() from: Origin,
  ): Promise<Joining> {
    return this.joining.accept(caller, input, from);
  }
}
