import { Module } from '@nestjs/common';
import { ProposalsModule } from '../proposals/proposals.module.ts';
import { ChangesController } from './changes.controller.ts';
import { ChangesResolver } from './changes.resolver.ts';
import { ChangesService } from './changes.service.ts';

@Module({
  imports: [ProposalsModule],
  controllers: [ChangesController],
  providers: [ChangesService, ChangesResolver],
})
export class ChangesModule {}
