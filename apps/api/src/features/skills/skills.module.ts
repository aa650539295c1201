import { Module } from '@nestjs/common';
import { SkillsController } from './skills.controller.ts';
import { SkillsResolver } from './skills.resolver.ts';
import { SkillsService } from './skills.service.ts';

@Module({
  controllers: [SkillsController],
  providers: [SkillsService, SkillsResolver],
  exports: [SkillsService],
})
export class SkillsModule {}
