import { Module } from '@nestjs/common';
import { CandidatesController } from './candidates.controller.ts';
import { CandidatesResolver } from './candidates.resolver.ts';
import { CandidatesService } from './candidates.service.ts';

@Module({
  controllers: [CandidatesController],
  providers: [CandidatesService, CandidatesResolver],
})
export class CandidatesModule {}
