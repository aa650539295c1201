import { Module } from '@nestjs/common';
import { ProgramKeysController } from './program-keys.controller.ts';
import { ProgramKeysResolver } from './program-keys.resolver.ts';
import { ProgramKeysService } from './program-keys.service.ts';

@Module({
  controllers: [ProgramKeysController],
  providers: [ProgramKeysService, ProgramKeysResolver],
  exports: [ProgramKeysService],
})
export class ProgramKeysModule {}
