import { Controller, Delete, Get, Param, Patch, Post } from '@nestjs/common';
import { By } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { IfMatch } from '../../platform/etag/revision.ts';
import { Answers } from '../../platform/http/answers.ts';
import { PageOf } from '../../platform/paging/page-params.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import { Delivery, DeliveryInput, DeliveryPage, DeliveryPatch } from './deliveries.contract.ts';
import { DeliveriesService } from './deliveries.service.ts';

@Controller('yards/:yardId/deliveries')
export class DeliveriesController {
  constructor(private readonly deliveries: DeliveriesService) {}

  @Get()
  @Answers(200, DeliveryPage)
  list(@By() viewer: Viewer, @PageOf() page: PageRequest): Promise<Page<Delivery>> {
    return this.deliveries.list(viewer, page);
  }

  @Get(':id')
  @Answers(200, Delivery)
  get(@By() viewer: Viewer, @Param('id') id: string): Promise<Delivery> {
    return this.deliveries.get(viewer, id);
  }

  @Post()
  @Answers(201, Delivery)
  create(@By() viewer: Viewer, @BodyOf(DeliveryInput) input: DeliveryInput): Promise<Delivery> {
    return this.deliveries.create(viewer, input);
  }

  @Patch(':id')
  @Answers(200, Delivery)
  update(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
    @BodyOf(DeliveryPatch) patch: DeliveryPatch,
  ): Promise<Delivery> {
    return this.deliveries.update(viewer, id, revision, patch);
  }

  @Delete(':id')
  @Answers(204)
  remove(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @IfMatch() revision: number,
  ): Promise<void> {
    return this.deliveries.remove(viewer, id, revision);
  }
}
