import { Module } from '@nestjs/common';
import { SlotListsController } from './slot-lists.controller.ts';
import { SlotListsResolver } from './slot-lists.resolver.ts';
import { SlotListsService } from './slot-lists.service.ts';

@Module({
  controllers: [SlotListsController],
  providers: [SlotListsService, SlotListsResolver],
  exports: [SlotListsService],
})
export class SlotListsModule {}
