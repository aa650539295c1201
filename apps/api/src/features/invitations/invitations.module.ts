import { Module } from '@nestjs/common';
import { InvitationsController } from './invitations.controller.ts';
import { InvitationsResolver } from './invitations.resolver.ts';
import { InvitationsService } from './invitations.service.ts';
import { JoiningController } from './joining.controller.ts';
import { JoiningResolver } from './joining.resolver.ts';
import { JoiningService } from './joining.service.ts';

@Module({
  controllers: [InvitationsController, JoiningController],
  providers: [InvitationsService, InvitationsResolver, JoiningService, JoiningResolver],
  exports: [InvitationsService],
})
export class InvitationsModule {}
